"""A machining order that came back, written down in one go: what was done, what was left alone, every number that was asked.

Half a sheet is no sheet: what is missing is said and nothing lands, until somebody says that the shop did not write it. Then
the rest lands, with a note of what is missing; the bench asks for those readings itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.exchange.tables import read_table
from gudgeon.job.entries import Body, Note, OperationDone, PartFitted, Reading
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.plans.shape import Cut, Given
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.workbench.arriving import check_head
from gudgeon.workbench.asks import point_words
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.checks import check
from gudgeon.workbench.ports import Landed
from gudgeon.workbench.slips import Asked
from gudgeon.workbench.trade import land_all

HEADINGS = ("place", "measurand", "point", "value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One number to write back: `key` is its name in a form, `before` says that it was read before the cut."""

    key: str
    where: str
    measurand: str
    point: str
    before: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One item of the order: what was to be done, and its numbers."""

    where: str
    words: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnForm:
    """The whole sheet: the order, the entry that was last when it was filled, its items, gauges, and what may be untouched."""

    order: str
    part: str
    seen: int
    items: tuple[Item, ...]
    gauges: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...]
    untouched: tuple[tuple[str, str], ...]


def form(bench: Workbench, number: str) -> ReturnForm:
    """The sheet to be filled for what is at the shop; refused where nothing is."""
    worked = bench.worked(number)
    given, state = worked.given, worked.given.state
    trips = [d for d in state.done if d.operation in ("sent_out", "came_back")]
    if not trips or trips[-1].operation != "sent_out":
        raise refuse(f"job {number}", "Nothing is at the shop.", "Order the work, and write down that it was sent out.")
    cuts = next((p.machines for p in worked.plans if p.key == "machining"), ())
    items = tuple(_item(given, cut) for cut in cuts)
    read = measurands(state.anatomy)
    asked = dict.fromkeys(f.measurand for item in items for f in item.fields if f.measurand)
    gauges = tuple(
        (m, read[m].name, tuple((c.id, c.name) for kind in read[m].gauges for c in given.shelf.of_kind(kind)))
        for m in asked
    )
    part = trips[-1].where
    return ReturnForm(order=trips[-1].detail.get("order", ""), part=part, seen=bench.loaded(number).head, items=items,
                      gauges=gauges, untouched=_untouched(state, part, cuts))  # fmt: skip


def _item(given: Given, cut: Cut) -> Item:
    anatomy = given.state.anatomy
    read, single = measurands(anatomy), anatomy.layout.cylinders == 1
    fields = []
    for measure in cut.measures:
        key, _, more = measure.partition(" ")
        if measure == "how much came off":
            fields.append(
                Field(key=f"{cut.where}:off", where=cut.where, measurand="", point="", before=False, words=measure)
            )
        for point in read[key].points(anatomy, cut.where) if key in read else ():
            words = " ".join(w for w in (read[key].name, point_words(point), more) if w)
            fields.append(Field(key=f"{cut.where}:{measure}:{point}", where=cut.where, measurand=key, point=point,
                                before=bool(more), words=words))  # fmt: skip
    where = say(cut.where, single=single)
    what = str(cut.what)
    return Item(where=cut.where, words=what if what.startswith(where) else f"{where}: {what}", fields=tuple(fields))


def _untouched(state: JobState, part: str, cuts: tuple[Cut, ...]) -> tuple[tuple[str, str], ...]:
    """The parts that went along and that no item names: each comes back signed, or is read again."""
    worked = {f"{cut.where}/{kind}" for cut in cuts for kind in ("seat", "head", "barrel")}
    worked |= {f"{cut.where}/guide" for cut in cuts if "guide_bore" in cut.measures}
    single = state.anatomy.layout.cylinders == 1
    slots = (part, *(s.name for s in state.anatomy.slots.values() if s.parent == part))
    return tuple((slot, say(slot, single=single)) for slot in slots if slot not in worked)


def typed_from(data: bytes, name: str, sheet: ReturnForm) -> dict[str, str]:
    """The fields out of the shop's table: place, measurand ("tip_height before the cut"), point, value."""
    table = read_table(data, name)
    heads = [cell.casefold() for cell in table.rows[0].cells]
    if table.problems or not {"place", "measurand", "value"} <= set(heads):
        raise Refused(table.problems) if table.problems else refuse(
            name, "Its headings are {seen}.", "Columns are: {known}.", seen=", ".join(heads)[:200], known=", ".join(HEADINGS))  # fmt: skip
    known = {f.key for item in sheet.items for f in item.fields}
    typed: dict[str, str] = {}
    problems = []
    for row in table.rows[1:]:
        cells = dict(zip(heads, (*row.cells, *[""] * len(heads)), strict=False))
        key = f"{cells['place']}:{cells['measurand']}:{cells.get('point', '')}"
        key = f"{cells['place']}:off" if cells["measurand"] in ("off", "how much came off") else key
        if key not in known or key in typed:
            what = said("The order does not ask for {key}, or it stands twice.", key=key)
            problems.append(Problem(where=row.where, what=what, remedy=said("Compare it with the order.")))
        typed[key] = cells["value"]
    if problems:
        raise Refused(problems)
    return typed


