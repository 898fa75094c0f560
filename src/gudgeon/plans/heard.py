"""Where the air of a leak test is heard says which part leaks: the words for it, and what was heard in this job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.job.entries import Finding
from gudgeon.job.state import JobState

#: Places an ear or an eye goes to, as a finding names them, and how a bench says them.
PLACES: Mapping[str, str] = {
    "intake": "carburettor or intake",
    "exhaust": "exhaust",
    "filler": "oil filler or breather",
    "plug": "spark plug or tester hose",
    "head joint": "edge of the head joint",
    "coolant": "coolant: bubbles",
    "next cylinder": "plug hole of the next cylinder",
}
#: A finding's kind: one of these and the place.
HEARD, QUIET = "leak heard at the ", "quiet at the "
#: Where bubbles or a neighbour would be there to see.
LIQUID_ONLY, SEVERAL_ONLY = ("coolant",), ("next cylinder",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """Air heard at a place of a cylinder, or not heard there."""

    place: str
    there: bool
    seq: int


def places_of(state: JobState) -> tuple[str, ...]:
    """Where one may listen on this engine."""
    layout = state.anatomy.layout
    return tuple(
        place
        for place in PLACES
        if (layout.liquid or place not in LIQUID_ONLY) and (layout.cylinders > 1 or place not in SEVERAL_ONLY)
    )


def heard(state: JobState, cylinder: str) -> tuple[Heard, ...]:
    """All that was heard at a cylinder, in the order in which it was written down."""
    found = []
    for evidence in state.evidence:
        fact = evidence.fact
        if isinstance(fact, Finding) and fact.where == cylinder and (one := _one(fact.kind, evidence.entry.seq)):
            found.append(one)
    return tuple(found)


def _one(kind: str, seq: int) -> Heard | None:
    words = kind.strip().casefold()
    for start, there in ((HEARD, True), (QUIET, False)):
        place = words.removeprefix(start)
        if words.startswith(start) and place in PLACES:
            return Heard(place=place, there=there, seq=seq)
    return None
