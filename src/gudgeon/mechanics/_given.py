"""What a formula was given, looked at before it is used, so that no formula returns a silent NaN."""

from __future__ import annotations

from math import inf

from gudgeon.problem import refuse

# Beyond these no engine has anything to measure, and products of what was given would overflow.
LARGEST = 1e12
SMALLEST = 1e-12


def finite(name: str, value: float) -> float:
    """`value`, or a refusal where it is not a finite number."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not -LARGEST <= value <= LARGEST:
        raise refuse(name, "{given} is not a number that can be used.", "Give a finite number.", given=str(value)[:40])
    return float(value)


def between(name: str, value: float, low: float, high: float, *, unit: str = "", ends: str = "[]") -> float:
    """`value` within `low` … `high`; `ends` says with or without them: ``"[]"``, ``"(]"``, ``"[)"``, ``"()"``."""
    number = finite(name, value)
    above = number >= low if ends[0] == "[" else number > low
    below = number <= high if ends[1] == "]" else number < high
    if above and below:
        return number
    raise refuse(
        name,
        "{given} was given.",
        f"Give {_allowed(low, high, ends)}.",
        given=_text(number, unit),
        low=_text(low, unit),
        high=_text(high, unit),
    )


def positive(name: str, value: float, *, unit: str = "") -> float:
    """`value`, or a refusal where it is not above zero."""
    number = between(name, value, 0.0, inf, unit=unit, ends="()")
    return between(name, number, SMALLEST, inf, unit=unit, ends="[)")


def not_negative(name: str, value: float, *, unit: str = "") -> float:
    """`value`, or a refusal where it is below zero."""
    return between(name, value, 0.0, inf, unit=unit, ends="[)")


def above(name: str, value: float, low: float, *, unit: str = "") -> float:
    """`value`, or a refusal where it does not exceed `low`."""
    return between(name, value, low, inf, unit=unit, ends="()")


def at_least(name: str, value: float, low: float, *, unit: str = "") -> float:
    """`value`, or a refusal where it is smaller than `low`."""
    return between(name, value, low, inf, unit=unit, ends="[)")


def whole(name: str, value: float, least: int, most: int) -> int:
    """`value` as an integer from `least` to `most`."""
    number = between(name, value, least, most)
    if number != int(number):
        raise refuse(
            name,
            "{given} is not a whole number.",
            "Give a whole number from {least} to {most}.",
            given=number,
            least=least,
            most=most,
        )
    return int(number)


def _text(value: float, unit: str) -> str:
    return f"{value:.9g} {unit}".rstrip()


def _allowed(low: float, high: float, ends: str) -> str:
    over = "{low} or more" if ends[0] == "[" else "more than {low}"
    under = "{high} or less" if ends[1] == "]" else "less than {high}"
    if high == inf:
        return over
    return under if low == -inf else f"{over} and {under}"
