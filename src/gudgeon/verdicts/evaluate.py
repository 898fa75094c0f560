"""Every verdict of a job, from its state, its book, the rules and what stands on the shelf today."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.anatomy import Anatomy, Surface, say
from gudgeon.book.book import Book
from gudgeon.book.limits import LimitRow
from gudgeon.characteristics.own import characteristics
from gudgeon.characteristics.shape import Characteristic
from gudgeon.job.entries import Finding
from gudgeon.job.freshness import Reason
from gudgeon.job.state import JobState, Taken
from gudgeon.measurands.own import measurands
from gudgeon.metrology.known import Known
from gudgeon.problem import Refused, Said, said
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts import decide, quick
from gudgeon.verdicts.altitude import at_this_height
from gudgeon.verdicts.contradiction import contradictions
from gudgeon.verdicts.decide import Limits, Outcome
from gudgeon.verdicts.gather import Gathered, Gatherer, Pick, Whose, about, at_first
from gudgeon.verdicts.settling import leaf_between, settling
from gudgeon.verdicts.shape import FAILED, AsFound, Judged, Settles, Verdict, Word
from gudgeon.verdicts.value import Interpreter


def evaluate(state: JobState, book: Book, rules: Rules, shelf: Shelf) -> Judged:
    """The verdicts, in the order of the book's rows and then of what was read without a limit."""
    room = _Room(state, book, rules, shelf)
    clashes = contradictions(state, room.interpreter)
    every = characteristics(state.anatomy)
    verdicts = [room.verdict(every[key], place, row) for key, place, row in _addresses(state, book)]
    marked = tuple(replace(v, contradicts=clashes.of(v.rests_on)) for v in verdicts)
    return Judged(verdicts=room.spared(marked), problems=clashes.problems)


def _addresses(state: JobState, book: Book) -> list[tuple[str, str, LimitRow | None]]:
    """What is judged where: every row of the book at all its places, then what was read and has no row yet."""
    found: dict[tuple[str, str], LimitRow | None] = {}
    every = characteristics(state.anatomy)
    for key in dict.fromkeys(row.of for row in book.limits):
        for place in every[key].where(state.anatomy):
            row = book.limit_for(key, place)
            if row is not None:
                found[(key, place)] = row
    read = {t.fact.measurand for t in state.readings}
    for key, kind in every.items():
        if len(kind.wants) == 1 and kind.wants[0].measurand in read and kind.wants[0].statistic[:6] != "spread":
            for place in _read_places(state, kind):
                found.setdefault((key, place), None)
    return [(key, place, row) for (key, place), row in found.items()]


def _read_places(state: JobState, kind: Characteristic) -> tuple[str, ...]:
    places = {t.fact.where for t in state.readings if t.fact.measurand == kind.wants[0].measurand}
    return tuple(w for w in kind.where(state.anatomy) if kind.wants[0].at(state.anatomy, w) in places)


@dataclass(frozen=True, slots=True)
class _Picked:
    """The wants of a characteristic as gathered, and its value where it has one."""

    parts: tuple[Gathered, ...]
    known: Known | None

    @property
    def rests_on(self) -> tuple[int, ...]:
        return tuple(sorted({v.seq for g in self.parts for v in g.values}))

    @property
    def complete(self) -> bool:
        return all(g.complete for g in self.parts)


