"""What earlier jobs read of an engine, taken into its next job: its own when it is opened, those of its family when asked."""

from __future__ import annotations

from contextlib import suppress

from gudgeon.job import codec
from gudgeon.job.entries import BookPinned, EarlierPinned, JobOpened, Past
from gudgeon.plans.lives import hours_of, plain, read_hours, worn
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused, refuse
from gudgeon.view.record import WearView
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.ports import JobRow
from gudgeon.workbench.wear import wear_views

#: So many jobs of the family at most, the newest first, and looked for among so many: each is read whole.
MOST_OF_FAMILY, LOOKED_AT = 40, 400


def open_known(bench: Workbench, opened: JobOpened, book: str, hand: Hand, *, another_meter: bool = False) -> str:
    """Open a job that knows what was read of its engine before; its number.

    Hours cannot be changed once the job is open: fewer than the job before had are asked back.
    """
    before = _of_engine(bench, opened.engine_number, bench.book(book).name)
    if not another_meter:
        _never_fewer(bench, opened, before)
    number = bench.open_job(opened, book, hand)
    _pin(bench, number, before, "engine", hand)
    return number


def _never_fewer(bench: Workbench, opened: JobOpened, before: list[JobRow]) -> None:
    now = read_hours(opened.hours)
    if now is None or not before:
        return
    last = max(before, key=lambda row: (row.opened_at, row.number)).number
    then = hours_of(bench.worked(last).given)
    if then is not None and now < then:
        raise refuse("hours", "{now:g} h are fewer than the {then:g} h that this engine had in job {job}.",
                     "Look at the meter again; where the engine has another meter now, say so.",
                     now=now, then=then, job=last)  # fmt: skip


def take_earlier(bench: Workbench, number: str, hand: Hand) -> int:
    """Pin what the earlier jobs of this engine read; how many there were."""
    given, mine = bench.worked(number).given, bench.ledgers.job(number)
    assert mine is not None
    rows = [row for row in _of_engine(bench, mine.engine_number, given.book.name) if _before(row, mine)]
    return _pin(bench, number, rows, "engine", hand)


def take_family(bench: Workbench, number: str, hand: Hand) -> int:
    """Pin what the newest earlier jobs on other engines of this book read; how many there were."""
    given, mine = bench.worked(number).given, bench.ledgers.job(number)
    assert mine is not None
    rows = [row for row in _jobs(bench, "") if _before(row, mine) and not _same(row, mine.engine_number)]
    of_book = (row for row in rows if _book(bench, row) == given.book.name)
    newest = [row for row, _ in zip(of_book, range(MOST_OF_FAMILY), strict=False)]
    pinned = _pin(bench, number, newest, "family", hand)
    if not newest:
        raise refuse(f"job {number}", "No other engine of {book} was read here before.", "Its own next visits will tell.",
                     book=given.book.name)  # fmt: skip
    return pinned


def wear_of(bench: Workbench, number: str) -> tuple[WearView, ...]:
    """What of a job wears over hours and is due first, to be drawn."""
    return wear_views(bench.worked(number).given)


def _jobs(bench: Workbench, search: str) -> list[JobRow]:
    """The newest jobs that a search finds."""
    return list(bench.ledgers.jobs(search=search, limit=LOOKED_AT))


def _of_engine(bench: Workbench, engine: str, family: str) -> list[JobRow]:
    """The jobs of an engine, as far as its number is found as typed, and among the newest however it was typed."""
    found = {row.number: row for row in (*_jobs(bench, engine), *_jobs(bench, ""))}
    return [row for row in found.values() if _same(row, engine) and _book(bench, row) == family]


def _same(row: JobRow, engine: str) -> bool:
    return plain(row.engine_number) == plain(engine)


def _before(row: JobRow, mine: JobRow) -> bool:
    return row.number != mine.number and row.opened_at <= mine.opened_at


def _book(bench: Workbench, row: JobRow) -> str:
    """The family of a job's engine, by the book it was opened with; none where it cannot be read any more."""
    with suppress(Refused):
        for stored in bench.ledgers.rows(row.number):
            body = codec.decode(stored.line).typed.body
            if isinstance(body, BookPinned):
                return body.name
    return ""


def _pin(bench: Workbench, number: str, rows: list[JobRow], of: str, hand: Hand) -> int:
    known = bench.worked(number).given.state.earlier
    facts = []
    for row in rows:
        try:
            fact = _read(bench, row, of)
        except Refused:  # a ledger that is broken says nothing of wear
            continue
        if fact.rows and known.get(row.number) != fact:
            facts.append(fact)
    if facts:
        bench.record(number, facts, hand)
    return len(rows)


def _read(bench: Workbench, row: JobRow, of: str) -> EarlierPinned:
    """What one job read of everything that wears."""
    given = bench.worked(row.number).given
    hours = given.state.opened.hours if given.state.opened else ""
    return EarlierPinned(job=row.number, on=row.opened_at, engine=row.engine_number, hours=hours,
                         of="engine" if of == "engine" else "family", rows=_rows(given))  # fmt: skip


def _rows(given: Given) -> tuple[Past, ...]:
    found = []
    for v in worn(given):
        came = v.as_found.value if v.as_found else None
        left = v.value if v.fresh else None
        if came is not None or left is not None or v.judged_new:
            u = v.u if left is not None else v.as_found.u if v.as_found else None
            found.append(Past(address=v.address, came=_text(came), left=_text(left), u=_text(u), renewed=v.judged_new))
    return tuple(found)


def _text(value: float | None) -> str:
    return "" if value is None else f"{value:.6g}"
