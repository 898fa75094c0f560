"""How far a bore or journal is from round: a two-point gauge sees an oval twice over and three lobes not at all."""

from __future__ import annotations

from gudgeon.calculators.points import lengths
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.metrology import roundness as m
from gudgeon.problem import Refused

EXAMPLE = "x_mm,y_mm\n1,7\n2,6\n5,8\n7,7\n9,5\n3,7\n"


def work(*, points: str) -> Answer:
    ring = lengths(points, ("x", "y"))
    fitted, zone = m.least_squares(ring), m.minimum_zone(ring)
    results = [
        Result(name="roundness", value=zone.width, unit="mm"),
        Result(name="roundness by least squares", value=fitted.width, unit="mm"),
        Result(name="peak above least squares", value=fitted.peak, unit="mm"),
        Result(name="valley below least squares", value=fitted.valley, unit="mm"),
        Result(name="root mean square", value=fitted.rms, unit="mm"),
        *_circle("least squares", fitted),
        *_circle("minimum zone", zone),
    ]
    notes = ["The inscribed circle's centre is badly determined on an oval bore: do not rest a decision on it."]
    for name, find in (("circumscribed", m.minimum_circumscribed), ("inscribed", m.maximum_inscribed)):
        try:
            circle = find(ring)
        except Refused as refused:
            notes.append(f"No {name} circle: {refused}")
            continue
        results += [*_circle(name, circle), Result(name=f"roundness by {name} circle", value=circle.width, unit="mm")]
    return Answer(
        results=(*results, Result(name="points", value=float(len(ring)))),
        method="minimum zone: two concentric circles as close as can be; least squares, circumscribed, inscribed beside it",
        source="ISO 12181-1 for the definitions (from memory); Gander, Golub and Strebel, BIT 34 (1994) for the fit",
        validity="4 points or more around the whole circle; on a short arc the minimum zone may not be the only one",
        notes=tuple(notes),
    )


def _circle(name: str, circle: m.Circle) -> tuple[Result, ...]:
    return (
        Result(name=f"{name} x", value=circle.x, unit="mm"),
        Result(name=f"{name} y", value=circle.y, unit="mm"),
        Result(name=f"{name} radius", value=circle.radius, unit="mm"),
    )


KIND = Calculator(
    key="roundness",
    line="roundness and reference circles from a file of points",
    keys=(Key(name="points", dimension=FILE, help="points of the circle, header x_mm,y_mm"),),
    work=work,
    example="points=bore.csv",
    example_file=EXAMPLE,
)