class _Room:
    """The things every verdict needs."""

    def __init__(self, state: JobState, book: Book, rules: Rules, shelf: Shelf) -> None:
        self.state, self.book, self.rules, self.shelf = state, book, rules, shelf
        self.interpreter = Interpreter(state.gauges)
        self.cards = tuple(self._card(card) for card in shelf.gauges)
        self.days = {t.entry.seq: t.entry.landed_at[:10] for t in state.readings}
        self.gatherer = Gatherer(state, self.interpreter)
        self.found = frozenset(e.fact.where for e in state.evidence if isinstance(e.fact, Finding))

    def _card(self, card: GaugeCard) -> GaugeCard:
        """A gauge of the shelf as this job knows it: a card once pinned stays."""
        try:
            return self.interpreter.card(card.id) if card.id in self.state.gauges else card
        except Refused:
            return card

    def verdict(self, kind: Characteristic, place: str, row: LimitRow | None) -> Verdict:
        """One characteristic at one place."""
        limits = self._limits(kind, place, row)
        now = self._picked(kind, place, counting)
        outcome, settles = self._outcome(kind, now, limits, row)
        if _condemned_by_grid(outcome, now, row):
            now, outcome = self._without_grid(kind, place, limits, row, now, outcome)
        every = tuple(t for g in now.parts for t in g.every)
        quickly = self._enough(kind, place, now, limits)
        enough = now.complete or quickly
        outcome = _coverage(outcome, now, every, enough=enough)
        shown = self._picked(kind, place, lambda t: not t.warm) if outcome.word == "stale" else now
        return Verdict(
            key=kind.key,
            place=place,
            name=f"{kind.name}, {say(place, single=self.state.anatomy.layout.cylinders == 1)}",
            unit=kind.unit,
            places=kind.places,
            value=now.known.value if now.known else None,
            said=_said(kind, shown),
            u=now.known.u if now.known else None,
            low=limits.low,
            high=limits.high,
            new_low=limits.new_low,
            new_high=limits.new_high,
            judged_new=limits.judged_new,
            page=row.page if row else "",
            probability=outcome.probability,
            verdict=outcome.word,
            fresh=_fresh(now, every, enough=enough),
            reasons=_reasons(every) if outcome.word == "stale" else (),
            notes=(*outcome.notes, *((quick.told(now.parts),) if quickly else ()), *self._overdue(now)),
            wanted=sum(g.wanted for g in now.parts),
            taken=sum(min(g.taken, g.wanted) for g in now.parts),
            rests_on=now.rests_on or tuple(t.entry.seq for t in every if outcome.word == "stale"),
            gauges=tuple(dict.fromkeys(v.gauge for g in now.parts for v in g.values)),
            budget=now.known.parts if now.known else (),
            settles=settles if outcome.word == "too close to call" else (),
            as_found=self._as_found(kind, place, row),
            contradicts=(),
            row=row,
        )

    def spared(self, verdicts: tuple[Verdict, ...]) -> tuple[Verdict, ...]:
        """The verdicts, with what the worst of its kind leaves unread marked so."""
        if self.rules.measuring != "sample":
            return verdicts
        wear = {kind.key for kind in characteristics(self.state.anatomy).values() if kind.rule == "wear"}
        return quick.spared(verdicts, frozenset(wear), self.found, self.rules.risk)

    def _enough(self, kind: Characteristic, place: str, now: _Picked, limits: Limits) -> bool:
        """Whether quick measuring leaves places of a worn part unread; a new, machined or doubted one is read whole."""
        if self.rules.measuring == "full" or kind.rule != "wear" or limits.judged_new or now.known is None:
            return False
        if now.complete or self._doubted(kind, place):
            return False
        spread = any(w.statistic.startswith("spread") for w in kind.wants)
        sample = self.rules.measuring == "sample"
        return quick.enough(now.parts, now.known, limits, risk=self.rules.risk, spread=spread, sample=sample)

    def _doubted(self, kind: Characteristic, place: str) -> bool:
        """Whether something was found on a part that this is read from."""
        anatomy, every = self.state.anatomy, measurands(self.state.anatomy)
        seen = (f for w in kind.wants for f in every[w.measurand].observes(anatomy, w.at(anatomy, place)))
        return any(quick.touches(f.slot, self.found) for f in seen if isinstance(f, Surface))

    def _picked(self, kind: Characteristic, place: str, pick: Pick, whose: Whose = about) -> _Picked:
        parts = self.gatherer.of(kind, place, pick, whose)
        known = [g.known for g in parts]
        whole = kind.combine(tuple(k for k in known if k)) if all(known) else None
        return _Picked(parts, whole)

    def _limits(self, kind: Characteristic, place: str, row: LimitRow | None) -> Limits:
        found = self._reused(kind, place, row)
        if found.new_low is None or found.new_high is None or not self._renewed(kind, place):
            return found
        # A run-out or a tilt cannot lie below nothing: there is no wall to be too close to.
        floor = found.new_low or None
        return replace(found, low=floor, high=found.new_high, judged_new=True)

    def _reused(self, kind: Characteristic, place: str, row: LimitRow | None) -> Limits:
        """The limits of a part that is used again; where the book has none, those that the workshop's rules give."""
        new_low, new_high, least, most = at_this_height(row, self.state) if row else (None, None, None, None)
        if least is None and most is None and kind.rule in ("setting", "guard"):
            least, most = new_low, new_high
        if least is None and most is None:
            least, most = self._own_limits(kind, place)
        return Limits(low=least, high=most, new_low=new_low, new_high=new_high, judged_new=False)

    def _own_limits(self, kind: Characteristic, place: str) -> tuple[float | None, float | None]:
        rules = self.rules
        match kind.key:
            case "squish":
                return rules.squish_least.value, None
            case "valve_to_piston":
                intake = ".in" in place
                return (rules.valve_to_piston_in if intake else rules.valve_to_piston_ex).value, None
            case "leak_down":
                return None, rules.leak_down_most.value
            case _:
                return None, None

    def _renewed(self, kind: Characteristic, place: str) -> bool:
        """Whether every feature that makes it new is new or machined."""
        anatomy: Anatomy = self.state.anatomy
        if kind.renewed_by is not None:
            features = kind.renewed_by(anatomy, place)
        else:
            wanted = [(measurands(anatomy)[w.measurand], w.at(anatomy, place)) for w in kind.wants]
            features = tuple(f for m, there in wanted for f in m.observes(anatomy, there) if isinstance(f, Surface))
        return bool(features) and all(self.state.is_new(f) for f in features)

    def _outcome(
        self, kind: Characteristic, now: _Picked, limits: Limits, row: LimitRow | None
    ) -> tuple[Outcome, tuple[Settles, ...]]:
        if all(g.empty for g in now.parts) or (now.known is None and len(now.parts) > 1):
            return Outcome(word="not measured"), ()
        if row is None and kind.rule != "test" and not limits.given:
            return Outcome(word="not comparable", notes=(said("the book has no limit for it yet"),)), ()
        if kind.dimension == "words":
            expected = (row.expect,) if row and row.expect else kind.good
            good = now.parts[0].word in (*expected, *kind.good)
            return Outcome(word=kind.good_word if good else kind.bad_word), ()  # type: ignore[arg-type]
        if row is not None and row.method == "wobble" and kind.key == "stem_guide_clearance":
            return Outcome(word="not comparable", notes=(said("a wobble limit is not a clearance"),)), ()
        return self._sized(kind, now, limits)

    def _sized(self, kind: Characteristic, now: _Picked, limits: Limits) -> tuple[Outcome, tuple[Settles, ...]]:
        first = now.parts[0]
        if first.no_gap and kind.rule == "setting":
            return Outcome(word="tight"), ()
        if not limits.given:
            return _without_limit(now.known, limits), ()
        if not first.tried or len(now.parts) > 1:
            return self._proven(kind, now, limits) if now.known else (Outcome(word="not measured"), ())
        tried = decide.of_bounds(first.above, first.below, limits, rule=kind.rule)
        if now.known is None or tried.word in ("past limit", "tight", "loose"):
            return tried, ()
        outcome, settles = self._proven(kind, now, limits)
        good_by_size = outcome.word not in ("past limit", "tight", "loose", "too close to call")
        return (tried, ()) if good_by_size and tried.word == "not measured" else (outcome, settles)

    def _proven(self, kind: Characteristic, now: _Picked, limits: Limits) -> tuple[Outcome, tuple[Settles, ...]]:
        assert now.known is not None
        outcome = self._decided(kind, now.known, limits, guard=kind.rule == "guard")
        values = tuple(v for g in now.parts for v in g.values)
        leaf = leaf_between(values, limits, self.cards) if kind.rule == "setting" else None
        if leaf is not None:
            note = said("the wall lies between the leaf that goes and the leaf that does not: try {leaf}",
                        leaf=f"{leaf.size_mm:.{kind.places}f}")  # fmt: skip
            return Outcome(word="too close to call", probability=outcome.probability, open=True, notes=(note,)), (
                leaf.gauge,
            )
        if not outcome.open:
            return outcome, ()
        walls = self._walls(kind, limits)
        settles = settling(kind.wants, now.parts, now.known, walls, self.cards, self.rules.risk, self.state.anatomy)
        return (outcome, settles) if settles else (self._as_read(kind, now.known, limits), ())

    def _walls(self, kind: Characteristic, limits: Limits) -> Limits:
        """The limits that must be proven: of a setting only the walls that the rules guard."""
        if kind.rule != "setting":
            return limits
        low = limits.low if self.rules.tight_wall == "guarded" else None
        return replace(limits, low=low, high=limits.high if self.rules.loose_wall == "guarded" else None)

    def _decided(self, kind: Characteristic, known: Known, limits: Limits, *, guard: bool) -> Outcome:
        rules = self.rules
        if kind.rule == "setting":
            return decide.of_setting(
                known,
                limits,
                risk=rules.risk,
                tight_guarded=rules.tight_wall == "guarded",
                loose_guarded=rules.loose_wall == "guarded",
            )
        guarded = guard or rules.wear == "guarded"
        return decide.of_size(known, limits, risk=rules.risk, guarded=guarded, guard=guard)

    def _as_read(self, kind: Characteristic, known: Known, limits: Limits) -> Outcome:
        if kind.rule != "setting":
            return decide.at_face_value(known, limits, guard=kind.rule == "guard")
        read = decide.of_setting(known, limits, risk=self.rules.risk, tight_guarded=False, loose_guarded=False)
        return replace(read, as_read=True, notes=(said("nothing on the shelf can settle it; judged as read"),))

    def _without_grid(
        self, kind: Characteristic, place: str, limits: Limits, row: LimitRow | None, now: _Picked, outcome: Outcome
    ) -> tuple[_Picked, Outcome]:
        """A dial grid may release against a straightedge limit, and never condemns by itself: the straightedge does."""
        card = self.interpreter.card
        other = self._picked(kind, place, lambda t: counting(t) and card(t.fact.gauge).kind != "dial grid")
        if not all(g.empty for g in other.parts):
            return other, self._outcome(kind, other, limits, row)[0]
        note = said("a dial grid sees the whole face; the book's limit is a straightedge's: try the straightedge")
        return now, replace(outcome, word="not comparable", notes=(*outcome.notes, note))

    def _overdue(self, now: _Picked) -> tuple[Said, ...]:
        """The gauges whose calibration was overdue on the day of the reading."""
        values = [v for g in now.parts for v in g.values]
        late = dict.fromkeys(
            v.gauge for v in values if self.interpreter.card(v.gauge).overdue(self.days.get(v.seq, ""))
        )
        return tuple(said("gauge {gauge}: calibration overdue", gauge=g) for g in late)

    def _as_found(self, kind: Characteristic, place: str, row: LimitRow | None) -> AsFound | None:
        """What the parts that the engine came with showed here, against the limits of parts that are used again."""
        then = self._picked(kind, place, lambda t: t.as_found and not t.warm and not t.misread, at_first)
        if all(g.empty for g in then.parts):
            return None
        limits = self._reused(kind, place, row)
        outcome, _settles = self._outcome(kind, then, limits, row)
        return AsFound(
            value=then.known.value if then.known else None,
            said=_said(kind, then),
            u=then.known.u if then.known else None,
            low=limits.low,
            high=limits.high,
            verdict=_coverage(outcome, then, (), enough=then.complete or self._enough(kind, place, then, limits)).word,
            rests_on=then.rests_on,
        )


