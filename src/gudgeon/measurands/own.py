"""The measurands of one engine: those that Gudgeon knows, and what the workshop wants read beside them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from gudgeon import units
from gudgeon.anatomy import Anatomy, Feature, Surface, surfaces_of
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.shape import Features, Measurand
from gudgeon.own import OwnMeasure


@lru_cache(maxsize=64)
def measurands(anatomy: Anatomy) -> Mapping[str, Measurand]:
    """Every measurand of this engine by key, its own ones last."""
    own = anatomy.layout.own.measures
    return {**MEASURANDS, **{one.key: _kind(one) for one in own}} if own else MEASURANDS


def _kind(own: OwnMeasure) -> Measurand:
    slots = {slot.split("/")[0]: slot for slot in own.slots}
    return Measurand(
        key=own.key,
        name=own.name,
        dimension=own.dimension,
        unit=units.INSIDE.get(own.dimension, ""),
        gauges=own.gauges,
        where=lambda _anatomy: tuple(slots),
        observes=_observed(slots, on_part=own.on_part),
        points=lambda _anatomy, _where: own.points,
        words=own.words,
        pair="feeler" in own.gauges,
        ask=own.ask,
        caution=own.caution,
        example=own.good or "0.12",
    )


def _observed(slots: Mapping[str, str], *, on_part: bool) -> Features:
    """Every surface of the part that stands there; and its joint, where taking it out is enough to read it again."""

    def observes(anatomy: Anatomy, where: str) -> tuple[Feature, ...]:
        slot = anatomy.slots[slots[where]]
        surfaces = tuple(Surface(slot=slot.name, name=name) for name in surfaces_of(slot.kind))
        return surfaces if on_part else (*surfaces, *slot.joints)

    return observes
