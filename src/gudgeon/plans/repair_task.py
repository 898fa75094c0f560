"""What failed and what would cure it, as one task for the whole engine: every remedy, what it forces, what forbids it.

A new guide forces a seat cut, the cut moves tip, spring and lash, and a shim follows; a rebore needs the piston in hand
first; a kit serves several places; a new head brings its seats and guides. So no failed fit can be answered alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import product

from gudgeon.plans.covering import Pack
from gudgeon.plans.deciding import condemned, verdict_kind_wants
from gudgeon.plans.fits import holding
from gudgeon.plans.joint import Allowed, Repair, Task, excludes, needs, only
from gudgeon.plans.prices import price_of
from gudgeon.plans.remedies import Remedy, remedies_of, subjects
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_items import system_of
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Verdict

#: The operation behind the words of a remedy, where a shop sends a bill for it; what is done at the bench costs nothing.
BILLED: Mapping[str, str] = {
    "cut seat": "cut_seat",
    "skim head": "skim_head",
    "skim barrel": "skim_barrel",
    "rebore": "rebore",
    "hone": "hone",
    "plate barrel anew": "plate_barrel",
}
#: What takes metal off a part that stays.
CUTS = (*BILLED, "file ring gap")
#: Work that a new part asks of the shop before it stands: common practice, no source.
TO_FIT: Mapping[str, str] = {"guide": "fit_guide", "seat": "fit_insert"}
#: Sums of one rank stay below this, so that ranks are one whole number.
_STEP = 10**4
_CENTS = 10**9
_DAYS = re.compile(r"(\d+)\s*(day|week|month)")
_IN_DAYS = {"day": 1, "week": 7, "month": 30}


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """What a repair or a pack counts for, in ranks: parts without a price, money, cuts, bills without a price, pieces."""

    unpriced: int = 0
    cents: int = 0
    cuts: int = 0
    unbilled: int = 0
    pieces: int = 0

    def ranked(self, *, cuts_first: bool) -> int:
        """As one whole number: money before cuts, or cuts before money."""
        if cuts_first:
            return (
                ((self.cuts * _STEP + self.unpriced) * _CENTS + self.cents) * _STEP + self.unbilled
            ) * _STEP + self.pieces
        front = (self.unpriced * _CENTS + self.cents) * _STEP + self.cuts
        return (front * _STEP + self.unbilled) * _STEP + self.pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """One repair in the bench's own terms: renew the part of these slots, or do this work to one."""

    words: str
    slots: tuple[str, ...]
    weight: Weight
    number: str = ""


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """The task with what its keys mean."""

    doings: dict[str, Doing] = field(default_factory=dict)
    rules: list[Allowed] = field(default_factory=list)
    wishes: list[Allowed] = field(default_factory=list)
    packs: dict[str, tuple[Weight, Pack]] = field(default_factory=dict)
    stock: dict[str, int] = field(default_factory=dict)
    failed: list[Verdict] = field(default_factory=list)
    hopeless: list[Verdict] = field(default_factory=list)

    def task(self, *, cuts_first: bool = False, days: int | None = None, wishes: bool = True) -> Task:
        """The task ranked by money or by cuts, from packs that arrive in time."""
        repairs = tuple(
            Repair(key=key, cost=d.weight.ranked(cuts_first=cuts_first), pieces=((d.number, 1),) if d.number else ())
            for key, d in self.doings.items()
        )
        packs = tuple(
            Pack(number=p.number, cost=w.ranked(cuts_first=cuts_first), holds=p.holds, days=p.days)
            for w, p in self.packs.values()
            if days is None or p.days is None or p.days <= days
        )
        rules = (*self.rules, *(self.wishes if wishes else ()))
        return Task(repairs=repairs, rules=rules, packs=packs, stock=self.stock)

    def meant(self, keys: Iterable[str]) -> tuple[Doing, ...]:
        """The doings behind keys, in the order of the engine's own list."""
        chosen = set(keys)
        return tuple(d for key, d in self.doings.items() if key in chosen)


def wanted(given: Given) -> Wanted:
    """Everything that failed, was condemned or was decided, with all that could be done about it."""
    builder = _Builder(given)
    fits = [v for v in given.judged.verdicts if len(verdict_kind_wants(v, given.state.anatomy)) > 1]
    for verdict in given.judged.verdicts:
        if verdict.bad:
            builder.failed(verdict, fit=verdict in fits)
    builder.condemned()
    builder.springs()
    for verdict in fits:
        if not verdict.bad and verdict.value is not None:
            builder.passing(verdict)
    builder.decided()
    builder.packs()
    return builder.out


