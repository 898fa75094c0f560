"""The calculators as a technician types them, against values worked out elsewhere (the sources stand with the formulas)."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main

SET = "bore=60mm stroke=50mm chamber=15.0cc gasket-bore=61.0mm gasket-thickness=0.50mm deck=0.20mm dome=1.2cc"
INCHES = (
    "bore=2.362204724in stroke=1.968503937in chamber=0.915356in³ gasket-bore=2.401574803in gasket-thickness=19.68503937thou "
    "deck=7.874015748thou dome=0.07322849in³"
)
CASES = [
    ("compression-ratio", SET, "ratio", 9.932468, 1e-6),
    ("compression-ratio", SET, "clearance_volume", 15.826720, 1e-6),
    ("compression-ratio", INCHES, "ratio", 9.932468, 2e-5),
    ("compression-ratio", SET + " wanted=9.5", "volume_to_add", 0.805241, 1e-6),
    ("effective-ratio", SET + " rod=100mm intake-closes=50", "effective_ratio", 8.667746, 1e-6),
    ("effective-ratio", SET + " rod=100mm intake-closes=0°", "effective_ratio", 9.932468, 1e-6),
    ("atmosphere", "altitude=1000m", "pressure", 89.87628, 1e-5),
    ("atmosphere", "altitude=1000m height=geopotential", "pressure", 89.87456, 1e-5),
    ("atmosphere", "altitude=10000ft height=geopotential", "pressure", 10.108 * 6.894757, 0.02),
    ("atmosphere", "altitude=1500 gauge=9.0bar", "gauge_pressure_at_sea_level", 1078.4396, 1e-3),
    ("atmosphere", "altitude=1120m book=1200kPa", "gauge_pressure_to_expect_here", 1049, 0.5),
    ("cranking-pressure", "ratio=8.66774587 exponent=1.3 ambient=1.01325bar", "gauge_pressure", 1577.5, 0.05),
    ("cranking-pressure", "ratio=9 exponent=1.4 ambient=101.325kPa", "absolute_pressure", 2196.120, 1e-3),
    ("cranking-pressure", "ratio=9 exponent=1.4 ambient=101.325kPa leak=1.0mm bore=60mm stroke=50mm rod=100mm speed=500",
     "absolute_pressure_with_the_leak", 1755.8, 0.1),
    ("leak-down", "supply=80psi cylinder=60psi orifice=0.040in ambient=14.696psi", "loss", 25, 1e-9),
    ("leak-down", "supply=80psi cylinder=60psi orifice=0.040in ambient=14.696psi", "leak_diameter", 1.0453, 1e-4),
    ("leak-down", "supply=80psi cylinder=60psi orifice=1.016mm ambient=14.696psi", "area_ratio", 1.05856, 1e-5),
    ("leak-down", "supply=80psi leak=0.5mm orifice=0.040\" ambient=14.696psi", "loss", 1.607, 6e-4),
    ("leak-down", "supply=80psi loss=75% orifice=0.040in ambient=14.696psi", "leak_diameter", 1.6785, 1e-4),
    ("leak-down", "supply=690kPa loss=0 orifice=1.016mm ambient=100kPa", "leak_diameter", 0, 1e-12),
    ("thermal", "length=52mm from=20C to=28C expansion=23.1e-6", "change", 0.0096096, 1e-9),
    ("thermal", "length=52mm from=68°F to=82.4°F material=aluminium", "change", 0.0096096, 1e-9),
    ("bolt", "thread=M8 grade=8.8 friction=0.12", "preload", 18.63, 0.005),
    ("bolt", "thread=M8 grade=8.8 friction=0.12", "torque", 24.57, 0.01),
    ("bolt", "thread=M12x1.25 grade=10.9 friction=0.14", "torque", 149, 1),
    ("bolt", "thread=M6 grade=8.8 friction=0.146 torque=10Nm", "its_share_of_yield_load", 0.66, 0.005),
    ("bolt", "thread=M8 grade=8.8 friction=0.12 prevailing=3Nm", "torque", 27.57, 0.01),
    ("bolt", "thread=M10 grade=8.8 angle=90 clamped=60mm", "preload_by_the_angle", 37.114, 0.001),
    ("wrench", "torque=80Nm length=40cm extension=5cm angle=0", "setting", 71.111, 5e-4),
    ("wrench", "torque=80Nm length=40cm extension=5cm angle=90", "setting", 80, 1e-9),
    ("wrench", "torque=20ft-lb length=12in extension=3in", "setting", 16 * 1.355817948, 1e-6),
    ("wrench", "torque=62Nm lowest=20Nm highest=100Nm", "permissible_error_at_the_setting", 2.48, 1e-9),
    ("ring-gap", "bore-change=0.05mm", "gap_change", 0.157080, 5e-7),
    ("ring-gap", "bore-change=0.1", "gap_change", 0.314159, 5e-7),
    ("ring-gap", "gap-change=0.157080mm", "bore_change", 0.05, 1e-6),
    ("ring-gap", "gap-change=0 gap=0.24mm bore=60mm ring-at=200 bore-at=120", "hot_gap", 0.24 - 0.1719, 1e-4),
    ("milling", "milled=0.3mm opening=56mm depth=12mm", "volume_lost", 0.731335, 1e-6),
    ("milling", "milled=0.3mm opening=56mm depth=12mm", "volume_lost_by_the_area_rule", 0.738903, 1e-6),
    ("milling", "milled=0.3mm squish=1.0mm", "squish_after", 1.0, 0),
    ("milling", "milled=0.3mm squish=1.0mm recess=0.1mm", "squish_after", 0.9, 1e-12),
    ("milling", "milled=0.3mm squish=1.0mm part=cylinder", "squish_after", 0.7, 1e-12),
    ("milling", "milled=0.3mm part=cylinder bore=60mm", "volume_lost", 0.848230, 1e-6),
    ("milling", "opening=56mm bore=60mm stroke=50mm clearance=16.631961cc wanted=9.932468", "depth_to_mill_for_the_wanted_ratio",
     0.805241 / (3.141592653589793 / 4 * 5.6**2) * 10, 1e-5),
    ("milling", "milled=0.3mm part=cylinder bore=60mm stroke=50mm clearance=16cc", "ratio_after", 1 + 141.371669 / (16 - 0.848230),
     1e-6),
    ("piston", "stroke=50mm rod=100mm angle=45", "travel", 8.89723, 5e-6),
    ("piston", "stroke=50mm rod=100mm offset=1mm angle=45", "travel", 8.71886, 5e-6),
    ("piston", "stroke=50mm rod=100mm travel=8.89723mm", "angle", 45, 2e-5),
    ("piston", "stroke=50mm rod=100mm offset=1mm", "true_stroke", 50.002667, 1e-6),
    ("piston", "stroke=50mm rod=100mm speed=6000rpm", "mean_piston_speed", 10, 1e-12),
    ("fit", "hole=10mm shaft=10.03mm hole-at=200C", "clearance", 0.01158, 1e-6),
]  # fmt: skip


def asked(capsys: pytest.CaptureFixture[str], name: str, words: list[str]) -> dict[str, float | str]:
    assert main(["calc", name, *words, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["method"] and answer["source"] and answer["validity"]
    return {result["name"]: result["value"] for result in answer["results"]}


@pytest.mark.authority
@pytest.mark.parametrize(("name", "words", "result", "value", "apart"), CASES)
def test_published(
    capsys: pytest.CaptureFixture[str], name: str, words: str, result: str, value: float, apart: float
) -> None:
    assert asked(capsys, name, words.split())[result] == pytest.approx(value, abs=apart)


@pytest.mark.authority
def test_tightening(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert asked(capsys, "tightening", ["bolts=8"])["order"] == "1, 5, 3, 7, 2, 6, 4, 8"
    file = tmp_path / "head.csv"
    file.write_text("x_mm,y_in\n0,0\n0,2\n45,0\n45,2\n90,0\n90,2\n", encoding="utf-8")
    found = asked(capsys, "tightening", [f"points={file}", "torque=60Nm"])
    assert found["order"] == "3, 4, 1, 6, 2, 5"
    assert found["loosening_order"] == "5, 2, 6, 1, 4, 3"
    assert (found["round_1"], found["round_3"]) == (pytest.approx(18), pytest.approx(60))


@pytest.mark.authority
def test_repairs_of_valve_seats(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Three engines of the published 41: two repairs by day 326 in three engines, all watched so long."""
    file = tmp_path / "seats.csv"
    file.write_text("unit,age,end\n327,98,667\n328,326,667\n328,653,667\n329,,665\n", encoding="utf-8")
    found = asked(capsys, "repairs", [f"points={file}", "at=326"])
    assert found["mean_repairs_at"] == pytest.approx(2 / 3)
    assert (found["units"], found["repairs"]) == (3, 3)


