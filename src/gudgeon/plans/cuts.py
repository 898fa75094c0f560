"""The places that a shop works on, from what was decided or failed: what to reach, what is enclosed, what is forbidden."""

from __future__ import annotations

from gudgeon.anatomy import Surface, say
from gudgeon.book.limits import LimitRow
from gudgeon.plans.bounds import Bounds, tip_bounds
from gudgeon.plans.deciding import agreed
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.faces import face_bound
from gudgeon.plans.shape import Cut, Given, Plan
from gudgeon.problem import Said, said

#: What the shop writes back for a seat.
WRITE_BACK = ("tip_height before the cut", "tip_height", "guide_bore", "seat_width", "installed_height", "untouched")


def cuts_of(
    evidence: Evidence, earlier: tuple[Plan, ...]
) -> tuple[tuple[Cut, ...], tuple[str, ...], tuple[int, ...]]:  # fmt: skip
    """Every cut that is still to be made, what is missing for its bounds, and the entries they rest on."""
    asked = _asked(earlier)
    cuts: list[Cut] = []
    needs: list[str] = []
    seqs: list[int] = []
    for valve in evidence.state.anatomy.valves:
        guide, seat = asked.get(f"{valve}/guide") == "renew", asked.get(f"{valve}/seat")
        if not guide and seat not in ("machine", "renew"):
            continue
        comes = asked.get(f"{valve}/valve") == "renew"
        bounds = tip_bounds(evidence, valve, with_its_valve=not comes)
        cuts.append(_seat(evidence.given, valve, bounds, guide=guide, insert=seat == "renew", comes=comes))
        needs += (f"new valve of {valve}",) if comes else bounds.needs
        seqs += bounds.rests_on
    works = agreed(earlier).worked
    for slot in (slot for slot, what in asked.items() if what == "machine"):
        cut, missing = _face(evidence.given, slot, works)
        cuts += [cut] if cut is not None else []
        needs += missing
    return tuple(cuts), tuple(dict.fromkeys(needs)), tuple(sorted(set(seqs)))


def _asked(earlier: tuple[Plan, ...]) -> dict[str, str]:
    """What is to be done to each slot and was not done yet."""
    found: dict[str, str] = {}
    for plan in earlier:
        for line in plan.lines if plan.key == "dispositions" else ():
            numbers = dict(line.numbers)
            if numbers.get("what") in ("renew", "machine") and not numbers.get("done"):
                found[line.where] = str(numbers["what"])
    return found


def _range(row: LimitRow | None) -> str:
    if row is None or row.new_low is None or row.new_high is None:
        return ""
    return f"{row.new[0].text} to {row.new[1].text}" if row.new else ""


def _seat(given: Given, valve: str, bounds: Bounds, *, guide: bool, insert: bool, comes: bool) -> Cut:
    where = say(valve, single=given.state.anatomy.layout.cylinders == 1)
    what = "guide, then seat" if guide else ("new insert, then seat" if insert else "seat, as light as cleans up")
    first = said("{where}: {what}", where=where, what=what)
    bound = _bound_words(where, bounds, comes=comes)
    return Cut(
        where=valve,
        what=first,
        to_reach=_to_reach(given, valve, guide=guide, insert=insert),
        low_mm=bounds.low_mm,
        high_mm=bounds.high_mm,
        never_over_mm=bounds.never_over_mm,
        bound_because=(bound, *bounds.because),
        forbidden=_forbidden(given, valve),
        encloses=_encloses(given, valve, guide=guide),
        measures=WRITE_BACK if guide else tuple(m for m in WRITE_BACK if m != "guide_bore"),
    )


def _bound_words(where: str, bounds: Bounds, *, comes: bool) -> Said:
    if comes:
        return said(
            "{where}: bounds wait for the new valve, read in the old seat: tip and installed height", where=where
        )
    if bounds.low_mm is not None and bounds.high_mm is not None and bounds.never_over_mm is not None:
        return said(
            "{where} tip {low:.2f} to {high:.2f}, tell us before going over; never over {never:.2f}",
            where=where,
            low=bounds.low_mm,
            high=bounds.high_mm,
            never=bounds.never_over_mm,
        )
    if bounds.high_mm is not None:
        return said("{where} tip not over {high:.2f}", where=where, high=bounds.high_mm)
    return said("{where}: no bound can be given; readings missing: {n}", where=where, n=len(bounds.needs))


