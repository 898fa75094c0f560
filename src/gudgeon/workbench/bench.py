"""The workbench: every verb that a face, a script or the demo may call. Nothing else writes a job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from gudgeon import units
from gudgeon.book.book import Book
from gudgeon.book.parse import parse_book
from gudgeon.book.write import with_limit
from gudgeon.job import chain, codec
from gudgeon.job.entries import (
    Body,
    BookPinned,
    GaugePinned,
    GoNoGo,
    JobOpened,
    Reading,
    Retraction,
    RulesPinned,
    Typed,
    ZeroChecked,
    decided,
)
from gudgeon.job.state import JobState
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.routes.scopes import SCOPES
from gudgeon.shelf.defaults import USUAL_GAUGES
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf, parse_shelf
from gudgeon.workbench import stock
from gudgeon.workbench.arriving import check_head
from gudgeon.workbench.build import Worked, work_through
from gudgeon.workbench.checks import check, same_setting
from gudgeon.workbench.loading import Loaded, load
from gudgeon.workbench.measuring import MeasureView, measure
from gudgeon.workbench.ports import Clock, Copies, JobRow, Landed, Ledgers, Library, People, Pictures
from gudgeon.workbench.superseding import with_papers
from gudgeon.workbench.view import JobView

#: The bench that lands what the server itself writes (gauge cards at their first use).
OWN_BENCH = "gudgeon"
#: How many old lines one listing tells anew: more wait for the next, so that a list never stands long.
RETOLD_AT_ONCE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """Who types, on which bench, under which account."""

    by: str
    bench: str
    account: str = "local"


@dataclass(slots=True, kw_only=True)
class _Kept:
    """A job as it was last worked through."""

    loaded: Loaded
    shelf: str
    worked: Worked | None = None
    view: JobView | None = None


class Workbench:
    """The verbs, over ports that somebody else keeps."""

    def __init__(
        self, *, ledgers: Ledgers, library: Library, pictures: Pictures, copies: Copies, people: People, clock: Clock
    ) -> None:
        self.ledgers, self.library, self.pictures, self.copies = ledgers, library, pictures, copies
        self.people, self.clock = people, clock
        self._kept: dict[str, _Kept] = {}
        self._books: dict[str, Book] = {}
        self._shelves: dict[str, Shelf] = {}

    # -- books and shelf ---------------------------------------------------------------------------------------------

    def add_book(self, text: str, name: str = "book") -> str:
        """Keep an edition of a book; its digest. Refused with every problem when it cannot be used."""
        book = parse_book(text, name)
        return self.library.put_book(text, name=book.name, edition=book.edition)

    def book(self, sha256: str) -> Book:
        """A kept book."""
        if sha256 not in self._books:
            text = self.library.book(sha256)
            if text is None:
                raise refuse("book", "No book with the digest {sha} is kept.", "Add it again.", sha=sha256[:12])
            self._books[sha256] = parse_book(text)
        return self._books[sha256]

    def shelf(self) -> Shelf:
        """The shelf as it stands; the six usual gauges where nothing was put on it yet."""
        text = self.library.shelf()
        if text not in self._shelves:
            self._shelves = {text: parse_shelf(text) if text.strip() else Shelf(gauges=USUAL_GAUGES)}
        return self._shelves[text]

    def put_shelf(self, text: str) -> Shelf:
        """Replace what stands on the shelf."""
        shelf = parse_shelf(text)
        self.library.put_shelf(text)
        return shelf

    def _rules(self) -> dict[str, str]:
        return self.shelf().rules.pinned()

    # -- jobs ----------------------------------------------------------------------------------------------------------

    def jobs(self, *, search: str = "", state: str = "", limit: int = 200, after: str = "") -> tuple[JobRow, ...]:
        """The list of jobs, newest first; it replays only what a crash left untold between an entry and its line."""
        rows = self.ledgers.jobs(search=search, state=state, limit=limit, after=after)
        if not self._retold([row.number for row in rows if row.summary_at < row.head]):
            return rows
        return self.ledgers.jobs(search=search, state=state, limit=limit, after=after)

    def _retold(self, untold: list[str]) -> bool:
        """Tell a few old lines anew, whether any was; a job that cannot be read keeps the line that it has."""
        told = False
        for number in untold[:RETOLD_AT_ONCE]:
            with suppress(Refused):
                self.summarise(number)
                told = True
        return told

    def open_job(self, opened: JobOpened, book: str, hand: Hand) -> str:
        """Open a job by a kept book; its number."""
        if opened.scope not in SCOPES:
            known = ", ".join(SCOPES)
            raise refuse("scope", "There is no scope {scope}.", "Scopes: {known}.", scope=opened.scope, known=known)
        check_number(opened.number)
        for text, dimension, unit in ((opened.hours, "time", "h"), (opened.altitude, "length", "m")):
            if text:
                units.read(text, dimension, unit=unit, where="job")
        kept, now = self.book(book), self.clock.now()
        title = " ".join(t for t in (opened.machine or kept.name, opened.engine_number) if t)
        facts: tuple[Body, ...] = (
            opened,
            BookPinned(name=kept.name, edition=kept.edition, sha256=book),
            RulesPinned(rules=self._rules()),
        )
        typed = [
            Typed(id=self.clock.new_id(), typed_at=now, by=hand.by, bench=hand.bench, nth=n, seen=n - 1, body=fact)
            for n, fact in enumerate(facts, 1)
        ]
        self.ledgers.open(
            opened.number,
            title=title,
            engine_number=opened.engine_number,
            scope=opened.scope,
            opened_at=now,
            typed=tuple((codec.encode(t), t.id) for t in typed),
            account=hand.account,
        )
        self.summarise(opened.number)
        return opened.number

    def loaded(self, number: str) -> Loaded:
        """The ledger of a job, read on from where it was read last."""
        self._known(number)
        kept, head = self._kept.get(number), self.ledgers.head(number)
        if kept is not None and kept.loaded.digest == head.digest.hex():
            return kept.loaded
        loaded = load(self.ledgers.rows(number, after=kept.loaded.head), kept.loaded) if kept else None
        if loaded is None or not loaded.verified or loaded.digest != head.digest.hex():
            loaded = load(self.ledgers.rows(number))  # another ledger than the one that was kept: a copy was restored
        self._kept[number] = _Kept(loaded=replace(loaded, number=number), shelf="")
        return self._kept[number].loaded

    def _known(self, number: str) -> None:
        if self.ledgers.job(number) is None:
            raise refuse(f"job {number}", "There is no such job.", "Look at the list of jobs.")

    def worked(self, number: str) -> Worked:
        """A job worked through: state, verdicts, plans, holds, read model."""
        loaded = self.loaded(number)
        kept, shelf = self._kept[number], self.library.shelf()
        if kept.worked is None or kept.shelf != shelf:
            if not loaded.book():
                raise refuse(f"job {number}", "Its ledger names no book that can be read.", "Restore a copy of it.")
            kept.worked, kept.shelf = work_through(loaded, self.book(loaded.book()), self.shelf()), shelf
            kept.view = None
        return kept.worked

    def view(self, number: str) -> JobView:
        """The read model of a job; papers that were handed over are held against what they would say now."""
        worked = self.worked(number)
        kept = self._kept[number]
        if kept.view is None:
            kept.view = with_papers(worked) if worked.view.papers else worked.view
        return kept.view

    def measure(
        self, number: str, measurand: str = "", place: str = "", point: str | None = None, gauge: str = ""
    ) -> MeasureView:
        """What the bench asks for next, or at this address."""
        return measure(self.worked(number), measurand, place, point, gauge)

    def verify(self, number: str, against: str = "") -> tuple[Problem, ...]:
        """Every change that the digests show."""
        self._known(number)
        rows = self.ledgers.rows(number)
        return chain.verify((r.line for r in rows), (r.digest for r in rows), against)

    # -- writing -------------------------------------------------------------------------------------------------------

    def typed(self, number: str, body: Body, hand: Hand, *, ahead: int = 0) -> Typed:
        """What this hand types now, having seen all there is; `ahead` counts what it types in the same breath."""
        entries, head = self.loaded(number).entries, self.ledgers.head(number).seq
        nth = max((e.typed.nth for e in entries if e.typed.bench == hand.bench), default=0)
        return Typed(
            id=self.clock.new_id(),
            typed_at=self.clock.now(),
            by=hand.by,
            bench=hand.bench,
            nth=nth + 1 + ahead,
            seen=head + ahead,
            body=body,
        )

    def record(self, number: str, bodies: Sequence[Body], hand: Hand) -> tuple[Landed, ...]:
        """Land facts typed here, one after the other; the first that is refused stops the rest."""
        landed: list[Landed] = []
        try:
            for body in bodies:
                landed.append(self._land(number, codec.encode(self.typed(number, body, hand)), hand.account))
        finally:
            if landed:
                self.summarise(number)
        return tuple(landed)

    def land(self, number: str, text: str, account: str) -> Landed:
        """Land what a bench sent: checked, then appended, byte for byte."""
        landed = self._land(number, text, account)
        self.summarise(number)
        return landed

    def _land(self, number: str, text: str, account: str) -> Landed:
        typed = codec.decode_typed(text)
        known = any(e.typed.id == typed.id for e in self.loaded(number).entries)
        on_head = None
        if not known:
            on_head = typed.seen if self._decides(number, typed) else None
            if on_head is not None:
                check_head(on_head, self.loaded(number))
            self._check(number, typed, account)
        stocked = stock.effect(self.worked(number).given) if not known and stock.moves(typed.body) else None
        landed = self.ledgers.append(number, text, entry_id=typed.id, account=account, on_head=on_head)
        if stocked is not None:
            self._restock(number, stocked)
        return landed

    def _restock(self, number: str, before: stock.Moved) -> None:
        """Book what an entry changed of the drawer; a shelf that nobody filled has none."""
        given, text = self.worked(number).given, self.library.shelf()
        after = stock.effect(given)
        if before != after and text.strip():
            self.library.put_shelf(stock.booked(text, before, after, given))

    def _check(self, number: str, typed: Typed, account: str) -> None:
        body, given = typed.body, self.worked(number).given
        if isinstance(body, BookPinned):
            self.book(body.sha256)
        card = self.card(body.gauge, given.state) if isinstance(body, Reading | GoNoGo | ZeroChecked) else None
        check(body, given, card)
        if (
            isinstance(body, Reading | GoNoGo | ZeroChecked)
            and card is not None
            and body.gauge not in given.state.gauges
        ):
            pin = GaugePinned(gauge=card.id, card=card.pinned())
            own = Hand(by=typed.by, bench=OWN_BENCH, account=account)
            entry = self.typed(number, pin, own)
            self.ledgers.append(number, codec.encode(entry), entry_id=entry.id, account=account, on_head=None)

    def card(self, gauge: str, state: JobState) -> GaugeCard | None:
        """The card by which this job reads a gauge: the pinned one, or the shelf's where it was not used here yet."""
        on_shelf, pinned = self.shelf().gauge(gauge), state.gauges.get(gauge)
        try:
            return on_shelf if pinned is None else same_setting(GaugeCard.from_pinned(pinned), on_shelf)
        except Refused:
            if pinned is None or on_shelf is None or on_shelf.pinned() != pinned:
                raise
            return on_shelf

    def _decides(self, number: str, typed: Typed) -> bool:
        target: Body | None = None
        if isinstance(typed.body, Retraction):
            named = next((e for e in self.loaded(number).entries if e.typed.id == typed.body.entry), None)
            target = named.typed.body if named and named.typed.bench == typed.bench else None
        return decided(typed.body, own_target=target)

    def summarise(self, number: str) -> None:
        """Keep, beside the ledger, what the list of jobs says of it."""
        seen = self.view(number)
        self.ledgers.note_summary(
            number, state=seen.job.state, scope=seen.job.scope, summary=seen.next.words, at=seen.ledger.head
        )

    def add_limit(self, number: str, row: Mapping[str, str | Sequence[str]], hand: Hand) -> str:
        """Grow the job's book by one limit: a new edition is kept, and the job is judged by it from here on."""
        old = self.library.book(self.loaded(number).book()) or ""
        text = with_limit(old, row)
        sha = self.add_book(text)
        book = self.book(sha)
        self.record(number, (BookPinned(name=book.name, edition=book.edition, sha256=sha),), hand)
        return sha

    def entry_id(self, number: str, seq: int) -> str:
        """The id of an entry by its number."""
        found = next((e for e in self.loaded(number).entries if e.seq == seq), None)
        if found is None:
            raise refuse(f"job {number}", "There is no entry {n}.", "Look at its ledger.", n=seq)
        return found.typed.id

    def retract(self, number: str, seq: int, reason: str, hand: Hand) -> Landed:
        """Take an entry back: it never happened."""
        return self.record(number, (Retraction(entry=self.entry_id(number, seq), reason=reason),), hand)[0]

    def if_retracted(self, number: str, seq: int) -> tuple[str, ...]:
        """What would become fresh, stale, missing or undone, in words, without writing anything."""
        loaded, before = self.loaded(number), self.view(number)
        body = Retraction(entry=self.entry_id(number, seq), reason="?")
        check(body, self.worked(number).given, None)
        entry = self.typed(number, body, Hand(by="", bench=OWN_BENCH))
        line = codec.landed_line(codec.encode(entry), seq=loaded.head + 1, landed_at=entry.typed_at, account="")
        trial = Loaded(
            rows=loaded.rows,
            entries=(*loaded.entries, codec.decode(line)),
            problems=loaded.problems,
            verified=loaded.verified,
        )
        after = work_through(trial, self.book(trial.book()), self.shelf()).view
        return changes(before, after)


