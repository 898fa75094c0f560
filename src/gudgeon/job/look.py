"""What evidence looks at, worked out once for each engine, kind and place: most readings look where others looked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.job.freshness import Key
from gudgeon.job.joints import CLOSABLE, OPENED_BY_TESTS, TURNING
from gudgeon.job.parts import Inventory
from gudgeon.measurands.shape import Features, Where
from gudgeon.operations.shape import Disturbs
from gudgeon.routes.own import holds

NONE: Key = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """The features of one kind at one place.

    `parts` are slot and name of a surface, whose key depends on the part that stands there, and an empty slot and the key
    of a joint; `subject` is the one slot whose surfaces are all there is; `closable` are joints that can stand open;
    `across` is whether turning matters.
    """

    features: tuple[Feature, ...]
    labels: tuple[str, ...]
    parts: tuple[tuple[str, str, Key], ...]
    slots: tuple[str, ...]
    subject: str
    joints: tuple[Joint, ...]
    closable: tuple[str, ...]
    across: bool

    def keys(self, inventory: Inventory) -> tuple[Key, ...]:
        """The features as the things themselves, with the parts that stand in their slots now."""
        held = inventory.held
        return tuple([(held[slot] or f"no:{slot}", name) if slot else key for slot, name, key in self.parts])


@lru_cache(maxsize=4096)
def look_at(observes: Features, anatomy: Anatomy, where: str) -> Look:
    """What a measurand looks at there."""
    return look(observes(anatomy, where))


@lru_cache(maxsize=4096)
def look_of_work(does: Disturbs, anatomy: Anatomy, where: str) -> Look:
    """What an operation without further details touches, or closes, there."""
    return look(does(anatomy, where, {}))


@lru_cache(maxsize=256)
def look_of_hold(hold: str, anatomy: Anatomy) -> Look:
    """What a signed hold rests on; a hold that nobody knows rests on nothing."""
    return look(holds(anatomy)[hold].features(anatomy) if hold in holds(anatomy) else ())


@lru_cache(maxsize=512)
def places(where: Where, anatomy: Anatomy) -> frozenset[str]:
    """The places that a kind has on this engine."""
    return frozenset(where(anatomy))


def look(features: Iterable[Feature]) -> Look:
    """Work out what there is to know of these features before any part is known."""
    seen = tuple(features)
    joints = tuple(f for f in seen if not isinstance(f, Surface))
    return Look(
        features=seen,
        labels=tuple(map(str, seen)),
        parts=tuple(
            (f.slot, f.name, NONE) if isinstance(f, Surface) else ("", "", (f"@{f.place}", f.name)) for f in seen
        ),
        slots=tuple(dict.fromkeys(f.slot for f in seen if isinstance(f, Surface))),
        subject=subject_slot(seen),
        joints=joints,
        closable=tuple(str(f) for f in joints if f.name in CLOSABLE - OPENED_BY_TESTS),
        across=any(f.name in TURNING for f in joints),
    )


def subject_slot(features: Sequence[Feature]) -> str:
    """The one slot whose surfaces are all that is observed: then the reading travels with the part that stood there."""
    slots = {f.slot if isinstance(f, Surface) else "" for f in features}
    return slots.pop() if len(slots) == 1 else ""
