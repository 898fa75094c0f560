"""What every measurand must say of itself, so that form, command, freshness and record come from one file a kind."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from gudgeon.anatomy import Anatomy, Feature

Where = Callable[[Anatomy], tuple[str, ...]]
Points = Callable[[Anatomy, str], tuple[str, ...]]
Features = Callable[[Anatomy, str], tuple[Feature, ...]]
Dimension = Literal["length", "force", "pressure", "percent", "angle", "volume", "words"]

#: Conditions a reading may need, in the words shown beside the field.
NEEDS = {
    "cold": "engine cold, under 35 °C",
    "clean": "clean and dry",
    "tdc": "this cylinder at its compression TDC, or this lobe pointing away",
    "holder": "cam holder at final torque",
    "turned": "turned by hand at least two turns, running direction only",
    "room": "part at room temperature",
    "decompressor": "decompressor not acting",
}
#: Before a need that was not met: such a reading is kept and never used.
NOT = "not "


def one_point(_anatomy: Anatomy, _where: str) -> tuple[str, ...]:
    """The single unnamed point of a measurand that is read once a place."""
    return ("",)


def no_points(_anatomy: Anatomy, _where: str) -> tuple[str, ...]:
    """No further points."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurand:
    """Something that can be measured: where, with what, what it observes, and what it needs at that moment."""

    key: str
    name: str
    dimension: Dimension
    unit: str
    gauges: tuple[str, ...]
    where: Where
    observes: Features
    points: Points = one_point
    extra_points: Points = no_points
    #: The points where it wears most and soonest, two at least: read first unless measuring is full (common practice, no source).
    worst_first: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    plausible: tuple[float, float] | None = None
    words: tuple[str, ...] = ()
    pair: bool = False
    drawing: str = "gauge"
    ask: str = ""
    caution: str = ""
    example: str