def counting(taken: Taken) -> bool:
    """Whether a reading may release."""
    return taken.counts


def _without_limit(known: Known | None, limits: Limits) -> Outcome:
    if known is not None and limits.in_new(known.value):
        return Outcome(word="as new")
    return Outcome(word="not comparable", notes=(said("the book gives no limit for a part that is used again"),))


def _condemned_by_grid(outcome: Outcome, now: _Picked, row: LimitRow | None) -> bool:
    kinds = {v.kind for g in now.parts for v in g.values}
    return outcome.word == "past limit" and row is not None and row.method == "straightedge" and "dial grid" in kinds


def _coverage(outcome: Outcome, now: _Picked, every: tuple[Taken, ...], *, enough: bool) -> Outcome:
    """A statistic over n points needs all n, or `enough` of them, to pass; fewer can only prove it past its limit."""
    trials = tuple(t for taken in every if taken.fresh for t in taken.trial)
    warm = tuple(why for taken in every if taken.fresh for why in taken.unmet)
    proves_enough = outcome.word in FAILED and not outcome.as_read
    if outcome.word != "not measured" and (enough or proves_enough):
        return outcome
    stale = any(not t.fresh for t in every) and not enough
    word: Word = "stale" if stale and not trials else "not measured"
    kept = outcome.notes if outcome.word == "not measured" else ()
    return Outcome(word=word, probability=None, notes=(*dict.fromkeys((*kept, *trials, *warm)),))


def _fresh(now: _Picked, every: tuple[Taken, ...], *, enough: bool) -> bool | None:
    if not every:
        return None
    return enough and not all(g.empty for g in now.parts)


def _reasons(every: tuple[Taken, ...]) -> tuple[Reason, ...]:
    """Why the last readings no longer count, each reason once."""
    last: dict[tuple[str, str, str], Taken] = {}
    for taken in every:
        last[(taken.fact.measurand, taken.fact.where, taken.fact.point)] = taken
    found = {(r.entry, r.feature): r for taken in last.values() for r in taken.reasons}
    return tuple(found[key] for key in sorted(found))


def _said(kind: Characteristic, picked: _Picked) -> str:
    """What was typed, for words, "no gap" and bounds; the number for everything else."""
    values = [v for g in picked.parts for v in g.values]
    if not values:
        return ""
    last = max(values, key=lambda v: v.seq)
    if last.no_gap:
        return "no gap"
    if last.word:
        return last.word
    if picked.known is not None:
        return f"{picked.known.value:.{kind.places}f}"
    bounds = [f"over {v.above:g}" for v in values if v.above is not None]
    return ", ".join(bounds + [f"under {v.below:g}" for v in values if v.below is not None])