def accept(
    bench: Workbench, number: str, typed: Mapping[str, str], hand: Hand, *, seen: int, rest_unwritten: bool = False
) -> tuple[Landed, ...]:
    """Land the whole sheet as one batch on the head that was seen, or nothing, with everything that is missing or wrong."""
    check_head(seen, bench.loaded(number))
    sheet, given = form(bench, number), bench.worked(number).given
    missing = [(item, f) for item in sheet.items for f in item.fields if not typed.get(f.key, "").strip()]
    problems = [
        Problem(where=item.words, what=said("{words} is missing.", words=f.words),
                remedy=said("Type it, or say that the shop did not write the rest."))
        for item, f in (() if rest_unwritten else missing)
    ]  # fmt: skip
    kept = ", ".join(slot for slot, _words in sheet.untouched if typed.get(f"untouched:{slot}"))
    detail = {key: words for key, words in (("order", sheet.order), ("untouched", kept)) if words}
    bodies: list[Body] = [OperationDone(operation="came_back", where=sheet.part, detail=detail)]
    for item in sheet.items:
        try:
            bodies += _done(given.state, item, typed)
        except Refused as refused:
            problems += refused.problems
    if missing and rest_unwritten:
        words = "; ".join(f"{item.words}, {f.words}" for item, f in missing)
        bodies.append(Note(words=f"Order {sheet.order} came back; the shop did not write: {words}"[:4000]))
    for body in bodies:
        try:
            card = bench.card(body.gauge, given.state) if isinstance(body, Reading) else None
            check(body, given, card)
        except Asked as asked:
            again = said("Look at the sheet again; if it is so, read it at the bench and confirm it there.")
            problems += [Problem(where=p.where, what=p.what, remedy=again) for p in asked.problems]
        except Refused as refused:
            problems += refused.problems
    if problems:
        raise Refused(problems)
    return land_all(bench, number, bodies, hand, on_head=seen)


def _done(state: JobState, item: Item, typed: Mapping[str, str]) -> list[Body]:
    """What was done at one item, in its order: a reading taken before the cut stands before it."""
    readings = [(f.before, _reading(f, typed)) for f in item.fields if f.measurand and typed.get(f.key, "").strip()]
    where = item.where
    if where not in state.anatomy.valves:
        off = typed.get(f"{where}:off", "").strip()
        skim = "skim_head" if where in state.anatomy.heads else "skim_barrel"
        return [OperationDone(operation=skim, where=where, detail={"removed": off} if off else {})]
    work: list[Body] = []
    if any(f.measurand == "guide_bore" for f in item.fields):
        work += [OperationDone(operation="fit_guide", where=where), _fitted(state, f"{where}/guide", "guide"),
                 OperationDone(operation="ream_guide", where=where)]  # fmt: skip
    if "new insert" in item.words:
        work.append(_fitted(state, f"{where}/seat", "seat"))
    work += [reading for before, reading in readings if before]
    work.append(OperationDone(operation="cut_seat", where=where))
    return work + [reading for before, reading in readings if not before]


def _fitted(state: JobState, slot: str, kind: str) -> PartFitted:
    loose = [
        p.id
        for p in state.parts.values()
        if p.kind == kind and not state.slot_of(p.id) and not p.id.startswith("orig:")
    ]
    if not loose:
        raise refuse(
            say(slot), "No new {kind} was received that could have been fitted.", "Receive it first.", kind=kind
        )
    return PartFitted(part=loose[0], slot=slot)


def _reading(field: Field, typed: Mapping[str, str]) -> Reading:
    gauge = typed.get(f"gauge:{field.measurand}", "")
    return Reading(measurand=field.measurand, where=field.where, point=field.point, text=typed[field.key].strip(),
                   unit="mm", gauge=gauge, temperature=typed.get("temperature", "").strip())  # fmt: skip
