"""What several screens draw alike: a state's shape, and the limit strip of a verdict."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from gudgeon.figures.stack import Shape
from gudgeon.figures.stack_rows import mark_figure
from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.web.words import FIGURES, figures, spoken
from gudgeon.workbench.view import CharacteristicView

#: The shape of each word a plan, a hold or a verdict may have.
SHAPES: dict[str, Shape] = {
    "ready": "now",
    "waits": "waits",
    "impossible": "stop",
    "nothing to do": "done",
    "open": "later",
    "passed": "done",
    "signed against": "out",
    "undone": "stop",
    "not needed": "later",
    "as new": "done",
    "serviceable": "done",
    "in setting": "done",
    "holds": "done",
    "in line": "done",
    "past limit": "stop",
    "tight": "stop",
    "loose": "stop",
    "leaks": "stop",
    "off": "stop",
    "too close to call": "waits",
    "not comparable": "waits",
    "stale": "out",
    "not measured": "later",
}


def mark(word: str, *, now: bool = False) -> str:
    """The shape of a word."""
    return mark_figure(SHAPES.get(word, "later"), spoken(word), now=now)


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictLine:
    """A verdict as a list shows it."""

    view: CharacteristicView
    mark: str
    strip: str
    value: str
    measure: str


def verdict_line(number: str, c: CharacteristicView, *, strip: bool = True) -> VerdictLine:
    """A verdict with its strip and the way to the bench."""
    drawn = strip and _limited(c) and c.value is not None
    return VerdictLine(
        view=c,
        mark=mark(c.verdict),
        strip=figures(limit_strip(_spec(c), FIGURES)) if drawn else "",
        value=f"{c.said} {c.unit}".strip() if c.said != c.verdict else "",
        measure=measure_link(number, c.address),
    )


def measure_link(number: str, address: str, gauge: str = "") -> str:
    """The bench at an address such as ``lash@c1.in.left``."""
    key, _, place = address.partition("@")
    asked = {"m": key, "at": place} | ({"gauge": gauge} if gauge else {})
    return f"/job/{number}/measure?{urlencode(asked)}" if place else f"/job/{number}/measure"


def _limited(c: CharacteristicView) -> bool:
    return bool(c.unit) and (c.low is not None or c.high is not None or c.new is not None)


def _spec(c: CharacteristicView) -> StripSpec:
    new = c.new or (None, None)
    return StripSpec(
        value=c.value,
        whisker=2 * c.u if c.u is not None else None,
        new_low=new[0],
        new_high=new[1],
        low=c.low,
        high=c.high,
        unit=c.unit,
        places=c.places,
        title=spoken(c.name),
    )
