"""Inside or outside, and how sure: near a wear limit the honest answer is a probability, not a word."""

from __future__ import annotations

from math import isfinite

from gudgeon.calculators.alike import alike, share
from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.metrology import conformity as m
from gudgeon.metrology.settle import needed_u
from gudgeon.problem import refuse

SAID = {"inside": "proven inside", "outside": "proven outside", "neither": "too close to call"}


def work(*, value: str, u: str, lower: str | None, upper: str | None, risk: str) -> Answer:
    if lower is None and upper is None:
        raise refuse("upper", "Neither lower nor upper was given.", "Give one limit or both.")
    found, unit = alike("value", {"value": value, "u": u, "lower": lower, "upper": upper})
    reading, spread, low, high = found["value"] or 0.0, found["u"] or 0.0, found["lower"], found["upper"]
    chance = share(risk, "risk")
    decision = m.decide(reading, spread, low, high, risk=chance)
    results = [
        Result(name="verdict", value=SAID[decision.proven]),
        Result(name="probability", value=decision.probability),
        Result(name="risk of being outside", value=1 - decision.probability),
        *_ends(decision, low, high, unit),
        Result(name="largest u that settles it", value=needed_u(reading, low, high, chance), unit=unit),
    ]
    if low is not None and high is not None and spread > 0:
        results.append(Result(name="capability of measuring", value=(high - low) / (4 * spread)))
    return Answer(
        results=tuple(results),
        method="p = Φ((upper − y)/u) − Φ((lower − y)/u); accepted where p ≥ 1 − risk, rejected where one tail is ≥ 1 − risk",
        source="JCGM 106:2012, 7 and 8.3; ISO 14253-1 for the risk of 5 % (from memory and secondary pages)",
        validity="normal with known u; u is the standard uncertainty, half of the ± that stands on a certificate with k = 2",
        notes=()
        if decision.guard < float("inf")
        else ("With this u no value at all can be accepted between these limits.",),
    )


def _ends(decision: m.Decision, low: float | None, high: float | None, unit: str) -> list[Result]:
    if not isfinite(decision.guard):
        return []
    results = [Result(name="guard band", value=decision.guard, unit=unit)]
    if low is not None:
        results.append(Result(name="accepted from", value=decision.accept_from, unit=unit))
    if high is not None:
        results.append(Result(name="accepted to", value=decision.accept_to, unit=unit))
    return results


KIND = Calculator(
    key="conformity",
    line="how surely a value lies within its limits, and what may be accepted",
    keys=(
        Key(name="value", dimension=WORDS, help="the value, with its unit"),
        Key(name="u", dimension=WORDS, help="its standard uncertainty"),
        Key(name="lower", dimension=WORDS, help="lower limit", optional=True),
        Key(name="upper", dimension=WORDS, help="upper limit", optional=True),
        Key(name="risk", dimension=WORDS, help="risk allowed, 0.05 or 5%", default="5%"),
    ),
    work=work,
    example="value=0.046mm u=0.003mm upper=0.050mm risk=5%",
)
