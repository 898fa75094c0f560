"""The form for an own thing: the places it can stand at, the gauges that read it, what it can come after."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from gudgeon.anatomy import expand, say
from gudgeon.shelf.gauges import GAUGE_KINDS
from gudgeon.units import dimension_of
from gudgeon.workbench.adding import own_of
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.ports import Landed

#: Units an own measure is usually read in.
UNITS = ("mm", "in", "N", "kPa", "%", "deg", "cm3")


class OwnForm(Struct, frozen=True, kw_only=True):
    """What can be chosen: places and parts in words, units, kinds of gauges with what they measure."""

    places: tuple[tuple[str, str], ...]
    slots: tuple[tuple[str, str], ...]
    units: tuple[str, ...]
    gauges: tuple[str, ...]


def own_form(bench: Workbench, number: str) -> OwnForm:
    """The form of a job."""
    engine = expand(bench.worked(number).given.book.layout)
    single = engine.layout.cylinders == 1
    known = {dimension_of(unit) for unit in UNITS}
    return OwnForm(
        places=tuple((place, say(place, single=single)) for place in engine.places),
        slots=tuple((slot, say(slot, single=single)) for slot in engine.slots),
        units=UNITS,
        gauges=tuple(kind for kind, dimension in GAUGE_KINDS.items() if dimension in known),
    )


def add_own(bench: Workbench, number: str, kind: str, cells: Mapping[str, str], hand: Hand) -> Landed:
    """Write an own thing into one job."""
    return bench.record(number, (own_of(kind, cells),), hand)[0]