def _to_reach(given: Given, valve: str, *, guide: bool, insert: bool) -> tuple[Said, ...]:
    side, book = "in" if ".in" in valve else "ex", given.book
    found = []
    if guide:
        bore = _range(book.limit_for("guide_bore", valve))
        found.append(said("guide first: fit the enclosed one, ream to {bore}; a seat cut before it is void",
                          bore=bore or "the enclosed valve"))  # fmt: skip
    if insert:
        found.append(said("new insert, pressed as the maker says, before the cut"))
    seat = book.seat(side)
    if seat is not None:
        angles = [("contact", seat.contact), ("top", seat.top), ("throat", seat.throat)]
        text = ", ".join(f"{name} {angle.text}" for name, angle in angles if angle is not None)
        found.append(said("angles: {text}", text=text))
    width = _range(book.limit_for("seat_width", valve))
    found += [said("width {width}, last; contact in the middle of the face", width=width)] if width else []
    height = book.limit_for("installed_height", valve)
    if height is not None and height.new_high is not None:
        found.append(said("installed height at most {most:.2f} mm; we set the spring height, no spacers of yours",
                          most=height.new_high))  # fmt: skip
    return tuple(found)


def _forbidden(given: Given, valve: str) -> tuple[Said, ...]:
    side = "in" if ".in" in valve else "ex"
    found = []
    if given.book.coated(side):
        found.append(
            said("coated valve: no lapping, no face or tip grinding, no wire wheel; contact shown with blue only")
        )
    if given.book.materials.beryllium:
        found.append(said("copper-beryllium: no dry cutting, no dust; ask the maker first"))
    found.append(said("nothing else: every surface not named here comes back signed as untouched"))
    return tuple(found)


def _encloses(given: Given, valve: str, *, guide: bool) -> tuple[str, ...]:
    where = say(valve, single=given.state.anatomy.layout.cylinders == 1)
    found = [f"valve, marked {where}"]
    if guide:
        part = next(iter(given.book.parts_in(f"{valve}/guide")), None)
        found.append(f"guide {part.number}" if part else "guide")
    return (*found, "tip bridge")


def _face(given: Given, slot: str, works: frozenset[str]) -> tuple[Cut | None, tuple[str, ...]]:
    """A face to be skimmed or a bore to be cut: what it may lose at the most, and what is missing to say so."""
    kind, place = given.state.anatomy.slots[slot].kind, slot.split("/")[0]
    if kind not in ("head", "barrel"):
        return None, ()
    if f"rebore {slot}" in works:
        return _bore(given, place), ()
    bound = face_bound(given, place, barrel=kind == "barrel")
    flat = _range(given.book.limit_for("head_flatness" if kind == "head" else "barrel_flatness", place))
    reach = (said("flat within {flat}", flat=flat),) if flat else ()
    unknown = said("squish or valve-to-piston is not measured: no more than cleans up, and tell us how much")
    forbidden = (said("plated bore: no boring, no honing"),) if kind == "barrel" and given.book.plated else ()
    cut = Cut(where=place, what=said("{kind} face: skim as little as cleans up", kind=kind), to_reach=reach, low_mm=0.0,
              high_mm=bound.most_mm, never_over_mm=bound.most_mm,
              bound_because=(*bound.because, *(() if bound.most_mm is not None else (unknown,))), forbidden=forbidden,
              measures=("how much came off", "untouched"))  # fmt: skip
    return cut, bound.needs


def _bore(given: Given, cylinder: str) -> Cut:
    """A bore that is cut to its piston: the piston is measured first, the bore follows it."""
    row, piston = given.book.limit_for("piston_clearance", cylinder), given.judged.at("piston_diameter", cylinder)
    new = given.state.is_new(Surface(slot=f"{cylinder}/piston", name="skirt"))
    size = piston.value if piston is not None and new else None
    low = high = None
    bound = said("the bore waits for the new piston: measured in hand, it is enclosed")
    if row is not None and row.new_low is not None and row.new_high is not None and size is not None:
        low, high = size + row.new_low, size + row.new_high
        bound = said("bore {low:.3f} to {high:.3f}: the piston measures {size:.3f}", low=low, high=high, size=size)
    clearance = _range(row)
    reach = [said("{range} wider than the enclosed piston", range=clearance)] if clearance else []
    return Cut(where=cylinder, what=said("bore: cut and honed to the piston in hand"), to_reach=tuple(reach), low_mm=low,
               high_mm=high, never_over_mm=high, bound_because=(bound,), forbidden=(said("no bore before the piston is measured"),),
               encloses=("piston",), measures=("bore_diameter", "finish", "untouched"))  # fmt: skip
