"""The operations of one engine: those that Gudgeon knows, and what the workshop does beside them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from gudgeon.anatomy import Anatomy, Feature, Surface, surfaces_of
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.operations.shape import Detail, Disturbs, Operation
from gudgeon.own import OwnStep


@lru_cache(maxsize=64)
def operations(anatomy: Anatomy) -> Mapping[str, Operation]:
    """Every operation of this engine by key, its own ones last."""
    own = anatomy.layout.own.steps
    return {**OPERATIONS, **{one.key: _kind(one) for one in own}} if own else OPERATIONS


def _kind(own: OwnStep) -> Operation:
    return Operation(
        key=own.key,
        name=own.name,
        did=own.did,
        where=lambda _anatomy: own.places,
        disturbs=_disturbed(own.disturbs),
        caution=own.caution,
    )


def _disturbed(slots: tuple[str, ...]) -> Disturbs:
    """Every surface of the parts it works on at its place; done for the whole engine, of all of them."""

    def disturbs(anatomy: Anatomy, where: str, _detail: Detail) -> tuple[Feature, ...]:
        here = [s for s in slots if s.split("/")[0] == where] or (list(slots) if where == "engine" else [])
        return tuple(Surface(slot=s, name=name) for s in here for name in surfaces_of(anatomy.slots[s].kind))

    return disturbs
