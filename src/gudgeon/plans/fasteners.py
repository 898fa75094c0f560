"""How the fasteners of a joint are drawn up and undone: each kind in its own stages, and which stand at their last one now.

A joint is as good as its worst bolt: it counts as tightened when every kind of fastener that the book gives for it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gudgeon.anatomy import Anatomy, Joint
from gudgeon.book.book import Book
from gudgeon.book.fasteners import FastenerRow
from gudgeon.job.entries import TorqueApplied
from gudgeon.job.state import Evidence, JobState
from gudgeon.mechanics.tightening import loosening, order_from_positions
from gudgeon.plans.shape import Given


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One stage of one kind of fastener, as the book gives it; an angle has no torque."""

    fastener: str
    stage: int
    of: int
    setting: str
    unit: str
    torque_nm: float | None


def stages_of(row: FastenerRow) -> tuple[Stage, ...]:
    """The torques in their order, and last the angle that is turned after them."""
    steps: list[tuple[str, str, float | None]] = [(str(t.number), t.unit, t.value) for t in row.torque]
    if row.angle is not None:
        steps.append((str(row.angle.number), row.angle.unit, None))
    return tuple(
        Stage(fastener=row.name, stage=n, of=len(steps), setting=setting, unit=unit, torque_nm=torque)
        for n, (setting, unit, torque) in enumerate(steps, 1)
    )


def order_of(row: FastenerRow) -> tuple[int, ...]:
    """The order of tightening: the book's, else from where the bolts stand, else none is known."""
    if row.order or not 2 <= len(row.positions_mm) == row.count:
        return row.order
    return order_from_positions(row.positions_mm)


def loosening_of(row: FastenerRow) -> tuple[int, ...]:
    """The order of undoing: the book's, else tightening backwards."""
    return row.loosen or loosening(order_of(row))


def drawn_up_by(book: Book, anatomy: Anatomy) -> Mapping[str, tuple[str, ...]]:
    """What must be at its last stage before a joint is closed: its kinds of fasteners, by joint."""
    joints = {j for slot in anatomy.slots.values() for j in slot.joints}
    found = {str(j): tuple(r.name for r in rows_at(book, j)) for j in joints}
    return {joint: names for joint, names in found.items() if names}


def rows_at(book: Book, joint: Joint) -> tuple[FastenerRow, ...]:
    """The fasteners of a joint that have stages."""
    return tuple(row for row in book.fasteners_at(joint.place, joint.name) if stages_of(row))


def rows_of(book: Book, joint: str) -> tuple[FastenerRow, ...]:
    """The same for a joint as it is written, and for a fastener that belongs to none: ``engine oil union``."""
    place, _, name = joint.partition("#")[0].partition(" ")
    alone = tuple(row for row in book.fasteners if not row.joint and place == "engine" and row.name == name)
    return alone or rows_at(book, Joint(place=place, name=name))


def finals(state: JobState, joint: str, row: FastenerRow, alone: bool) -> Iterator[Evidence]:
    """Every time that the last stage of this kind of fastener was written, oldest first."""
    for one in state.evidence:
        if not isinstance(one.fact, TorqueApplied) or one.fact.stage < one.fact.of:
            continue
        whole, _, name = one.fact.joint.partition("#")
        if whole == joint and (name == row.name or (alone and not name)):
            yield one


def not_drawn_up(given: Given, joint: Joint) -> tuple[str, ...]:
    """The kinds of fasteners of a joint whose last stage is not written since it was opened."""
    rows = rows_at(given.book, joint)
    return tuple(
        row.name
        for row in rows
        if not any(one.fresh for one in finals(given.state, str(joint), row, alone=len(rows) == 1))
    )


def times_drawn_up(state: JobState, joint: str, row: FastenerRow, alone: bool) -> int:
    """How often this kind of fastener was drawn up to its last stage, the joint opened between each two."""
    times, before = 0, None
    for one in finals(state, joint, row, alone):
        touches = [t for key in one.observed.keys for t in one.timeline.touched.get(key, ())]
        if before is None or any(before < t.position <= one.observed.position for t in touches):
            times += 1
        before = one.observed.position
    return times
