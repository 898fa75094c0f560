"""What a workshop adds to an engine family without code: parts, things to measure, steps and holds of its own.

A book or a job says them as rows; resolved to the engine's own places they become part of its layout, so that whoever
knows the engine knows them too. Whoever works them out makes ordinary kinds of them: nothing else tells them apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

#: What can be read by a number, or told in words.
OwnDimension = Literal["length", "force", "pressure", "percent", "angle", "volume", "words"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPart:
    """A part that no other layout has: its slot, and the joint that is touched when it is taken out or fitted."""

    slot: str
    kind: str
    joint_place: str
    joint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnMeasure:
    """Something to measure or to look at, read at these slots: one a place.

    `on_part` says that the reading travels with the part; otherwise taking the part out is enough to read it again.
    """

    key: str
    name: str
    dimension: OwnDimension
    slots: tuple[str, ...]
    gauges: tuple[str, ...]
    points: tuple[str, ...] = ("",)
    on_part: bool = False
    statistic: Literal["smallest", "largest", "mean"] = "mean"
    setting: bool = False
    words: tuple[str, ...] = ()
    good: str = ""
    scopes: tuple[str, ...] = ()
    ask: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnStep:
    """Something to do at these places: the surfaces it works on, and the step of the route after which it comes."""

    key: str
    name: str
    did: str
    places: tuple[str, ...]
    disturbs: tuple[str, ...] = ()
    after: str = ""
    scopes: tuple[str, ...] = ()
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnHold:
    """A hold that `proves` must pass, before a step or another hold."""

    key: str
    name: str
    hides: str
    proves: tuple[str, ...]
    before: str = ""
    scopes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """All that was added to one engine family."""

    parts: tuple[OwnPart, ...] = ()
    measures: tuple[OwnMeasure, ...] = ()
    steps: tuple[OwnStep, ...] = ()
    holds: tuple[OwnHold, ...] = ()

    def keys(self) -> tuple[str, ...]:
        """The keys of everything but parts."""
        return tuple(one.key for some in (self.measures, self.steps, self.holds) for one in some)


NOTHING = Own()
