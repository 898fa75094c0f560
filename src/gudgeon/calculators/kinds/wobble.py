"""Clearance behind a rocked valve: a dial beyond the guide end reads more than the clearance a book's limit may mean."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import wobble as m


def work(*, reading: float, guide_length: float, stick_out: float, stem: float | None) -> Answer:
    clearance = m.clearance_mm(reading, guide_length, stick_out)
    results = [
        Result(name="clearance", value=clearance, unit="mm"),
        Result(name="reading over clearance", value=m.magnification(guide_length, stick_out)),
    ]
    if stem is not None:
        exact = m.exact_reading_mm(clearance, stem, guide_length, stick_out)
        results.append(Result(name="reading by the exact tilt", value=exact, unit="mm"))
    return Answer(
        results=tuple(results),
        method="clearance = reading · guide length / (guide length + 2 · stick-out)",
        source="geometry of a straight stem in a straight guide, derived",
        validity="full reading from side to side, dial square to the stem; straight guide and stem, small angle",
        notes=(
            "A bell-mouthed guide reads high.",
            "Compare with a limit for the same method only: a wobble limit is no clearance limit.",
        ),
    )


KIND = Calculator(
    key="wobble",
    line="stem-to-guide clearance behind the reading of a dial on the rocked valve",
    keys=(
        Key(name="reading", dimension="length", help="full dial reading from side to side"),
        Key(name="guide-length", dimension="length", help="length of the guide that bears"),
        Key(name="stick-out", dimension="length", help="from the guide end to the dial's point"),
        Key(name="stem", dimension="length", help="stem diameter, for the exact tilt", optional=True),
    ),
    work=work,
    example="reading=0.08mm guide-length=40mm stick-out=20mm",
)
