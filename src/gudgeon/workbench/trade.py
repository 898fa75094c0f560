"""Jobs out and in: a whole job as one file, and readings from a table, all or nothing."""

from __future__ import annotations

from collections.abc import Sequence

from gudgeon.book.parse import parse_book
from gudgeon.exchange.archive import Archive, pack, unpack
from gudgeon.exchange.readings import readings
from gudgeon.job import codec
from gudgeon.job.entries import (
    Body,
    BookPinned,
    Entry,
    Finding,
    GaugePinned,
    GoNoGo,
    JobClosed,
    JobOpened,
    Note,
    Reading,
)
from gudgeon.job.order import retracted_ids
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.routes.scopes import SCOPES
from gudgeon.workbench.bench import OWN_BENCH, Hand, Workbench, check_number
from gudgeon.workbench.checks import check
from gudgeon.workbench.loading import Loaded, load
from gudgeon.workbench.ports import JobRow, Landed, Row


def export_job(bench: Workbench, number: str) -> bytes:
    """A job as an archive; refused where its ledger does not verify."""
    problems = bench.verify(number)
    if problems:
        raise Refused(problems)
    row, loaded = bench.ledgers.job(number), bench.loaded(number)
    if row is None:
        raise refuse(f"job {number}", "There is no such job.", "Look at the list of jobs.")
    opened = loaded.entries[0].typed.body if loaded.entries else None
    shas = [e.typed.body.sha256 for e in loaded.entries if isinstance(e.typed.body, BookPinned)]
    books = {sha: text for sha in dict.fromkeys(shas) if (text := bench.library.book(sha)) is not None}
    pictures = {sha: data for sha in _pictures(loaded.entries) if (data := bench.pictures.get(sha)) is not None}
    return pack(
        Archive(
            number=opened.number if isinstance(opened, JobOpened) else row.number,
            title=row.title,
            engine_number=row.engine_number,
            scope=row.scope,
            opened_at=row.opened_at,
            lines=tuple(r.line for r in loaded.rows),
            digests=tuple(r.digest for r in loaded.rows),
            books=books,
            pictures=pictures,
        )
    )


def _pictures(entries: tuple[Entry, ...]) -> tuple[str, ...]:
    found = [sha for e in entries if isinstance(e.typed.body, Finding | Note) for sha in e.typed.body.photos]
    return tuple(dict.fromkeys(found))


def import_job(bench: Workbench, data: bytes, name: str = "archive", number: str = "") -> str:
    """Take an archive in as a job of this workshop; its number, which is another one where the own is taken here.

    The ledger stays as it is, the number it was opened under in it: the same archive can be made of it again.
    """
    archive = unpack(data, name)
    number = number or archive.number
    check_number(number)
    _free(bench, archive, number)
    rows = tuple(
        Row(seq=n, line=line, digest=digest)
        for n, (line, digest) in enumerate(zip(archive.lines, archive.digests, strict=True), 1)
    )
    loaded = load(rows)
    _usable(bench, archive, loaded, name)
    for text in archive.books.values():
        bench.add_book(text)
    for picture in archive.pictures.values():
        bench.pictures.adopt(picture)
    bench.ledgers.adopt(
        JobRow(
            number=number,
            title=archive.title,
            engine_number=archive.engine_number,
            state="closed" if _closed(loaded) else "open",
            scope=archive.scope,
            opened_at=archive.opened_at,
            head=len(rows),
            summary="",
            summary_at=0,
        ),
        rows,
    )
    bench.summarise(number)
    return number


def _free(bench: Workbench, archive: Archive, number: str) -> None:
    """Refuse where the number is taken, or the very job is here: then it goes on there."""
    for taken in dict.fromkeys((archive.number, number)):
        rows = bench.ledgers.rows(taken) if bench.ledgers.job(taken) is not None else ()
        if rows and archive.digests and rows[0].digest == archive.digests[0]:
            raise refuse(f"job {taken}", "This very job is here already, up to entry {here}; the archive has {there}.",
                         "Go on with it here.", here=len(rows), there=len(archive.lines))  # fmt: skip
    if bench.ledgers.job(number) is not None:
        raise refuse(f"job {number}", "Another job of this number is here already.", "Take it in under another number.")


def _closed(loaded: Loaded) -> bool:
    out = retracted_ids(loaded.entries)
    return any(isinstance(e.typed.body, JobClosed) and e.typed.id not in out for e in loaded.entries)


def _usable(bench: Workbench, archive: Archive, loaded: Loaded, name: str) -> None:
    """Refuse, before anything of it is kept, an archive that could not be shown as the job it says it is."""
    for sha, text in archive.books.items():
        parse_book(text, f"{name}, book {sha[:8]}")
    opened = loaded.entries[0].typed.body if loaded.entries else None
    if not isinstance(opened, JobOpened) or opened.number != archive.number or archive.scope not in SCOPES:
        raise refuse(name, "Its manifest and its ledger speak of two jobs.", "Have it exported again.")
    pinned = loaded.book()
    if pinned not in archive.books:
        bench.book(pinned)


def record_csv(bench: Workbench, number: str, text: str, hand: Hand, name: str = "csv") -> tuple[Landed, ...]:
    """Record a table of readings: every one is checked first, and all land or none."""
    rows, given = readings(text, name), bench.worked(number).given
    problems: list[Problem] = []
    for row in rows:
        try:
            check(row.reading, given, bench.card(row.reading.gauge, given.state))
        except Refused as refused:
            problems += [
                Problem(where=f"{name}, line {row.line}: {p.where}", what=p.what, remedy=p.remedy)
                for p in refused.problems
            ]
    if problems:
        raise Refused(problems)
    return land_all(bench, number, [row.reading for row in rows], hand)


def land_all(
    bench: Workbench, number: str, bodies: Sequence[Body], hand: Hand, on_head: int | None = None
) -> tuple[Landed, ...]:
    """Land facts that were checked, all of them or none, behind the cards of gauges that are new to the job."""
    known, shelf = bench.worked(number).given.state.gauges, bench.shelf()
    gauges = dict.fromkeys(body.gauge for body in bodies if isinstance(body, Reading | GoNoGo))
    cards = [card for gauge in gauges if gauge not in known and (card := shelf.gauge(gauge)) is not None]
    own = Hand(by=hand.by, bench=OWN_BENCH, account=hand.account)
    facts: list[tuple[Body, Hand]] = [(GaugePinned(gauge=card.id, card=card.pinned()), own) for card in cards]
    facts += [(body, hand) for body in bodies]
    typed = [bench.typed(number, body, by, ahead=n) for n, (body, by) in enumerate(facts)]
    lines = tuple((codec.encode(t), t.id) for t in typed)
    landed = bench.ledgers.append_all(number, lines, account=hand.account, on_head=on_head)
    bench.summarise(number)
    return landed
