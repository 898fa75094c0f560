"""Everything the job uses up, before it is known what lies here already: what plans ask for, and what always comes new."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from gudgeon.anatomy import BY_NUMBER
from gudgeon.book.parts import PartRow
from gudgeon.plans.fasteners import rows_at, times_drawn_up
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Plan
from gudgeon.problem import said
from gudgeon.routes.holds import joints_named

#: Joints that a job of a scope opens.
OPENS: Mapping[str, tuple[str, ...]] = {
    "valves": ("cover",),
    "leak test": (),
    "cylinder": ("cover", "holder", "sprocket", "tensioner", "head", "base", "rings", "pin"),
    "head out": ("cover", "holder", "sprocket", "tensioner", "head", "keepers"),
    "whole top end": ("cover", "holder", "sprocket", "tensioner", "head", "base", "rings", "pin", "keepers"),
}
#: Words in the name of a part without a slot that tell which joint uses it up (common practice, no source).
_AT = {"cover": "cover", "tensioner": "tensioner", "stud": "head", "head": "head", "exhaust": "head", "base": "base"}
#: Scopes after which fluids and what they flow through come new.
_DRAINED = ("cylinder", "head out", "whole top end")

Key = tuple[str, str]


def needed(given: Given, earlier: Iterable[Plan]) -> tuple[Buy, ...]:
    """Every part by number, equal ones together, kits in the place of their pieces."""
    asked = [buy for plan in earlier if plan.key not in ("order", "estimate") for buy in plan.buys]
    always = _always(given, {b.number for b in asked})
    seen = {(b.number, slot) for b in asked for slot in b.slots}
    new = [b for b in always if not any((b.number, slot) in seen for slot in b.slots)]
    return _merged(_in_kits(given, [*asked, *new]))


def opened(given: Given) -> frozenset[str]:
    """The names of the joints that this job opens, or has opened."""
    touched = {j.split(" ", 1)[1] for j in given.state.touched_joints if " " in j}
    return frozenset({*OPENS.get(given.state.scope, OPENS["whole top end"]), *touched})


def _always(given: Given, chosen: set[str]) -> list[Buy]:
    names = opened(given)
    kits = {p.kit for p in given.book.parts if p.kit}
    found: list[Buy] = []
    for row in given.book.parts:
        if row.renew != "always" or row.number in kits or not _for_this_engine(given, row):
            continue
        if row.slots:
            found += _slotted(given, row, names, chosen)
        elif _consumed(given, row, names):
            found.append(_buy(given, row, row.count * _drawn_up(given, row), ()))
    return found


def _slotted(given: Given, row: PartRow, names: frozenset[str], chosen: set[str]) -> list[Buy]:
    """One piece for each group of slots whose joint is opened."""
    slots = given.state.anatomy.slots
    found = []
    for group in row.groups():
        here = [s for s in group if s in slots]
        joints = {joint.name for s in here for joint in slots[s].joints}
        if here and joints & names and _is_the_one(given, row, here[0], chosen):
            found += [_buy(given, row, row.count, tuple(here))] * _times(given, here[0])
    return found


def _is_the_one(given: Given, row: PartRow, slot: str, chosen: set[str]) -> bool:
    """Of several numbers for one slot: the one a plan chose or that stands there new, else the kit's, else the first."""
    rows = given.book.parts_in(slot)
    if len(rows) == 1:
        return True
    part = given.state.parts.get(given.state.slots.get(slot) or "")
    standing = part.number if part is not None and part.received else ""
    for number in (*(r.number for r in rows if r.number in chosen), *(r.number for r in rows if r.number == standing)):
        return row.number == number
    usual = next((r for r in rows if r.kit), rows[0])
    return row.number == usual.number


def _times(given: Given, slot: str) -> int:
    """Once; once more where the new one was drawn up to its final stage and its joint stands open again."""
    state = given.state
    part = state.slots.get(slot) or ""
    again = state.anatomy.slots[slot].kind in BY_NUMBER and not part.startswith("orig:") and state.used.get(part, 0) > 0
    opened_again = any(str(j) in state.open_joints for j in state.anatomy.slots[slot].joints)
    return 2 if again and opened_again else 1


