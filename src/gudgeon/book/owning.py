"""Own rows brought to an engine: their stars spelled out, their names looked up, their limits and parts beside the book's."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal, TypeVar

from gudgeon.anatomy import Anatomy, Layout, expand
from gudgeon.book.book import Book
from gudgeon.book.limits import LimitRow
from gudgeon.book.own import ANSWERS, OWN_ROWS, OwnCheckRow, OwnMeasureRow, OwnPartRow, OwnStepRow, key_of
from gudgeon.book.parts import PartRow
from gudgeon.own import NOTHING, Own, OwnHold, OwnMeasure, OwnPart, OwnStep
from gudgeon.problem import Problem, said
from gudgeon.routes.holds import HOLDS
from gudgeon.routes.steps import STEPS
from gudgeon.shelf.typed import Row, check, nearest, sentence_list

#: Says what is wrong with a row, and what to do about it.
Say = Callable[..., None]
_One = TypeVar("_One", OwnPartRow, OwnMeasureRow, OwnStepRow, OwnCheckRow)
_Kind = TypeVar("_Kind")
#: Where a part is fastened from: its own place, its cylinder, its head, the engine.
_NEAR = ("{place}", "{cylinder}", "{head}", "engine")


def alike(wanted: str, every: str) -> list[str]:
    """The names, given one a line, that a name with stars stands for."""
    pattern = re.escape(wanted).replace(r"\*", "[^\n]*")
    return re.findall(f"^{pattern}$", every, re.MULTILINE) if "\n" not in wanted else []


def _at(wanted: str, every: Iterable[str]) -> list[str]:
    """The places or slots that an own row names: a leading ``c*`` is every cylinder and nothing else."""
    if not wanted.startswith("c*"):
        return alike(wanted, "\n".join(every))
    numbered = [name for name in every if name[:1] == "c" and name[1:2].isdigit()]
    rest = re.compile(r"c[0-9]+" + re.escape(wanted[2:]).replace(r"\*", r"[^\n]*"))
    return [name for name in numbered if rest.fullmatch(name)]


@dataclass(kw_only=True)
class Owning:
    """The own rows of a book, or of a book and a job, on one layout; `say` is told what does not fit."""

    layout: Layout
    say: Say
    part_rows: tuple[OwnPartRow, ...] = ()
    measure_rows: tuple[OwnMeasureRow, ...] = ()
    step_rows: tuple[OwnStepRow, ...] = ()
    check_rows: tuple[OwnCheckRow, ...] = ()

    @cached_property
    def whole(self) -> Layout:
        """The layout with everything that was added."""
        with_parts = expand(replace(self.layout, own=Own(parts=self._parts)))
        taken = dict[str, Row]()
        measures = [self._measure(row, with_parts) for row in self.measure_rows if self._once(row, taken)]
        measures += [self._look(row, with_parts) for row in self.check_rows if self._once(row, taken)]
        steps = [self._step(row, with_parts) for row in self.step_rows if self._once(row, taken)]
        own = Own(parts=self._parts, measures=_there(measures), steps=_there(steps))
        holds = [self._hold(row, own) for row in self.check_rows if row.holds]
        return replace(self.layout, own=replace(own, holds=_there(holds)))

    @property
    def limits(self) -> tuple[LimitRow, ...]:
        """The limits that own measures bring."""
        kept = {one.key: one for one in self.whole.own.measures}
        found = [_limit(row, kept[key]) for row in self.measure_rows if (key := key_of(row.name)) in kept]
        return tuple(limit for limit in found if limit is not None)

    @property
    def parts(self) -> tuple[PartRow, ...]:
        """The own parts that have a number, as the order list knows parts."""
        slots = {row.name: tuple(p.slot for p in self._parts if p.kind == row.name) for row in self.part_rows}
        return tuple(_part(row, slots[row.name]) for row in self.part_rows if row.number and slots[row.name])

    @cached_property
    def _parts(self) -> tuple[OwnPart, ...]:
        anatomy, found, taken = expand(self.layout), list[OwnPart](), dict[str, Row]()
        for row in self.part_rows:
            if not self._once(row, taken):
                continue
            for place in self._places(row, row.at, anatomy):
                joint_place, joint = place, row.name
                if row.opened_with:
                    joint_place = _near(anatomy, place, row.opened_with)
                    joint = row.opened_with
                    if not joint_place:
                        self.say(row, "{name}: there is no joint {joint} near {place}.", "Use one of: {known}.",
                                 name=row.name, joint=joint, place=place, known=_joints(anatomy))  # fmt: skip
                        break
                found.append(OwnPart(slot=f"{place}/{row.name}", kind=row.name, joint_place=joint_place, joint=joint))
        return tuple(found)

    def _once(self, row: _One, taken: dict[str, Row]) -> bool:
        """The names of own things tell them apart."""
        key = key_of(row.name)
        first = taken.setdefault(key, row)
        if first is not row:
            self.say(row, "{name} stands already in line {first}." if first.line else "There is a {name} already.",
                     "Give it another name.", name=row.name, first=first.line)  # fmt: skip
        return first is row

    def _places(self, row: _One, at: str, anatomy: Anatomy) -> list[str]:
        places = _at(at, anatomy.places)
        if not places:
            self.say(row, "{name}: the engine has no place {at}.", _meant(at, anatomy.places),
                     name=row.name, at=at, meant=nearest(at, anatomy.places), known=sentence_list(anatomy.places[:12]))  # fmt: skip
        return places

    def _slots(self, row: _One, at: str, anatomy: Anatomy, *, one_a_place: bool = True) -> tuple[str, ...]:
        slots = _at(at, anatomy.slots)
        places = [slot.split("/")[0] for slot in slots]
        if not slots:
            self.say(row, "{name}: the engine has no slot {at}.", _meant(at, anatomy.slots),
                     name=row.name, at=at, meant=nearest(at, anatomy.slots), known="c1/piston, c*.in*/valve, engine/…")  # fmt: skip
        elif one_a_place and len(set(places)) < len(places):
            self.say(row, "{name}: {at} names several parts at {place}.", "Name one kind of part.",
                     name=row.name, at=at, place=next(p for p in places if places.count(p) > 1))  # fmt: skip
            return ()
        return tuple(slots)

    def _measure(self, row: OwnMeasureRow, anatomy: Anatomy) -> OwnMeasure | None:
        slots = self._slots(row, row.at, anatomy)
        if not slots:
            return None
        return OwnMeasure(
            key=key_of(row.name),
            name=row.name,
            dimension=row.dimension,
            slots=slots,
            gauges=(row.gauge,),
            points=row.points or ("",),
            on_part=row.read == "on the part",
            statistic=_counts(row),
            setting=row.setting,
            scopes=row.scopes,
            ask=row.ask,
            caution=row.caution,
        )

    def _look(self, row: OwnCheckRow, anatomy: Anatomy) -> OwnMeasure | None:
        """A check that is answered with a word."""
        slots = self._slots(row, row.at, anatomy) if row.at else ()
        if not slots:
            return None
        return OwnMeasure(key=key_of(row.name), name=row.name, dimension="words", slots=slots, gauges=("eye",),
                          words=ANSWERS, good=row.good, scopes=row.scopes, ask=row.ask or row.name,
                          caution=row.caution)  # fmt: skip

    def _step(self, row: OwnStepRow, anatomy: Anatomy) -> OwnStep | None:
        places = self._places(row, row.at, anatomy)
        slots = [s for at in row.works_on for s in self._slots(row, at, anatomy, one_a_place=False)]
        steps = tuple(step.operation for step in STEPS)
        others = tuple(key_of(other.name) for other in self.step_rows if other is not row)
        after = row.after if row.after in steps else key_of(row.after)
        if row.after and after not in (*steps, *others):
            self.say(row, "{name}: the route has no step {after}.", _meant(after, steps),
                     name=row.name, after=row.after, meant=nearest(after, steps), known=sentence_list(steps))  # fmt: skip
        if not places:
            return None
        return OwnStep(key=key_of(row.name), name=row.name, did=row.did or f"{row.name}: done", places=tuple(places),
                       disturbs=tuple(dict.fromkeys(slots)), after=after, scopes=row.scopes, caution=row.caution)  # fmt: skip

    def _hold(self, row: OwnCheckRow, own: Own) -> OwnHold | None:
        measures = {one.key: one for one in own.measures}
        proves = key_of(row.measure or row.name)
        known = (*(step.operation for step in STEPS), *(one.key for one in own.steps), *HOLDS)
        before = row.before if row.before in known else key_of(row.before)
        if proves not in measures:
            if row.measure:
                self.say(row, "{name}: nothing of your own is called {measure}.", _meant(proves, measures),
                         name=row.name, measure=row.measure, meant=nearest(proves, measures),
                         known=sentence_list(measures) or "–")  # fmt: skip
            return None
        if row.before and before not in known:
            self.say(row, "{name}: the route has no step or hold {before}.", _meant(before, known),
                     name=row.name, before=row.before, meant=nearest(before, known), known=sentence_list(known))  # fmt: skip
        return OwnHold(key=key_of(row.name), name=row.name, hides=row.hides or "what nobody looks at again",
                       proves=(proves,), before=before, scopes=row.scopes or measures[proves].scopes)  # fmt: skip


def _there(found: Iterable[_Kind | None]) -> tuple[_Kind, ...]:
    return tuple(one for one in found if one is not None)


def _counts(row: OwnMeasureRow) -> Literal["smallest", "largest", "mean"]:
    """The point that counts is the worst one; between two walls, or without any, it is the mean."""
    if (row.least is None) == (row.most is None):
        return "mean"
    return "smallest" if row.most is None else "largest"


def _meant(given: str, known: Iterable[str]) -> str:
    return "Did you mean {meant}?" if nearest(given, known) else "Use one of: {known}."


def _near(anatomy: Anatomy, place: str, joint: str) -> str:
    """The place of the nearest joint of a name: at the part's own place, its cylinder, its head, the engine."""
    held = {j.place for slot in anatomy.slots.values() for j in slot.joints if j.name == joint}
    cylinder = place.split(".")[0]
    head = anatomy.head(place) if cylinder in (*anatomy.cylinders, "cam") else anatomy.heads[0]
    near = [pattern.format(place=place, cylinder=cylinder, head=head) for pattern in _NEAR]
    return next((at for at in (*near, *sorted(held)) if at in held), "")


