"""Several values of one kind, whatever the kind: a limit, a reading and its uncertainty are lengths here and loads there."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.problem import Problem, Refused, refuse
from gudgeon.units import Quantity, read

# Temperatures are left out: an uncertainty of 1 °F is no point on the scale.
DIMENSIONS = (
    "number",
    "length",
    "force",
    "torque",
    "pressure",
    "angle",
    "volume",
    "mass",
    "time",
    "speed",
    "velocity",
    "stiffness",
    "percent",
    "stress",
)


def alike(first: str, texts: Mapping[str, str | None]) -> tuple[dict[str, float | None], str]:
    """The values of `texts` in the unit of the one named `first`, and that unit; bare numbers take it too."""
    lead, found = _lead(first, texts[first] or "")
    values: dict[str, float | None] = {first: float(lead.number)}
    problems: list[Problem] = []
    for name, text in texts.items():
        if name == first:
            continue
        try:
            values[name] = None if text is None else _in_unit(text, found, lead.unit, name)
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return values, lead.unit


def share(text: str, name: str) -> float:
    """A share typed as 0.05 or as 5 %."""
    return read(text, "percent", where=name).value / 100 if "%" in text else read(text, "number", where=name).value


def _lead(name: str, text: str) -> tuple[Quantity, str]:
    problems: tuple[Problem, ...] = ()
    for dimension in DIMENSIONS:
        try:
            return read(text, dimension, where=name), dimension
        except Refused as refused:
            problems = problems or refused.problems
    if any(sign.isalpha() for sign in text) and any(sign.isdigit() for sign in text):
        raise refuse(
            name, "{given} has a unit that is not known here.", "Give it in mm, N, kPa … or without.", given=text
        )
    raise Refused(problems)


def _in_unit(text: str, dimension: str, unit: str, name: str) -> float:
    quantity = read(text, dimension, unit=unit or None, where=name)
    return float(quantity.in_unit(unit)) if unit else quantity.value