class _Builder:
    """Puts a task together."""

    def __init__(self, given: Given) -> None:
        self.given, self.out = given, Wanted()
        self.anatomy = given.state.anatomy

    # ---- what can be done

    def renew(self, slot: str) -> str:
        """The repair that puts a new part here, with what it forces."""
        row = next(iter(self.given.book.parts_in(slot)), None)
        group = next((g for g in row.groups() if slot in g), (slot,)) if row else (slot,)
        key = f"renew {group[0]}"
        if key not in self.out.doings:
            kind = self.anatomy.slots[slot].kind
            weight = self._billed(TO_FIT[kind]) if kind in TO_FIT else Weight()
            weight = weight if row else replace(weight, unpriced=1, pieces=1)
            self.out.doings[key] = Doing(words="renew", slots=group, weight=weight, number=row.number if row else "")
            self._forced(key, slot, kind)
        return key

    def _forced(self, key: str, slot: str, kind: str) -> None:
        place = slot.split("/")[0]
        if kind in ("guide", "seat"):
            self.out.rules.append(needs(key, self.work("cut seat", f"{place}/seat")))
        if kind == "valve":
            self._shim(key, place)

    def work(self, words: str, slot: str) -> str:
        """The repair that works the part that stands here, with what it forces."""
        key = f"{words} {slot}"
        if key not in self.out.doings:
            weight = self._billed(BILLED[words]) if words in BILLED else Weight()
            weight = replace(weight, cuts=1 if words in CUTS else 0)
            self.out.doings[key] = Doing(words=words, slots=(slot,), weight=weight)
            place = slot.split("/")[0]
            if words == "cut seat":
                self._shim(key, place)
            if words == "rebore" and str(self.given.state.slots.get(f"{place}/piston") or "").startswith("orig:"):
                self.out.rules.append(needs(key, self.renew(f"{place}/piston")))
            if words in ("rebore", "hone", "file ring gap"):
                self.out.rules.append(excludes(key, self.renew(slot)))
        return key

    def _shim(self, key: str, place: str) -> None:
        """What moves the tip asks for a shim, which is paid for at most."""
        slot, system = f"{place}/shim", system_of(self.given, place)
        if not self.anatomy.has(slot) or system is None:
            return
        name = f"shim {slot}"
        if name not in self.out.doings:
            price = system.price.value if system.price is not None else price_of(self.given, system.part)
            cents = round(100 * price) if price is not None else 0
            weight = Weight(cents=cents, unpriced=int(price is None), pieces=1)
            self.out.doings[name] = Doing(words="shim", slots=(slot,), weight=weight)
        self.out.rules.append(needs(key, name))

    def _billed(self, operation: str) -> Weight:
        row = self.given.shelf.work(operation)
        if row is None or row.price is None:
            return Weight(unbilled=1)
        return Weight(cents=round(100 * row.price.value))

    def _head(self, slot: str) -> str:
        """The new head that would bring this part along, where the book sells one."""
        parent = self.anatomy.slots[slot].parent
        return self.renew(parent) if parent and self.given.book.parts_in(parent) else ""

    # ---- what must be done

    def failed(self, verdict: Verdict, *, fit: bool) -> None:
        """A failed size or fit: something must be done that restores it."""
        self.out.failed.append(verdict)
        rule = self._fit(verdict) if fit else None
        if rule is None:
            keys = [self._remedy(r) for r in _useful(remedies_of(verdict, self.anatomy), verdict)]
            keys += [h for r in remedies_of(verdict, self.anatomy) if (h := self._head(r.slot))]
            keys = list(dict.fromkeys(keys))
            if not keys:
                self.out.failed.pop()
                return
            rows = frozenset(row for row in product((False, True), repeat=len(keys)) if any(row))
            rule = Allowed(repairs=tuple(keys), rows=rows)
        self.out.rules.append(rule)

    def passing(self, verdict: Verdict) -> None:
        """A fit that holds as it is must hold too with whatever is renewed for another reason."""
        slots = [s for s in subjects(verdict, self.anatomy) if s]
        if any(f"renew {s}" in self.out.doings for s in slots):
            rule = self._fit(verdict)
            if rule is not None and rule.rows:
                self.out.wishes.append(rule)

    def _remedy(self, remedy: Remedy) -> str:
        if remedy.words == "rebore" and not can_bore(self.given, remedy.slot.split("/")[0]):
            return self.renew(remedy.slot)
        return self.renew(remedy.slot) if remedy.what == "renew" else self.work(remedy.words, remedy.slot)

    def _fit(self, verdict: Verdict) -> Allowed | None:
        """Which parts of a fit may be new together; nothing where it cannot be predicted."""
        found = holding(self.given, verdict)
        if not found:
            return None
        good = {frozenset(slots) for slots, holds in found.items() if holds}
        good |= set() if verdict.bad else {frozenset()}
        every = max(found, key=len)
        if verdict.bad and not good:
            self.out.hopeless.append(verdict)
            good = {frozenset(every)}
        makers = {slot: tuple(k for k in (self.renew(slot), self._head(slot)) if k) for slot in every}
        bored = self._rebore(verdict)
        keys = tuple(dict.fromkeys((*(k for ks in makers.values() for k in ks), *bored)))
        rows = set()
        for row in product((False, True), repeat=len(keys)):
            done = {k for k, did in zip(keys, row, strict=True) if did}
            new = frozenset(slot for slot, ks in makers.items() if done & set(ks))
            if new in good or done & set(bored):
                rows.add(row)
        return Allowed(repairs=keys, rows=frozenset(rows))

    def _rebore(self, verdict: Verdict) -> tuple[str, ...]:
        """A bore cut to the piston in hand holds by its making."""
        place = verdict.place
        found = [r for r in remedies_of(verdict, self.anatomy) if r.words == "rebore" and can_bore(self.given, place)]
        return tuple(self._remedy(r) for r in found)

    def condemned(self) -> None:
        """What no number saves: found, spoiled, always new, or decided."""
        for fate in condemned(self.given).values():
            if fate.what == "renew":
                self.out.rules.append(only(self.renew(fate.slot), True))
            elif fate.what == "machine" and fate.slot.endswith("/seat"):
                self.out.rules.append(only(self.work("cut seat", fate.slot), True))

    def springs(self) -> None:
        """A weak spring takes its side with it, where the workshop's rule says so."""
        if self.given.rules.springs == "one":
            return
        sides: dict[str, list[str]] = {}
        for slot, part in self.given.state.slots.items():
            if slot.endswith("/spring") and part and part.startswith("orig:"):
                sides.setdefault(slot.split("/")[0].split(".")[1], []).append(slot)
        for slots in sides.values():
            if any(f"renew {s}" in self.out.doings for s in slots):
                keys = list(dict.fromkeys(self.renew(s) for s in slots))
                round_ = zip(keys, [*keys[1:], keys[0]], strict=True)
                self.out.rules.extend(needs(a, b) for a, b in round_ if a != b)

    def decided(self) -> None:
        """What was decided to stay is left alone, as far as what failed allows it."""
        for part, (_seq, decision) in self.given.state.dispositions.items():
            slot = self.given.state.slot_of(part)
            key = f"renew {slot}"
            if decision.what in ("reuse", "clean") and key in self.out.doings:
                self.out.wishes.append(only(key, False))

    # ---- what it costs

    def packs(self) -> None:
        """The pieces as they are sold, singly and in kits, and what lies here."""
        book, numbers = self.given.book, {d.number for d in self.out.doings.values() if d.number}
        for number in sorted(numbers):
            self._pack(number, ((number, 1),))
        looped = book.looped_kits()
        for kit in dict.fromkeys(p.kit for p in book.parts if p.kit and p.number in numbers and p.kit not in looped):
            held = tuple((p.number, p.count) for p in book.parts if p.kit == kit and p.number in numbers)
            if kit not in numbers:
                self._pack(kit, held)
        for row in self.given.shelf.leftovers:
            self._lies_here(row.number, row.count, numbers)
        standing = {part for part in self.given.state.slots.values() if part}
        for part in self.given.state.parts.values():
            if part.received and part.id not in standing and part.id not in self.given.state.unusable:
                self._lies_here(part.number, 1, numbers)

    def _pack(self, number: str, holds: tuple[tuple[str, int], ...]) -> None:
        row, price = self.given.book.part(number), price_of(self.given, number)
        weight = Weight(cents=round(100 * price), pieces=1) if price is not None else Weight(unpriced=1, pieces=1)
        days = days_of(row.delivery) if row is not None else None
        self.out.packs[number] = weight, Pack(number=number, cost=0, holds=holds, days=days)

    def _lies_here(self, number: str, count: int, numbers: set[str]) -> None:
        if number in numbers:
            self.out.stock[number] = self.out.stock.get(number, 0) + count