BAD = [
    ("compression-ratio", "bore=60mm stroke=50mm chamber=1cc dome=9cc", "clearance volume"),
    ("effective-ratio", SET + " rod=20mm intake-closes=50", "too short"),
    ("effective-ratio", SET + " rod=100mm intake-closes=200", "intake-closes"),
    ("atmosphere", "altitude=20000m", "altitude"),
    ("atmosphere", "altitude=5kg", "distance"),
    ("cranking-pressure", "ratio=0.5", "ratio"),
    ("cranking-pressure", "ratio=9 ambient=0kPa", "ambient"),
    ("cranking-pressure", "ratio=9 leak=1mm", "bore, stroke, rod and speed"),
    ("leak-down", "supply=80psi cylinder=90psi orifice=1mm", "cylinder"),
    ("leak-down", "supply=80psi orifice=1mm", "None of cylinder"),
    ("leak-down", "supply=80psi cylinder=60psi", "orifice"),
    ("leak-down", "supply=80psi cylinder=60psi orifice=1mm to-supply=90psi", "not comparable"),
    ("leak-down", "supply=80 cylinder=60psi orifice=1mm", "psi"),
    ("thermal", "length=52mm to=28", "Neither expansion"),
    ("thermal", "length=52mm to=28 material=cheese", "aluminium"),
    ("bolt", "thread=M9 grade=8.8", "M3 to M16"),
    ("bolt", "thread=M8 grade=8", "10.9"),
    ("bolt", "thread=M8 grade=8.8 friction=5", "friction"),
    ("wrench", "torque=62Nm lowest=10Nm highest=60Nm", "12"),
    ("wrench", "torque=11Nm lowest=2Nm highest=60Nm", "12"),
    ("wrench", "torque=62Nm extension=5cm", "length"),
    ("tightening", "bolts=1", "bolts"),
    ("tightening", "", "Neither bolts"),
    ("ring-gap", "bore-change=nan", "bore-change"),
    ("milling", "milled=0.3mm", "Nothing else"),
    ("milling", "wanted=10", "needs the engine"),
    ("milling", "opening=56mm bore=60mm stroke=50mm clearance=16cc wanted=9", "already"),
    ("milling", "milled=2mm squish=1mm part=cylinder", "contact"),
    ("piston", "stroke=50mm rod=100mm angle=4 travel=3", "Both"),
    ("fit", "hole=10mm shaft=10mm hole-material=jelly", "grey iron"),
    ("ring-gap", "bore-change=0.1 gap-change=0.1", "Both"),
]


@pytest.mark.parametrize(("name", "words", "said"), BAD)
def test_refused(capsys: pytest.CaptureFixture[str], name: str, words: str, said: str) -> None:
    assert main(["calc", name, *words.split(), "--json"]) == 1
    problems = json.loads(capsys.readouterr().out)["problems"]
    assert said in " ".join(f"{p['where']} {p['what']} {p['remedy']}" for p in problems)
