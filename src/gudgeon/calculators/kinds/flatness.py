"""How far a face is from flat, from a grid of readings: the zone that straightedge and feeler only guess at."""

from __future__ import annotations

from gudgeon.calculators.points import lengths
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.metrology import flatness as m

EXAMPLE = (
    "x_mm,y_mm,z_um\n0,0,0\n100,0,4\n200,0,6\n0,100,-5\n100,100,20\n200,100,-9\n0,200,-10\n100,200,-3\n200,200,8\n"
)


def work(*, points: str) -> Answer:
    grid = lengths(points, ("x", "y", "z"))
    least, fitted = m.minimum_zone(grid), m.least_squares(grid)
    high = ", ".join(str(row + 1) for row, side in sorted(least.contacts) if side == "high")
    low = ", ".join(str(row + 1) for row, side in sorted(least.contacts) if side == "low")
    return Answer(
        results=(
            Result(name="flatness", value=least.width, unit="mm"),
            Result(name="flatness by least squares", value=fitted.width, unit="mm"),
            Result(name="root mean square", value=fitted.rms or 0.0, unit="mm"),
            Result(name="points touching above", value=high),
            Result(name="points touching below", value=low),
            Result(name="points", value=float(len(grid))),
        ),
        method="distance of the two closest parallel planes that hold all points; least-squares plane beside it",
        source="ISO 12781-1 for the definition (from memory); exchange method proven by its contact points",
        validity="4 points or more, not on one line; tilt and place of the face do not matter",
        notes=("Numbers of points are rows below the header. What lies between the points was not seen.",),
    )


KIND = Calculator(
    key="flatness",
    line="flatness of a face from a file of points",
    keys=(Key(name="points", dimension=FILE, help="points of the face, header x_mm,y_mm,z_um"),),
    work=work,
    example="points=face.csv",
    example_file=EXAMPLE,
)
