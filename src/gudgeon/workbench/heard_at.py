"""Where air may be heard at a leak-down, as places to tap: typed words would be another word on every bench."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.job.entries import Finding
from gudgeon.plans.heard import HEARD, PLACES, QUIET, heard, places_of
from gudgeon.workbench.bench import Workbench


class HeardPlace(Struct, frozen=True, kw_only=True):
    """A place one listens at: its words, the findings that say yes and no, and whether air was heard there last."""

    words: str
    kind: str
    quiet: str
    heard: bool

    def finding(self, cylinder: str) -> Finding:
        """The fact a tap writes down."""
        return Finding(kind=self.kind, where=cylinder)


def listening_at(bench: Workbench, number: str, cylinder: str) -> tuple[HeardPlace, ...]:
    """The places of this engine, in the order a technician listens."""
    state = bench.worked(number).given.state
    last = {one.place: one.there for one in heard(state, cylinder)}
    return tuple(
        HeardPlace(words=PLACES[place], kind=f"{HEARD}{place}", quiet=f"{QUIET}{place}", heard=last.get(place, False))
        for place in places_of(state)
    )
