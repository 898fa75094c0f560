"""The ratio that the gauge and the fuel feel: only what is left of the stroke once the intake has closed is compressed."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import crank
from gudgeon.mechanics import volumes as m


def work(
    *,
    bore: float,
    stroke: float,
    chamber: float,
    gasket_bore: float | None,
    gasket_thickness: float,
    deck: float,
    dome: float,
    rod: float,
    intake_closes: float,
    offset: float,
) -> Answer:
    clearance = m.clearance_volume_cm3(
        bore_mm=bore,
        chamber_cm3=chamber,
        gasket_bore_mm=bore if gasket_bore is None else gasket_bore,
        gasket_thickness_mm=gasket_thickness,
        deck_mm=deck,
        dome_cm3=dome,
    )
    effective = m.effective_ratio(
        bore_mm=bore,
        stroke_mm=stroke,
        rod_mm=rod,
        clearance_cm3=clearance,
        intake_closes_deg=intake_closes,
        offset_mm=offset,
    )
    swept = m.displacement_cm3(bore, crank.true_stroke_mm(stroke, rod, offset))
    left = crank.piston_travel_mm(180 + intake_closes, stroke, rod, offset)
    return Answer(
        results=(
            Result(name="effective ratio", value=effective),
            Result(name="stroke left", value=left, unit="mm"),
            Result(name="static ratio", value=m.compression_ratio(swept, clearance)),
            Result(name="clearance volume", value=clearance, unit="cm³"),
        ),
        method="(clearance + piston area × stroke left at intake closing)/clearance; slider-crank for the stroke left",
        source="geometry; Heywood, Internal Combustion Engine Fundamentals, eq. 2.4 to 2.6 (from memory)",
        validity="rod longer than half the stroke and the offset; closing from 0° to 180° after the bottom",
        notes=("Say at which lift the closing is meant: 1 mm comes far before the seat, and gives a higher ratio.",),
    )


KIND = Calculator(
    key="effective-ratio",
    line="compression ratio that is left after the intake has closed",
    keys=(
        Key(name="bore", dimension="length", help="cylinder bore"),
        Key(name="stroke", dimension="length", help="stroke"),
        Key(name="chamber", dimension="volume", help="chamber in the head, valves and plug in place"),
        Key(name="gasket-bore", dimension="length", help="opening of the head gasket, else the bore", optional=True),
        Key(name="gasket-thickness", dimension="length", help="thickness of the gasket as crushed", default="0 mm"),
        Key(name="deck", dimension="length", help="piston below the deck at the top, negative above", default="0 mm"),
        Key(name="dome", dimension="volume", help="raised crown, negative for a dish", default="0 cm³"),
        Key(name="rod", dimension="length", help="connecting rod, centre to centre"),
        Key(name="intake-closes", dimension="angle", help="intake closing, crank degrees after the bottom"),
        Key(name="offset", dimension="length", help="bore axis beside the crank axis", default="0 mm"),
    ),
    work=work,
    example="bore=60mm stroke=50mm chamber=15.0cc gasket-bore=61.0mm gasket-thickness=0.50mm deck=0.20mm dome=1.2cc "
    "rod=100mm intake-closes=50",
)
