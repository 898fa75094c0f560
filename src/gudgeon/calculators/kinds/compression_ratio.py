"""Compression ratio from its volumes: a book's ratio is checked by it, and a skimmed head or another gasket moves it."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
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
    cylinders: float,
    wanted: float | None,
) -> Answer:
    across = bore if gasket_bore is None else gasket_bore
    swept = m.displacement_cm3(bore, stroke)
    clearance = m.clearance_volume_cm3(
        bore_mm=bore,
        chamber_cm3=chamber,
        gasket_bore_mm=across,
        gasket_thickness_mm=gasket_thickness,
        deck_mm=deck,
        dome_cm3=dome,
    )
    results = [
        Result(name="ratio", value=m.compression_ratio(swept, clearance)),
        Result(name="clearance volume", value=clearance, unit="cm³"),
        Result(name="swept volume", value=swept, unit="cm³"),
        Result(name="gasket volume", value=m.disc_volume_cm3(across, gasket_thickness), unit="cm³"),
        Result(name="deck volume", value=m.disc_volume_cm3(bore, deck), unit="cm³"),
        Result(name="displacement", value=m.displacement_cm3(bore, stroke, round(cylinders)), unit="cm³"),
    ]
    if wanted is not None:
        target = m.clearance_for_ratio_cm3(swept, wanted)
        results += [
            Result(name="clearance volume for the wanted ratio", value=target, unit="cm³"),
            Result(name="volume to add", value=target - clearance, unit="cm³"),
        ]
    return Answer(
        results=tuple(results),
        method="(swept + clearance)/clearance; clearance = chamber + gasket + deck − dome, discs π·D²·h/4",
        source="definition; Heywood, Internal Combustion Engine Fundamentals, eq. 2.1 (from memory)",
        validity="one cylinder; the gasket as crushed; the crevice above the top ring left out",
        notes=(
            "Deck is positive with the piston below it, dome positive where the crown is raised (a dish is negative).",
        ),
    )


KIND = Calculator(
    key="compression-ratio",
    line="compression ratio and clearance volume from bore, stroke, chamber, gasket, deck and dome",
    keys=(
        Key(name="bore", dimension="length", help="cylinder bore"),
        Key(name="stroke", dimension="length", help="stroke"),
        Key(name="chamber", dimension="volume", help="chamber in the head, valves and plug in place"),
        Key(name="gasket-bore", dimension="length", help="opening of the head gasket, else the bore", optional=True),
        Key(name="gasket-thickness", dimension="length", help="thickness of the gasket as crushed", default="0 mm"),
        Key(name="deck", dimension="length", help="piston below the deck at the top, negative above", default="0 mm"),
        Key(name="dome", dimension="volume", help="raised crown, negative for a dish", default="0 cm³"),
        Key(name="cylinders", dimension="count", help="number of cylinders, for the displacement", default="1"),
        Key(name="wanted", dimension="number", help="ratio wanted", optional=True),
    ),
    work=work,
    example="bore=60mm stroke=50mm chamber=15.0cc gasket-bore=61.0mm gasket-thickness=0.50mm deck=0.20mm dome=1.2cc",
)
