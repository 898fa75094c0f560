"""A torque before it lands: which fastener, which stage, what reaches the bolt, and whether this wrench is true there.

An adapter lengthens the lever: what is set on the wrench is then less than what the bolt gets, and both are looked at.
"""

from __future__ import annotations

from gudgeon import units
from gudgeon.book.fasteners import FastenerRow
from gudgeon.job.entries import TorqueApplied
from gudgeon.mechanics.wrench import at_bolt_nm, setting_nm
from gudgeon.plans.fasteners import rows_of, stages_of
from gudgeon.plans.shape import Given
from gudgeon.problem import refuse
from gudgeon.shelf.wrenches import Wrench

#: How far a torque may lie off the book's last one (common practice, no source).
OVER, UNDER = 1.05, 0.95
ADAPTER = ("extension", "angle", "length")


def check_torque(body: TorqueApplied, given: Given) -> None:
    """Refuse a torque that no joint, no fastener, no stage or no wrench stands for."""
    joints = {str(j) for slot in given.state.anatomy.slots.values() for j in slot.joints}
    joints |= {f"engine {f.name}" for f in given.book.fasteners if not f.joint}
    if body.joint.split("#")[0] not in joints:
        raise refuse(body.joint, "This engine has no such joint.", "Joints: {known}.",
                     known=", ".join(sorted(joints)[:20]))  # fmt: skip
    if not 1 <= body.stage <= body.of:
        raise refuse(body.joint, "Stage {n} of {of} is none.", "Count from 1.", n=body.stage, of=body.of)
    row = _row(body, given)
    wrench = given.shelf.wrench(body.wrench)
    if units.dimension_of(body.unit) == "angle":
        _by_angle(body, row)
        _after_the_stage_before(body, row, given)
        return
    torque = units.read(body.setting, "torque", unit=body.unit, where=body.joint)
    at_bolt = _at_bolt(body, torque.value, wrench)
    if row is not None and row.torque:
        _by_the_book(body, torque, at_bolt, row)
    _with_the_wrench(body, torque, wrench, given)
    _after_the_stage_before(body, row, given)


def _row(body: TorqueApplied, given: Given) -> FastenerRow | None:
    """The one kind of fastener that is meant; of several it must be named."""
    name = body.joint.partition("#")[2]
    rows = rows_of(given.book, body.joint)
    meant = [row for row in rows if name in ("", row.name)]
    if len(meant) == 1 or not rows:
        return meant[0] if meant else None
    known = ", ".join(row.name for row in rows)
    if name:
        raise refuse(
            body.joint, "The book gives this joint no {name}.", "Name one of: {known}.", name=name, known=known
        )
    raise refuse(body.joint, "The joint has several kinds of fasteners, each with its own stages.",
                 "Name the one that was drawn up: {known}.", known=known)  # fmt: skip


def _at_bolt(body: TorqueApplied, torque_nm: float, wrench: Wrench | None) -> float:
    """What reaches the bolt through the adapter in hand."""
    if not body.adapter:
        return torque_nm
    extension, angle, length = adapter_of(body.adapter, wrench, body.joint)
    return at_bolt_nm(torque_nm, length, extension, angle)


def adapter_of(typed: dict[str, str], wrench: Wrench | None, where: str) -> tuple[float, float, float]:
    """Extension in mm, angle in degrees, and the wrench's own length in mm: as typed, or from the shelf."""
    for name in typed:
        if name not in ADAPTER:
            raise refuse(where, "An adapter has no {name}.", "Give: {known}.", name=name, known=", ".join(ADAPTER))
    extension = units.read(typed.get("extension", ""), "length", unit="mm", where=f"{where}, adapter").value
    angle = units.read(typed.get("angle") or "0", "angle", unit="°", where=f"{where}, angle of the adapter").value
    if typed.get("length"):
        return extension, angle, units.read(typed["length"], "length", unit="mm", where=f"{where}, wrench").value
    if wrench is None or wrench.length is None:
        raise refuse(where, "An adapter counts against the length of the wrench, and that is not known.",
                     "Type it, or put it on the wrench's card: middle of the grip to the square.")  # fmt: skip
    return extension, angle, wrench.length.value


def set_to(torque_nm: float, typed: dict[str, str], wrench: Wrench | None, where: str) -> float:
    """What to set so that the bolt gets its torque through the adapter in hand."""
    if not typed:
        return torque_nm
    extension, angle, length = adapter_of(typed, wrench, where)
    return setting_nm(torque_nm, length, extension, angle)


def _by_the_book(body: TorqueApplied, torque: units.Quantity, at_bolt: float, row: FastenerRow) -> None:
    """No stage over what the book gives, and the last one near it: N·m read as pound-feet costs the head."""
    end, last = row.torque[-1], body.stage == body.of
    if last and row.angle is not None:
        raise refuse(body.joint, "The book turns {name} by {angle} last.", "Write the angle as the last stage.",
                     name=row.name, angle=str(row.angle))  # fmt: skip
    if at_bolt > OVER * end.value or (last and at_bolt < UNDER * end.value):
        through = f" at the bolt, {torque} set through the adapter" if body.adapter else ""
        raise refuse(body.joint, "{torque} is {nm:.1f} N·m{through}; the book ends this joint at {end}.",
                     "Look at the unit, at the number on the wrench, and at an adapter: its length belongs to the entry.",
                     torque=str(torque), nm=at_bolt, through=through, end=str(end))  # fmt: skip


def _by_angle(body: TorqueApplied, row: FastenerRow | None) -> None:
    angle = units.read(body.setting, "angle", unit=body.unit, where=body.joint)
    wanted = row.angle if row is not None else None
    if wanted is None:
        raise refuse(body.joint, "The book turns nothing here by an angle.", "Write the torque of the stage.")
    if angle.exact != wanted.exact:
        raise refuse(body.joint, "{given} is not the {angle} of the book.", "Too little: turn the rest and write it whole. "
                     "Too far: a new bolt.", given=str(angle), angle=str(wanted))  # fmt: skip


def _with_the_wrench(body: TorqueApplied, torque: units.Quantity, wrench: Wrench | None, given: Given) -> None:
    if wrench is None and body.wrench and given.shelf.wrenches:
        raise refuse(body.joint, "The shelf has no wrench {id}.", "Use one of: {known}.", id=body.wrench,
                     known=", ".join(w.id for w in given.shelf.wrenches))  # fmt: skip
    if wrench is not None and not wrench.covers(torque.value):
        raise refuse(body.joint, "{torque} is outside the proved range of {wrench}.", "Take a wrench that is proved there.",
                     torque=str(torque), wrench=wrench.id)  # fmt: skip


def _after_the_stage_before(body: TorqueApplied, row: FastenerRow | None, given: Given) -> None:
    """Stages are drawn up all round, lowest first: a face that was pulled down in one go does not lie even."""
    if row is None or body.of != len(stages_of(row)) or body.stage == 1:
        return
    there = (e.fact for e in given.state.evidence if e.fresh and isinstance(e.fact, TorqueApplied))
    if not any(fact.joint == body.joint and fact.stage == body.stage - 1 for fact in there):
        raise refuse(body.joint, "Stage {n} comes after stage {before}, and that is not written since the joint was opened.",
                     "Write each stage as it was drawn up, lowest first.", n=body.stage, before=body.stage - 1)  # fmt: skip
