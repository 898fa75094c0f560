"""An engine that goes back in parts is a box of parts: which are loose, where each belongs, and where it lies."""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.job.state import JobState
from gudgeon.view.record import LoosePart


def loose_parts(state: JobState) -> tuple[LoosePart, ...]:
    """Every part that stands behind an open joint, was taken out, is at a shop, was replaced, or was never fitted."""
    away, noted = _away(state), {fact.where: fact.words for _seq, fact in state.notes if fact.where}
    found = []
    for slot in state.anatomy.slots.values():
        shop = away.get(slot.name) or away.get(slot.parent, "")
        opened = [j for j in slot.joints if str(j) in state.open_joints]
        if not state.slots.get(slot.name):
            continue
        if shop or slot.name in state.out or opened:
            lies = shop or ("taken out" if slot.name in state.out else f"{opened[0].name} open")
            note = noted.get(slot.name) or noted.get(slot.place, "")
            found.append(LoosePart(what=_say(state, slot.name), lies=lies, note=note))
    return (*found, *_beside(state))


def _beside(state: JobState) -> tuple[LoosePart, ...]:
    """Parts that stand in no slot: what came out for good, and what was bought and not fitted."""
    standing = {part for part in state.slots.values() if part}
    found = []
    for part in state.parts.values():
        if part.id in standing:
            continue
        if part.id.startswith("orig:"):
            found.append(
                LoosePart(what=_say(state, part.id.removeprefix("orig:")), lies="replaced, beside the engine", note="")
            )
        else:
            mark = ", ".join(t for t in (part.number, part.mark, part.thickness) if t)
            found.append(LoosePart(what=f"new {part.kind} {mark}".strip(), lies="received, not fitted", note=""))
    return tuple(found)


def _away(state: JobState) -> dict[str, str]:
    """What is at a shop, by slot."""
    found = {}
    for slot in {done.where for done in state.did("sent_out")}:
        sent, back = state.did("sent_out", slot), state.did("came_back", slot)
        if len(sent) > len(back):
            order = sent[-1].detail.get("order", "")
            found[slot] = f"at the shop, order {order}" if order else "at the shop"
    return found


def _say(state: JobState, place: str) -> str:
    return say(place, single=state.anatomy.layout.cylinders == 1)