def _joints(anatomy: Anatomy) -> str:
    return sentence_list(sorted({j.name for slot in anatomy.slots.values() for j in slot.joints}))


def _limit(row: OwnMeasureRow, one: OwnMeasure) -> LimitRow | None:
    """The limit of an own measure, as the book's other limits are."""
    if row.new is None and row.least is None and row.most is None:
        return None
    kinds = dict.fromkeys(slot.split("/")[1] for slot in one.slots)
    found = LimitRow.model_construct(
        of=one.key, side="", new=row.new, typed_least=row.least, typed_most=row.most, page=row.page,
        remedies=row.remedies or tuple(f"renew {kind}" for kind in kinds), note=row.note,
    )  # fmt: skip
    found._line, found._own = row.line, row.dimension
    return found


def _part(row: OwnPartRow, slots: tuple[str, ...]) -> PartRow:
    found = PartRow(number=row.number, name=row.name, slots=slots, price=row.price, renew=row.renew, count=row.count,
                    look_alike=row.look_alike, mark=row.mark, delivery=row.delivery, note=row.note)  # fmt: skip
    found._line = row.line
    return found


def with_own(book: Book, added: Iterable[tuple[str, str, Mapping[str, object]]]) -> tuple[Book, tuple[Problem, ...]]:
    """The book with what a job adds: where it was said, its kind, its row. The last one of a name stands.

    What cannot be used is a problem at its place, and everything else stands.
    """
    problems: list[Problem] = []
    said_at: dict[int, str] = {}
    mine: dict[str, dict[str, Row]] = {kind: {} for kind, _model in OWN_ROWS.values()}
    models = dict(OWN_ROWS.values())
    for where, kind, raw in added:
        row, wrong = check(models[kind], dict(raw), path=(), lines={}, name=where)
        problems += wrong
        if row is not None:
            mine[kind][key_of(row.name)] = row  # type: ignore[attr-defined]
            said_at[id(row)] = where
    if not said_at:
        return book, tuple(problems)

    def say(row: Row, what: str, remedy: str, **values: str | int) -> None:
        where = said_at.get(id(row), "book")
        problems.append(Problem(where=where, what=said(what, **values), remedy=said(remedy, **values)))

    old = {"part": book.own_parts, "measure": book.own_measures, "step": book.own_steps, "check": book.own_checks}
    rows: dict[str, Any] = {
        kind: tuple(({key_of(r.name): r for r in kept} | mine[kind]).values())  # type: ignore[attr-defined]
        for kind, kept in old.items()
    }
    whole = Owning(layout=replace(book.layout, own=NOTHING), say=say, part_rows=rows["part"],
                   measure_rows=rows["measure"], step_rows=rows["step"], check_rows=rows["check"])  # fmt: skip
    before = {(row.number, row.name) for row in book.own_parts}
    changed = {
        "layout": whole.whole,
        "limits": (*(limit for limit in book.limits if not limit.own), *whole.limits),
        "parts": (*(part for part in book.parts if (part.number, part.name) not in before), *whole.parts),
        **{f"own_{kind}s": rows[kind] for kind in old},
    }
    return book.model_copy(update=changed), tuple(problems)
