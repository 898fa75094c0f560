"""What the gauges showed: the readings of the story as tables, apart from the work between them. All invented."""

from __future__ import annotations

IL, IR, EL, ER = VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
CAMS = ("cam.in", "cam.ex")
#: Measurand, place, point, what was typed, gauge.
Row = tuple[str, str, str, str, str]

MIC, MIC_50, MIC_100, HOLE = "MIC-25", "MIC-50", "MIC-100", "SH-1"
CALIPER, FEELER, EDGE, GRID, EYE = "CAL-1", "FEEL-1", "SE-1", "GRID-1", "eye"
TIP, LEVER, GLASS, SQUARE, TESTER = "DM-TIP", "LD-1", "GRAT-1", "SQ-1", "ST-1"
STRIP, CLAY, PRESSURE, LEAK, BORE, BORE_64 = "STRIP-1", "CLAY-1", "CG-1", "LT-1", "BG-88", "BG-64"

#: The six points of a stem, a guide or a bore.
SIX = tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")
#: Readings in another unit than millimetres.
UNITS = {TESTER: "N", PRESSURE: "kPa", LEAK: "%", BORE: "µm", BORE_64: "µm", EYE: ""}


def over(measurand: str, gauge: str, texts: str, places: tuple[str, ...] = VALVES) -> tuple[Row, ...]:
    """One reading a place, in their order."""
    return tuple((measurand, place, "", text, gauge) for place, text in zip(places, texts.split(), strict=True))


def six(measurand: str, place: str, gauge: str, texts: str) -> tuple[Row, ...]:
    """Three heights, two axes each."""
    return tuple((measurand, place, point, text, gauge) for point, text in zip(SIX, texts.split(), strict=True))


FOUND_COLD = (
    *over("lash", FEELER, "0.03/0.04 0.11/0.12 0.21/0.22 0.22/0.23"),
    ("compression", "c1", "cold", "1090", PRESSURE),
    ("leak_down", "c1", "cold", "24", LEAK),
)
FOUND_WARM = (
    ("compression", "c1", "warm", "985", PRESSURE),
    ("compression", "c1", "wet", "985", PRESSURE),
    ("leak_down", "c1", "warm", "52", LEAK),
)
OLD_SHIMS = over("shim_thickness", MIC, "1.845 1.797 1.698 1.752")
#: Before the keepers are touched: the head lies open and dirty on the bench.
SEALED = over("seal_test", EYE, "leaks weeps holds holds")

VALVE_TRAIN = (
    *six("stem_diameter", IL, MIC, "4.969 4.968 4.967 4.966 4.970 4.969"),
    *six("stem_diameter", IR, MIC, "4.976 4.976 4.975 4.974 4.977 4.976"),
    *six("stem_diameter", EL, MIC, "4.959 4.958 4.957 4.956 4.960 4.959"),
    *six("stem_diameter", ER, MIC, "4.960 4.959 4.958 4.957 4.961 4.960"),
    *six("guide_bore", IL, HOLE, "5.052 5.060 5.041 5.044 5.049 5.055"),
    *six("guide_bore", IR, HOLE, "5.018 5.021 5.012 5.013 5.016 5.019"),
    *six("guide_bore", EL, HOLE, "5.023 5.028 5.015 5.017 5.021 5.025"),
    *six("guide_bore", ER, HOLE, "5.022 5.026 5.014 5.016 5.020 5.023"),
    *over("stem_runout", LEVER, "0.012 0.014 0.022 0.018"),
    *over("valve_margin", CALIPER, "0.74 0.88 0.96 0.98"),
    *over("seat_width", GLASS, "1.55 1.30 1.35 1.30"),
    *over("contact", EYE, "high high centre centre"),
    *over("tip_height", TIP, "37.71 37.60 37.56 37.51"),
    *over("installed_height", CALIPER, "34.55 34.47 34.44 34.42"),
    *over("spring_free_length", CALIPER, "42.82 41.97 42.81 42.83"),
    *over("spring_load", TESTER, "171.0 153.6 169.2 170.4"),
    *over("spring_tilt", SQUARE, "0.5 0.7 0.6 0.5"),
    ("head_flatness", "head", "", "<0.02", EDGE),
)
CAM_TRAIN = (
    ("lobe_height", "cam.in", IL, "34.812", MIC_50),
    ("lobe_height", "cam.in", IR, "34.818", MIC_50),
    ("lobe_height", "cam.ex", EL, "34.627", MIC_50),
    ("lobe_height", "cam.ex", ER, "34.621", MIC_50),
    *over("base_circle", MIC_50, "28.98 28.99", CAMS),
    *over("journal_diameter", MIC, "21.966 21.968", CAMS),
    *over("journal_clearance", STRIP, "0.051 0.047", CAMS),
    *over("cam_runout", LEVER, "0.015 0.012", CAMS),
    *over("follower_bore", HOLE, "10.018 10.016 10.017 10.016"),
    *over("shaft_diameter", MIC, "9.975 9.975", CAMS),
    ("chain_length", "engine", "", "127.92", CALIPER),
)
CYLINDER = (
    *six("bore_diameter", "c1", BORE, "+13 +26 +11 +19 +6 +15"),
    ("piston_diameter", "c1", "", "87.946", MIC_100),
    ("side_clearance", "c1.ring.top", "", "0.058", FEELER),
    ("side_clearance", "c1.ring.second", "", "0.047", FEELER),
    ("pin_diameter", "c1", "", "18.993", MIC),
    ("pin_bore", "c1", "", "19.009", HOLE),
    ("small_end_bore", "c1", "", "19.023", HOLE),
    ("barrel_flatness", "c1", "", "0.04/0.05", EDGE),
)
OLD_RINGS_SLIP = ("ring_gap", "c1.ring.top", "", "3.4", FEELER)
OLD_RINGS = (
    ("ring_gap", "c1.ring.top", "", "0.34", FEELER),
    ("ring_gap", "c1.ring.second", "", "0.41", FEELER),
)
SETTLED = (("barrel_flatness", "c1", "", "0.036", GRID),)

