"""The shim plan in words and numbers: what goes where, from where, to which lash, with which chance; what is bought."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from gudgeon.anatomy import say
from gudgeon.plans.evidence import Evidence, marked_mm, written_mm
from gudgeon.plans.landing import all_land, lands
from gudgeon.plans.lashes import Room, window_of
from gudgeon.plans.prices import price_of
from gudgeon.plans.response import Response
from gudgeon.plans.shape import Buy, Given, Line
from gudgeon.plans.shim_items import Item, system_of
from gudgeon.plans.shim_marks import agreeing
from gudgeon.plans.shim_set import Choice
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Verdict

#: A coated valve whose lash closed to this has worn through: no shim cures it (common practice, no source).
COATED_LEAST_MM = 0.05

Numbers = tuple[tuple[str, float | str | bool | None], ...]


def _where(evidence: Evidence, place: str) -> str:
    return say(place, single=evidence.state.anatomy.layout.cylinders == 1)


def stays(evidence: Evidence, valve: str) -> Line:
    """A valve that is in its setting: its shim and its lash as they stand."""
    part = evidence.state.slots.get(f"{valve}/shim") or ""
    verdict = evidence.given.judged.at("lash", valve)
    thickness = evidence.thickness(part).known
    numbers: Numbers = (
        ("valve", valve),
        ("shim", part),
        ("thickness_mm", thickness.value if thickness else None),
        ("lash_mm", verdict.value if verdict else None),
        ("probability", verdict.probability if verdict else None),
        ("buy", False),
        ("moved", False),
        ("from", "stays"),
    )
    return Line(where=valve, what=said("stays: in setting as read"), numbers=numbers)


def screw(given: Given, valve: str, verdict: Verdict | None) -> Line:
    """A valve whose lash is turned where it belongs."""
    window = window_of(given, valve)
    read = verdict.value if verdict else None
    aim = window.aim_mm if window else None
    numbers: Numbers = (
        ("valve", valve),
        ("read_mm", read),
        ("aim_mm", aim),
        ("buy", False),
        ("moved", False),
        ("turned", True),
    )
    what = said("set by its screw to {aim:.3f}, read again after its locknut", aim=aim) if aim is not None else said(
        "set by its screw, read again after its locknut")  # fmt: skip
    return Line(where=valve, what=what, numbers=numbers)


def of_choice(evidence: Evidence, one: Choice, chance: float) -> Line:
    """One valve of the set."""
    room, lash, window = one.room, one.lash, one.room.window
    own = evidence.state.slots.get(f"{room.valve}/shim") or ""
    thickness = evidence.thickness(own).known
    present = room.lash(thickness) if thickness else None
    numbers: Numbers = (
        ("valve", room.valve),
        ("shim", one.item.shim),
        ("thickness_mm", one.item.size_mm),
        ("lash_mm", lash.value),
        ("u_mm", lash.u),
        ("probability", lands(lash, window)),
        ("buy", one.bought),
        ("moved", one.moved),
        ("from", _origin(one)),
        ("measured", one.item.measured),
        ("wanted_mm", room.wanted_mm),
        ("aim_mm", window.aim_mm),
        ("present_shim", own),
        ("present_lash_mm", present.value if present else None),
        ("set_probability", chance),
    )
    doubt = () if one.sure else (said("nothing keeps clear of the tight wall: read it after two turns"),)
    return Line(
        where=room.valve, what=_what(evidence, one), numbers=numbers, because=(*room.basis, *doubt, *_by_its_mark(one))
    )


def _by_its_mark(one: Choice) -> tuple[Said, ...]:
    """A shim whose size is only written is measured before it goes in."""
    return () if one.item.measured else (said("known by its mark only: measure it before it goes in"),)


def _origin(one: Choice) -> str:
    if not one.moved:
        return "stays"
    return one.item.valve if one.item.origin == "slot" else one.item.origin


def _what(evidence: Evidence, one: Choice) -> Said:
    size, lash = one.item.size_mm, one.lash.value
    if not one.moved:
        return said("{size:.3f} stays: lash {lash:.3f}", size=size, lash=lash)
    match one.item.origin:
        case "slot":
            return said(
                "{size:.3f} from {where}: lash {lash:.3f}", size=size, where=_where(evidence, one.item.valve), lash=lash
            )
        case "spare":
            return said("{size:.3f} in hand: lash {lash:.3f}", size=size, lash=lash)
        case "shelf":
            return said("{size:.3f} from the shelf: lash {lash:.3f}", size=size, lash=lash)
        case "buy":
            return said("buy {size:.3f}: lash {lash:.3f}", size=size, lash=lash)


def put_right(evidence: Evidence, one: Response, other: Response) -> Line:
    """A valve whose shim and another's seem to stand in each other's place."""
    thickness = evidence.thickness(one.shim).known
    assert thickness is not None
    lash, window = one.before.lash(thickness), one.before.window
    numbers: Numbers = (
        ("valve", one.valve),
        ("shim", one.shim),
        ("thickness_mm", thickness.value),
        ("lash_mm", lash.value),
        ("u_mm", lash.u),
        ("probability", lands(lash, window)),
        ("buy", False),
        ("moved", False),
        ("from", "exchanged"),
        ("read_mm", one.read.value),
        ("off_mm", one.off.value),
        ("contradicts", True),
        ("exchanged_with", other.valve),
    )
    what = said("put {size:.3f} here, exchanged with {where}: lash {lash:.3f}", size=thickness.value,
                where=_where(evidence, other.valve), lash=lash.value)  # fmt: skip
    return Line(where=one.valve, what=what, numbers=numbers, because=(_against(one),))


def contradiction(one: Response, causes: tuple[Said, ...]) -> Line:
    """A valve whose lash is not what its shim should give."""
    numbers: Numbers = (
        ("valve", one.valve),
        ("shim", one.shim),
        ("read_mm", one.read.value),
        ("lash_mm", one.expected.value),
        ("off_mm", one.off.value),
        ("contradicts", True),
    )
    what = said("contradicts the plan: measure the shim that is in, look for dirt, read again")
    return Line(where=one.valve, what=what, numbers=numbers, because=(_against(one), *causes))


def _against(one: Response) -> Said:
    return said(
        "read {read:.3f}, expected {expected:.3f}: {off:+.3f}, beyond 3 × {u:.3f}",
        read=one.read.value,
        expected=one.expected.value,
        off=one.off.value,
        u=one.off.u,
    )


def chance_of(chosen: Sequence[Choice]) -> float:
    """The probability that the whole set lands."""
    return all_land([(c.lash, c.room.window) for c in chosen]) if chosen else 1.0


def summary(evidence: Evidence, chosen: Sequence[Choice], chance: float) -> tuple[Said, ...]:
    """The set as a whole: its chance, and which holders come out for it."""
    if not chosen:
        return ()
    anatomy, open_joints = evidence.state.anatomy, evidence.state.open_joints
    moved = [c.room.valve for c in chosen if c.moved]
    cams = dict.fromkeys(anatomy.cam(v) for v in moved if anatomy.layout.side(v).lift_cam)
    shut = [cam for cam in cams if f"{cam} holder" not in open_joints]
    out = [said("{cam} must come out", cam=_where(evidence, cam)) for cam in shut]
    only = [said("only one cam need come out")] if len(cams) == len(shut) == 1 and len(anatomy.cams) > 1 else []
    return (said("all {n} land in their windows: {p:.0%}", n=len(chosen), p=chance), *out, *only)


def warnings(evidence: Evidence, valves: Iterable[str], rooms: Mapping[str, Room]) -> tuple[Said, ...]:
    """Signs that shims are the wrong cure: said while the head is still on."""
    if evidence.state.scope != "valves":
        return ()
    found = []
    for valve in valves:
        where, verdict = _where(evidence, valve), evidence.given.judged.at("lash", valve)
        read = verdict.as_found if verdict else None
        none = read is not None and read.said == "no gap"
        closed = none or (read is not None and read.value is not None and read.value < COATED_LEAST_MM)
        if closed and evidence.state.anatomy.layout.side(valve).coated:
            found.append(said("{where}: coated and nearly closed: stop calculating, take the head off", where=where))
        elif none:
            found.append(said("{where}: no gap at all: leak-down first; if it leaks, stop calculating, take the head off",
                              where=where))  # fmt: skip
        system, room = system_of(evidence.given, valve), rooms.get(valve)
        if system is None or room is None or room.room is None:
            continue
        least, step = system.sizes()[0], system.step.value
        if room.wanted_mm < least - step:
            found.append(said("{where}: wants {wanted:.3f}, far below the first shim of {least:.2f}: the seat is worn away: "
                              "stop calculating, take the head off", where=where, wanted=room.wanted_mm, least=least))  # fmt: skip
    return tuple(found)


def marks(evidence: Evidence, valves: Iterable[str]) -> tuple[Said, ...]:
    """Marks that may mean two sizes, or that the micrometer speaks against, on shims within reach of these valves."""
    state = evidence.state
    standing = {state.slots.get(f"{v}/shim") or "": _where(evidence, v) for v in valves}
    spare = {
        p: "in hand" for p, row in state.parts.items() if row.kind == "shim" and row.received and not state.slot_of(p)
    }
    found = []
    for part, where in {**spare, **standing}.items():
        row, thick = state.parts.get(part), evidence.thickness(part)
        if row is None or not thick.meanings:
            continue
        sizes = " or ".join(f"{size:.2f}" for size in thick.meanings)
        if thick.known is None:
            found.append(said("shim {where}, marked {mark}: {sizes}? Measure it: a short mark is no size",
                              where=where, mark=row.mark, sizes=sizes))  # fmt: skip
        elif thick.how == "measured":
            found += _against_mark(where, row.mark, thick.meanings, thick.known.value, sizes)
    return tuple(found)


def _against_mark(where: str, mark: str, sizes: tuple[float, ...], measured: float, words: str) -> list[Said]:
    meant = agreeing(sizes, measured)
    if meant is None:
        return [said("shim {where}, marked {mark} ({sizes}), measures {measured:.3f}: worn, or not what its mark says; "
                     "the micrometer counts", where=where, mark=mark, sizes=words, measured=measured)]  # fmt: skip
    if len(sizes) > 1:
        return [said("shim {where}, marked {mark}: {sizes}; it measures {measured:.3f}, so {meant:.2f} is meant",
                     where=where, mark=mark, sizes=words, measured=measured, meant=meant)]  # fmt: skip
    return []


def buys(given: Given, chosen: Sequence[Choice]) -> tuple[Buy, ...]:
    """What the set takes from the shop and from the shelf, equal sizes together."""
    found: dict[tuple[str, float, str], list[str]] = {}
    for one in chosen:
        if one.item.origin in ("buy", "shelf"):
            system = system_of(given, one.room.valve)
            size = one.item.size_mm if one.bought else _nominal(one.item)
            key = (system.part if system else "", size, one.item.origin)
            found.setdefault(key, []).append(f"{one.room.valve}/shim")
    return tuple(
        _buy(given, number, size, tuple(slots), on_hand=origin == "shelf")
        for (number, size, origin), slots in found.items()
    )


def _nominal(item: Item) -> float:
    return written_mm(item.shim) or item.size_mm


def _price(given: Given, valve: str, number: str) -> float | None:
    """What one shim costs: the price of its number, else of its system."""
    system, price = system_of(given, valve), price_of(given, number)
    return system.price.value if price is None and system is not None and system.price is not None else price


def shim_cents(given: Given, valve: str) -> int:
    """What a bought shim costs here, in hundredths; something at least, so that none is bought for nothing."""
    system = system_of(given, valve)
    return max(1, round(100 * (_price(given, valve, system.part if system else "") or 0.0)))


def _buy(given: Given, number: str, size: float, slots: tuple[str, ...], *, on_hand: bool) -> Buy:
    valve = slots[0].split("/")[0]
    system, price = system_of(given, valve), _price(given, valve, number)
    mark = system.marked(size) if system else ""
    because = said("from the shelf") if on_hand else said("no shim at hand gives this lash")
    return Buy(
        number=number,
        name=f"shim {mark or f'{size:.3f}'}",
        count=len(slots),
        slots=slots,
        because=because,
        price=price,
        on_hand=on_hand,
    )


def used(evidence: Evidence, chosen: Sequence[Choice]) -> tuple[Buy, ...]:
    """Shims that this job received and that stand in a valve, or will: they are paid for, not ordered."""
    given, state = evidence.given, evidence.state
    goes = {c.item.shim: c.room.valve for c in chosen if c.item.origin in ("slot", "spare")}
    planned = {c.room.valve for c in chosen}
    found = []
    for part, row in state.parts.items():
        if row.kind != "shim" or not row.received:
            continue
        stands = state.slot_of(part).split("/")[0]
        valve = goes.get(part) or (stands if stands and stands not in planned else "")
        size = evidence.thickness(part).known
        if valve and size is not None:
            nominal = marked_mm(row.mark) or written_mm(row.thickness) or size.value
            system = system_of(given, valve)
            number = row.number or (system.part if system else "")
            found.append(_buy(given, number, nominal, (f"{valve}/shim",), on_hand=True))
    return tuple(found)
