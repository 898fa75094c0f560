"""What a missing part will stop: a bench that is full for a week because of one gasket should know it before it is full."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.operations.own import operations
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.needed import joints_of
from gudgeon.plans.shape import Buy, Given, Plan
from gudgeon.plans.walk import walk
from gudgeon.problem import Said, said

#: Parts inside are in before the barrel goes on.
_CLOSED_BY = {"rings": "base", "pin": "base", "guide axis": "keepers", "shim": "holder"}
#: What to do with a piece that came wrong (common practice, no source).
_TO_DO = {
    "other number": "send it back, order by number and mark",
    "wrong size": "measure it again cold, then send it back with the size",
    "broken": "photograph it in its packing and claim it",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortage:
    """A part that is not here, and the step of the route that it stops."""

    buy: Buy
    step: int
    words: Said


def shortages(given: Given, earlier: tuple[Plan, ...], missing: list[Buy]) -> tuple[Shortage, ...]:
    """The first step, still to come, that closes a joint over each part that is not here."""
    if not missing:
        return ()
    names = operations(given.state.anatomy)
    left = [(n, m.step, m.place) for n, m in enumerate(walk(given, earlier), 1)
            if m.step is not None and m.step.phase == "build" and not m.done]  # fmt: skip
    found = []
    for buy in missing:
        joints = _joints(given, buy)
        at = next((x for x in left if (x[1].joint in {j.split(" ")[-1] for j in joints} and _here(x[2], x[1].joint, joints))
                   or (not joints and x[1].operation == "fill_fluids")), None)  # fmt: skip
        if at is not None:
            n, step, _place = at
            words = said(
                "step {n}, {what}, will stop for the {part}", n=n, what=names[step.operation].name, part=buy.name
            )
            found.append(Shortage(buy=buy, step=n, words=words))
    return tuple(found)


def _here(place: str, joint: str, joints: set[str]) -> bool:
    return f"{place} {joint}" in joints or f"* {joint}" in joints


def _joints(given: Given, buy: Buy) -> set[str]:
    """The joints that are closed over a part, by place; a part without a slot goes into any of that name."""
    found = set()
    for slot in buy.slots:
        for joint in given.state.anatomy.slots[slot].joints if slot in given.state.anatomy.slots else ():
            found.add(f"{joint.place} {_CLOSED_BY.get(joint.name, joint.name)}")
    row = given.book.part(buy.number)
    return found or ({f"* {name}" for name in joints_of(row)} if row is not None else set())


def first_stop(stops: tuple[Shortage, ...]) -> tuple[Said, ...]:
    """The first step that will stop, and for what."""
    if not stops:
        return ()
    first = min(s.step for s in stops)
    names = ", ".join(dict.fromkeys(s.buy.name for s in stops if s.step == first))
    return (said("step {n} will stop for: {names}", n=first, names=names),)


def what_to_do(given: Given, number: str) -> tuple[Said, ...]:
    """What to do about pieces of a number that came wrong."""
    row = given.book.part(number)
    return tuple(
        said("entry {n}: {count} came wrong, {what}: {todo}{alike}", n=seq, count=fact.count, what=fact.what,
             todo=_TO_DO[fact.what], alike=f" ({row.mark}, not {row.look_alike})" if row and row.look_alike else "")
        for seq, fact in given.state.wrong
        if fact.number == number
    )  # fmt: skip


def left_over(given: Given) -> tuple[Said, ...]:
    """Shims that lie on the bench, with what the micrometer said: they go to stock as measured, never by their mark."""
    state, evidence = given.state, Evidence(given=given)
    found = []
    for part in state.parts.values():
        if part.kind != "shim" or state.slot_of(part.id):
            continue
        thickness = evidence.thickness(part.id)
        if thickness.known is not None and thickness.how == "measured":
            whence = f" of {say(part.id.removeprefix('orig:'))}" if part.id.startswith("orig:") else ""
            found.append(said("left over: {what} {size:.3f} mm, to stock as measured", what=f"shim{whence}",
                              size=thickness.known.value))  # fmt: skip
    return tuple(found)
