"""Wear over hours: a line or a power law through the readings so far, and how far it can be trusted ahead."""

from __future__ import annotations

from math import exp

from gudgeon.calculators.alike import share
from gudgeon.calculators.points import numbers
from gudgeon.calculators.shape import FILE, WORDS, Answer, Calculator, Key, Result
from gudgeon.metrology import trend as m

EXAMPLE = "x,y\n100,0.012\n200,0.019\n300,0.031\n412,0.040\n"


def work(*, points: str, at: float | None, level: str, law: str, limit: float | None) -> Answer:
    rows = numbers(points, ("x", "y"))
    x, y = [row[0] for row in rows], [row[1] for row in rows]
    fit, sure = (m.power_law if law == "power" else m.straight_line)(x, y), share(level, "level")
    results = [
        Result(name="slope" if law == "line" else "exponent", value=fit.slope),
        Result(
            name="intercept" if law == "line" else "factor",
            value=fit.intercept if law == "line" else exp(fit.intercept),
        ),
        Result(name="u of slope" if law == "line" else "u of exponent", value=fit.u_slope),
        Result(name="u of intercept" if law == "line" else "relative u of factor", value=fit.u_intercept),
        Result(name="correlation", value=fit.correlation),
        Result(name="residual standard deviation", value=fit.s),
        Result(name="degrees of freedom", value=float(fit.nu)),
        Result(name="r squared", value=fit.r_squared),
    ]
    if at is not None:
        results += _there(fit.at(at, sure))
    notes = ["A fit never overrules a measured breach. Beyond the last reading it is a guess that grows."]
    if limit is not None:
        where, between = fit.reaches(limit, sure)
        results.append(Result(name="limit reached at", value=where))
        if between is None:
            notes.append(
                "When the limit is reached cannot be bounded at this level: the slope is not known well enough."
            )
        else:
            results += [
                Result(name="limit reached from", value=between[0]),
                Result(name="limit reached to", value=between[1]),
            ]
    return Answer(
        results=tuple(results),
        method="least squares; power: y = factor·x^exponent, the line in logarithms; intervals by Student's t",
        source="GUM (JCGM 100:2008) H.3; digits against NIST StRD; Fieller (1954) for where a limit is reached (from memory)",
        validity="three points or more; equal scatter along the line (equal relative scatter for the power law)",
        notes=tuple(notes),
    )


def _there(found: m.Prediction) -> list[Result]:
    return [
        Result(name="value at", value=found.value),
        Result(name="u at", value=found.u),
        Result(name="curve from", value=found.curve[0]),
        Result(name="curve to", value=found.curve[1]),
        Result(name="next reading from", value=found.next_reading[0]),
        Result(name="next reading to", value=found.next_reading[1]),
    ]


KIND = Calculator(
    key="trend",
    line="straight line or power law through readings, with intervals ahead and where a limit is reached",
    keys=(
        Key(name="points", dimension=FILE, help="readings, header x,y in whatever unit"),
        Key(name="at", dimension="number", help="place to predict", optional=True),
        Key(name="level", dimension=WORDS, help="confidence, 0.95 or 95%", default="95%"),
        Key(name="law", dimension=WORDS, help="line or power", default="line", choices=("line", "power")),
        Key(name="limit", dimension="number", help="limit to reach", optional=True),
    ),
    work=work,
    example="points=wear.csv at=500 limit=0.1",
    example_file=EXAMPLE,
)
