"""How far a line is from straight: a shaft on blocks, one edge of a face, a guide along its length."""

from __future__ import annotations

from gudgeon.calculators.points import lengths
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.metrology import straightness as m

EXAMPLE = "x_mm,z_um\n0,0\n10,5\n20,2\n30,6\n40,0\n"


def work(*, points: str) -> Answer:
    line = lengths(points, ("x", "z"))
    least, fitted = m.minimum_zone(line), m.least_squares(line)
    return Answer(
        results=(
            Result(name="straightness", value=least.width, unit="mm"),
            Result(name="straightness by least squares", value=fitted.width, unit="mm"),
            Result(name="straightness by end points", value=m.end_points(line), unit="mm"),
            Result(name="root mean square", value=fitted.rms or 0.0, unit="mm"),
            Result(name="points", value=float(len(line))),
        ),
        method="distance of the two closest parallel lines that hold all points; least squares and end points beside it",
        source="ISO 12780-1 for the definition (from memory)",
        validity="3 points or more, in their order along the line for the end points",
    )


KIND = Calculator(
    key="straightness",
    line="straightness of a line from a file of points",
    keys=(Key(name="points", dimension=FILE, help="points along the line, header x_mm,z_um"),),
    work=work,
    example="points=line.csv",
    example_file=EXAMPLE,
)