def can_bore(given: Given, cylinder: str) -> bool:
    """Whether a piston can be had that fills this bore once it is cut: a bore only gets wider."""
    bore, clearance = given.judged.at("bore_diameter", cylinder), given.book.limit_for("piston_clearance", cylinder)
    sold, size = given.book.parts_in(f"{cylinder}/piston"), given.book.limit_for("piston_diameter", cylinder)
    known = bore is not None and bore.value is not None and clearance is not None and clearance.new_high is not None
    if len(sold) != 1 or not known or size is None or size.new_high is None:
        return True  # oversizes, or nothing that says otherwise
    assert bore is not None
    assert bore.value is not None
    assert clearance is not None
    assert clearance.new_high is not None
    return size.new_high + clearance.new_high >= bore.value


def _useful(remedies: tuple[Remedy, ...], verdict: Verdict) -> tuple[Remedy, ...]:
    """Without what makes it worse: a hone for a bore that is too wide, a file for a ring whose gap is."""
    tight = verdict.value is not None and verdict.low is not None and verdict.value < verdict.low
    wide = (
        () if tight else ("file ring gap", *(("hone",) if verdict.key in ("bore_diameter", "piston_clearance") else ()))
    )
    rest = tuple(r for r in remedies if r.words not in wide)
    return rest or remedies


def days_of(delivery: str) -> int | None:
    """A term of delivery in days, where its words say one: ``"3 days"``, ``"2 weeks"``."""
    found = _DAYS.search(delivery.casefold())
    return int(found.group(1)) * _IN_DAYS[found.group(2)] if found else None


def why_hopeless(verdict: Verdict) -> Said:
    """A fit that no new parts restore over their whole range."""
    return said("{name}: no new part holds over its whole range: measure the new ones before they are fitted",
                name=verdict.name)  # fmt: skip