def check_number(number: str) -> None:
    """Refuse what is no number of a job: it stands in addresses and in names of files."""
    if not number or not all(c.isalnum() or c in "-_." for c in number) or len(number) > 40:
        raise refuse("job number", "{number} is no job number.", "Use letters, digits, - and _.", number=number[:60])


def changes(before: JobView, after: JobView) -> tuple[str, ...]:
    """What differs between two views of a job, in words a technician reads before deciding."""
    was = {c.address: c for c in before.characteristics}
    found = []
    for now in after.characteristics:
        then = was.get(now.address)
        if then is None or (then.verdict, then.said) != (now.verdict, now.said):
            found.append(
                f"{now.name}: {then.verdict if then else 'new'} {then.said if then else ''} → {now.verdict} {now.said}"
            )
    holds = {h.hold: h.state for h in before.holds}
    found += [
        f"hold {h.hold} {h.name}: {holds.get(h.hold)} → {h.state}" for h in after.holds if holds.get(h.hold) != h.state
    ]
    entries = {e.seq: e.counts for e in before.entries}
    found += [f"entry {e.seq}, {e.words}: {entries[e.seq] or '–'} → {e.counts or '–'}"
              for e in after.entries if e.seq in entries and entries[e.seq] != e.counts]  # fmt: skip
    known = {(p.where, p.what) for p in before.problems}
    found += [f"{p.where}: {p.what}" for p in after.problems if (p.where, p.what) not in known]
    return tuple(found)