def _drawn_up(given: Given, part: PartRow) -> int:
    """How many sets of bolts a job uses up that are new each time: one for each closing, those opened again included."""
    for row in given.book.fasteners:
        bolts = row.name.casefold().rstrip("s")
        if row.renew not in ("always", "once") or not part.name.casefold().startswith(bolts):
            continue
        joints = joints_named(given.state.anatomy, (row.joint,))
        sets = [
            times_drawn_up(given.state, str(j), row, alone=len(rows_at(given.book, j)) == 1)
            + (str(j) in given.state.open_joints or str(j) not in given.state.touched_joints)
            for j in joints
            if row.holds(j.place, j.name)
        ]
        return max(1, sum(sets))
    return 1


def closed_again(given: Given, number: str) -> bool:
    """Whether a part without a slot is used up: every joint that takes it was opened, and is shut at its final stage."""
    row, state = given.book.part(number), given.state
    names = joints_of(row) if row is not None and not row.slots and row.renew == "always" else set()
    touched = [j for j in state.touched_joints if j.split(" ", 1)[-1] in names]
    return bool(touched) and not any(j in state.open_joints for j in touched)


def joints_of(row: PartRow) -> set[str]:
    """The joints that a part without a slot goes into, by the words of its name."""
    words = row.name.casefold().replace(",", " ").split()
    return {_AT[w] for w in words if w in _AT}


def _consumed(given: Given, row: PartRow, names: frozenset[str]) -> bool:
    joints = joints_of(row)
    if "coolant" in row.name.casefold() and not given.book.layout.liquid:
        return False
    return bool(joints & names) if joints else given.state.scope in _DRAINED


def _for_this_engine(given: Given, row: PartRow) -> bool:
    """Whether a part belongs to this engine's number: "0300–0999"."""
    ends = [e.strip() for e in row.engine_numbers.replace("-", "–").split("–")]
    number = given.state.opened.engine_number if given.state.opened else ""
    if len(ends) != 2 or not all(e.isdigit() for e in ends) or not number.isdigit():
        return True
    return int(ends[0]) <= int(number) <= int(ends[1])


def _buy(given: Given, row: PartRow, count: int, slots: tuple[str, ...]) -> Buy:
    return Buy(number=row.number, name=row.name, count=count, slots=slots, because=said("always new"),
               price=price_of(given, row.number))  # fmt: skip


def _in_kits(given: Given, buys: list[Buy]) -> list[Buy]:
    """A kit in the place of its pieces, where all of them are needed or they cost more."""
    found, looped = list(buys), given.book.looped_kits()
    for kit in dict.fromkeys(p.kit for p in given.book.parts if p.kit and p.kit not in looped):
        row = given.book.part(kit)
        members = [p.number for p in given.book.parts if p.kit == kit]
        inside = [b for b in found if b.number in members]
        price = price_of(given, kit)
        singly = sum((b.price or 0.0) * b.count for b in inside)
        whole = {b.number for b in inside} == set(members)
        if row is None or not inside or not (whole or (price is not None and price < singly)):
            continue
        once = list({b.number: b for b in inside}.values())
        slots = tuple(slot for b in once for slot in b.slots)
        rest = [b for b in found if not any(b is o for o in once)]
        names = ", ".join(b.name for b in once)
        kit_buy = Buy(
            number=kit, name=row.name, count=1, slots=slots, because=said("holds {names}", names=names), price=price
        )
        found = [*rest, kit_buy]
    return found


def _merged(buys: Iterable[Buy]) -> tuple[Buy, ...]:
    """Equal numbers and names on one line."""
    found: dict[tuple[str, str, bool, bool], Buy] = {}
    for buy in buys:
        key = (buy.number, buy.name, buy.on_hand, buy.sure)
        have = found.get(key)
        found[key] = buy if have is None else Buy(
            number=buy.number, name=buy.name, count=have.count + buy.count, slots=(*have.slots, *buy.slots),
            because=have.because, sure=buy.sure, price=buy.price, on_hand=buy.on_hand)  # fmt: skip
    return tuple(found.values())
