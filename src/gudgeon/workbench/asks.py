"""Which readings are wanted now, grouped by gauge, in the order in which a technician meets them."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from gudgeon.anatomy import Anatomy, say
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.characteristics.own import characteristics
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import Measurand
from gudgeon.plans.shape import Given, Plan
from gudgeon.plans.walk import TURNS
from gudgeon.routes.own import asks_for
from gudgeon.verdicts.gather import about
from gudgeon.verdicts.quick import ranked

Address = tuple[str, str, str]

#: What is read before anything is opened.
AS_FOUND = ("lash", "leak_down", "compression")
#: What is read on the closed engine only.
PROOF = (*AS_FOUND, "timing_marks", "oil_at_cams")
#: How points are said; anything else is said as it is written.
POINT_WORDS = {"x": "along the pin", "y": "across the pin"}


class AskView(Struct, frozen=True, kw_only=True):
    """One reading that is wanted."""

    measurand: str
    place: str
    point: str
    name: str
    place_words: str
    point_words: str
    gauge_kind: str


def asks_of(given: Given, plans: tuple[Plan, ...]) -> tuple[AskView, ...]:
    """Every reading that is wanted now, grouped by gauge, in the order in which a technician meets them."""
    wanted: dict[tuple[str, str, str], None] = {}
    missing, planned = _missing(given), _for_plans(given, plans)
    parts_first = (*planned, *missing) if given.state.open_joints else (*missing, *planned)
    for key, place, point in (*_settling(given), *parts_first):
        wanted.setdefault((key, place, point))
    read = measurands(given.state.anatomy)
    order = {key: n for n, key in enumerate(read)}
    asks = [ask_at(given, *address) for address in wanted]
    kinds = list(dict.fromkeys(a.gauge_kind for a in asks))
    asks.sort(key=lambda a: (kinds.index(a.gauge_kind), order[a.measurand], _nth(given, read[a.measurand], a)))
    return tuple(asks)


def _nth(given: Given, kind: Measurand, ask: AskView) -> tuple[int, int]:
    """Where the reading stands in the order of its places: what was just read never turns the rest round."""
    anatomy = given.state.anatomy
    places = tuple(kind.where(anatomy))
    if ask.place not in places:
        return len(places), 0
    points = tuple(kind.points(anatomy, ask.place))
    return places.index(ask.place), points.index(ask.point) if ask.point in points else 0


def _missing(given: Given) -> list[tuple[str, str, str]]:
    """The points of the scope's characteristics where nothing counts: those first that the engine's state allows."""
    stands, whole = _standing(given), {(v.key, v.place) for v in given.judged.verdicts if v.fresh}
    spared = {(v.key, v.place) for v in given.judged.verdicts if v.spared}
    anatomy = given.state.anatomy
    judged, read = characteristics(anatomy), measurands(anatomy)
    found = [
        (want.measurand, there, point)
        for key in asks_for(given.state.scope, anatomy)
        for want in judged[key].wants
        for place in judged[key].where(anatomy)
        if (key, place) not in whole
        and (key, place) not in spared
        and _judged_here(given, key, place)
        and not _plans_only(given.state, want.measurand)
        for there in (want.at(anatomy, place),)
        for point in read[want.measurand].points(anatomy, there)
        if (want.measurand, about(given.state, want.measurand, there), point) not in stands
    ]
    if given.rules.measuring != "full":
        found = _worst_first(given, found)
    for stage in _stages(given.state):
        now = [address for address in found if stage(address[0])]
        if now:
            return now
    return []


def _plans_only(state: JobState, measurand: str) -> bool:
    """Whether a reading would plan and never release: lash and marks are proved with the tensioner released, after two turns."""
    if measurand not in ("lash", "timing_marks"):
        return False
    return "engine tensioner" in state.open_joints or (state.turns is not None and state.turns < TURNS)


def _worst_first(given: Given, found: list[Address]) -> list[Address]:
    """Of what wears, the worst places alone while they are missing; by sample those of the worst part, then of the next."""
    anatomy, sample = given.state.anatomy, given.rules.measuring == "sample"
    read = measurands(anatomy)
    worn = {w.measurand for kind in characteristics(anatomy).values() if kind.rule == "wear" for w in kind.wants}
    kept: list[Address] = []
    for key in dict.fromkeys(measurand for measurand, _, _ in found):
        mine, kind = [address for address in found if address[0] == key], read[key]
        if key not in worn:
            kept += mine
        else:
            first = _first_parts(kind, ranked(kind.where(anatomy))[:2], mine, anatomy) if sample else []
            kept += first or _first_points(kind, mine)
    return kept


def _first_points(kind: Measurand, mine: list[Address]) -> list[Address]:
    """Of what is missing, at each place the points that wear most; where none of them are, all."""
    first = [a for a in mine if a[2] in kind.worst_first]
    begun = {a[1] for a in first}
    return [a for a in mine if a in first or a[1] not in begun]


def _first_parts(kind: Measurand, worst: tuple[str, ...], mine: list[Address], anatomy: Anatomy) -> list[Address]:
    """Of what is missing, the first points of the worst part, then of the next; nothing once both stand."""
    for place in worst:
        first = kind.worst_first or tuple(kind.points(anatomy, place))[:1]
        now = [a for a in mine if a[1] == place and a[2] in first]
        if now:
            return now
    return []


def _judged_here(given: Given, key: str, place: str) -> bool:
    if key == "timing_marks" and not _cams_were_open(given.state):
        return False
    return always_asked(key) or given.book.limit_for(key, place) is not None


def _stages(state: JobState) -> tuple[Callable[[str], bool], ...]:
    """As found, then the parts on the bench, then what is proved on the closed engine."""

    def proof(measurand: str) -> bool:
        return measurand in PROOF

    def part(measurand: str) -> bool:
        return measurand not in PROOF

    if state.open_joints:
        return (part, proof)
    if not state.touched_joints:
        return (lambda m: m in AS_FOUND, part, proof)
    return (proof, part)


def series(given: Given, chosen: AskView) -> tuple[AskView, ...]:
    """The reading that somebody chose, and what is left of its kind: its own place first, then the other places."""
    anatomy, stands = given.state.anatomy, _standing(given)
    kind = measurands(anatomy)[chosen.measurand]
    places = sorted(kind.where(anatomy), key=lambda place: place != chosen.place)
    left = [
        ask_at(given, kind.key, place, point)
        for place in places
        for point in kind.points(anatomy, place)
        if (kind.key, about(given.state, kind.key, place), point) not in stands
    ]
    return (chosen, *(ask for ask in left if ask != chosen))


#: Asked even where the book has no limit for it yet: the limit is asked with the first reading.
ALWAYS_ASKED = ("lash", "timing_marks", "seal_test", "oil_at_cams", "leak_down", "compression", "contact")


def always_asked(key: str) -> bool:
    """Whether it is asked even where the book has no limit for it yet; what the workshop wants read itself always is."""
    return key in ALWAYS_ASKED or key not in CHARACTERISTICS


def _cams_were_open(state: JobState) -> bool:
    return any(j.split(" ")[-1] in ("holder", "sprocket", "tensioner") for j in state.touched_joints)


def _standing(given: Given) -> set[tuple[str, str, str]]:
    """What counts now: the measurand, the part or place that was read, and the point."""
    return {(t.fact.measurand, t.part or t.fact.where, t.fact.point) for t in given.state.readings if t.counts}


def _settling(given: Given) -> list[tuple[str, str, str]]:
    """The places that decide what is too close to call, where a gauge of this shelf can settle it."""
    readings = {f"entry {t.entry.seq}": t.fact for t in given.state.readings}
    judged, read = characteristics(given.state.anatomy), measurands(given.state.anatomy)
    found = []
    for v in given.judged.verdicts:
        if v.verdict != "too close to call" or not v.settles:
            continue
        card = given.shelf.gauge(v.settles[0].gauge)
        places = {w.measurand: w.at(given.state.anatomy, v.place) for w in judged[v.key].wants}
        for fact in (readings[label] for label, _ in v.budget if label in readings):
            if fact.measurand in places and card is not None and card.kind in read[fact.measurand].gauges:
                found.append((fact.measurand, places[fact.measurand], fact.point))
    return found


def _for_plans(given: Given, plans: tuple[Plan, ...]) -> list[tuple[str, str, str]]:
    """What a plan waits for, where it is a reading."""
    state, found = given.state, list[tuple[str, str, str]]()
    stands = {
        (t.fact.measurand, t.part or t.fact.where, t.fact.point) for t in state.readings if t.fresh and not t.warm
    }
    read = measurands(state.anatomy)
    for plan in plans:
        for address in plan.needs:
            key, _, place = address.partition("@")
            if key in read and place in read[key].where(state.anatomy):
                found += [(key, place, p) for p in read[key].points(state.anatomy, place)
                          if (key, about(state, key, place), p) not in stands]  # fmt: skip
    return found


def ask_at(given: Given, measurand: str, place: str, point: str) -> AskView:
    kind = measurands(given.state.anatomy)[measurand]
    kinds = [k for k in kind.gauges if given.shelf.of_kind(k)] or list(kind.gauges)
    single = given.state.anatomy.layout.cylinders == 1
    return AskView(
        measurand=measurand,
        place=place,
        point=point,
        name=kind.name,
        place_words=say(place, single=single),
        point_words=point_words(point),
        gauge_kind=kinds[0],
    )


def point_words(point: str) -> str:
    """``middle y`` is "middle, across the pin"."""
    pieces = [POINT_WORDS.get(p, p) for p in point.split(" ")] if point else []
    if len(pieces) == 1 and pieces[0] and pieces[0].startswith("c") and "." in pieces[0]:
        return say(pieces[0])
    return ", ".join(pieces)