#: The new intake left valve in the old seat, before the head goes out: what the bounds of the order rest on.
ENCLOSED = (
    *six("stem_diameter", IL, MIC, "4.985 4.984 4.984 4.983 4.986 4.985"),
    ("stem_runout", IL, "", "0.004", LEVER),
    ("valve_margin", IL, "", "1.02", CALIPER),
    ("tip_height", IL, "", "37.62", TIP),
    ("installed_height", IL, "", "34.46", CALIPER),
)
#: From the shop's sheet, read there with our bridge: the guide in and reamed, the seat not cut yet.
BEFORE_THE_CUT = (("tip_height", IL, "", "37.62", TIP),)
BACK = (
    *six("guide_bore", IL, HOLE, "5.005 5.006 5.004 5.004 5.005 5.005"),
    ("tip_height", IL, "", "37.91", TIP),
    ("tip_height", IR, "", "37.66", TIP),
    *over("seat_width", GLASS, "1.04 1.05", (IL, IR)),
    *over("contact", EYE, "centre centre", (IL, IR)),
    *over("installed_height", CALIPER, "34.75 34.53", (IL, IR)),
    ("head_flatness", "head", "", "<0.02", EDGE),
    ("spring_free_length", IR, "", "43.02", CALIPER),
    ("spring_load", IR, "", "175.4", TESTER),
    ("spring_tilt", IR, "", "0.4", SQUARE),
)
LAPPED = (
    *over("tip_height", TIP, "37.58 37.52", (EL, ER)),
    *over("seat_width", GLASS, "1.38 1.33", (EL, ER)),
    *over("contact", EYE, "centre centre", (EL, ER)),
)
WITH_SPACER = (("installed_height", IL, "", "34.50", CALIPER),)
SEALED_AGAIN = over("seal_test", EYE, "holds holds holds holds")

NEW_RINGS = (
    ("ring_gap", "c1.ring.top", "", "0.24", FEELER),
    ("ring_gap", "c1.ring.second", "", "0.36", FEELER),
    ("side_clearance", "c1.ring.top", "", "0.054", FEELER),
    ("side_clearance", "c1.ring.second", "", "0.043", FEELER),
)
TRIAL_LASH = (("lash", IL, "", "no gap", FEELER),)
SQUISH = tuple(
    ("squish", "c1", spot, text, MIC)
    for spot, text in zip(("intake", "exhaust", "left", "right"), ("0.98", "1.01", "0.99", "1.02"), strict=True)
)
TO_PISTON = over("valve_to_piston", CLAY, "1.90 1.95 2.30 2.35")

FIRST_LASH = over("lash", FEELER, "0.12/0.13 0.13/0.14 0.16/0.17 0.28/0.29")
PUT_RIGHT = over("lash", FEELER, "0.23/0.24 0.21/0.22", (EL, ER))
MARKS = tuple(("timing_marks", cam, "", "in line", EYE) for cam in CAMS)
OIL = (("oil_at_cams", "head", "", "seen", EYE),)
PROVED = (
    ("leak_down", "c1", "cold", "6", LEAK),
    ("compression", "c1", "cold", "1165", PRESSURE),
)

#: What was ordered, by part number: as soon as it was sure, and once the shims were planned.
FIRST_ORDER = {
    "371-1301": 1, "371-1110": 1, "371-1310": 1, "371-1311": 1, "371-1730": 1, "371-1741": 1, "371-1340": 4,
    "371-1900": 1, "371-1951": 2, "371-1952": 1, "371-1801": 1, "371-1960": 1, "371-1961": 1, "371-1970": 1,
}  # fmt: skip
SHIM_ORDER = {"371-1600": 1}
