"""The ledgers of all jobs, and what the list of jobs shows of them."""

from __future__ import annotations

import unicodedata
from functools import reduce
from operator import or_

import msgspec
from django.db.models import Exists, OuterRef, Q
from django.db.utils import IntegrityError

from gudgeon.job import chain
from gudgeon.job.codec import typed_text
from gudgeon.problem import Refused, refuse
from gudgeon.storage import append
from gudgeon.storage.append import written
from gudgeon.storage.models import HeadRow, Job, LedgerRow, Person
from gudgeon.storage.trouble import told
from gudgeon.workbench.ports import Clock, Head, JobRow, Landed, Row

LONGEST_NUMBER = 40
#: How many owners of a name a search looks up; a word that fits more is no name.
MOST_OWNERS = 50
#: What the list shows of a job: read as columns, a third of what it costs to build two models a line.
COLUMNS = (
    "number",
    "title",
    "engine_number",
    "state",
    "scope",
    "opened_at",
    "head__seq",
    "summary",
    "summary_at",
)


def _of_owner(word: str) -> Q:
    """Jobs of the owners so named: the first entry of a ledger names its owner's id. The database is made to ask job by job,
    since it would else read every line of every ledger."""
    owners = Person.objects.filter(name__icontains=word).values_list("id", flat=True)[:MOST_OWNERS]
    named = [Q(line__contains=f'"owner":{msgspec.json.encode(person).decode()}') for person in owners]
    if not named:
        return Q(pk__in=())
    return Q(Exists(LedgerRow.objects.filter(reduce(or_, named), job_id=OuterRef("number"), seq=1)))


class SqlLedgers:
    """Ledgers in the database; without state of its own, so that all threads share one."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock

    def open(
        self,
        number: str,
        *,
        title: str,
        engine_number: str,
        scope: str,
        opened_at: str,
        typed: tuple[tuple[str, str], ...] = (),
        account: str = "",
    ) -> None:
        """Begin a ledger with its first entries, or not at all: a job is never half opened."""
        job = Job(number=number, title=title, engine_number=engine_number, scope=scope, opened_at=opened_at)
        with written(f"job {number}"):
            _begin(job)
            append.land(number, typed, account=account, on_head=0, now=self._clock.now())

    def jobs(self, *, search: str = "", state: str = "", limit: int = 200, after: str = "") -> tuple[JobRow, ...]:
        """The newest first, a page at a time."""
        found = Job.objects.order_by("-opened_at", "-number")
        with told("jobs"):
            for word in search.split():
                named = Q(number__icontains=word) | Q(title__icontains=word) | Q(engine_number__icontains=word)
                found = found.filter(named | _of_owner(word))
            if state:
                found = found.filter(state=state)
            last = Job.objects.filter(number=after).first() if after else None
            if last is not None:
                found = found.filter(Q(opened_at__lt=last.opened_at) | Q(opened_at=last.opened_at, number__lt=after))
            return tuple(_shown(*columns) for columns in found.values_list(*COLUMNS)[:limit])

    def job(self, number: str) -> JobRow | None:
        """One job, or none."""
        with told(f"job {number}"):
            columns = Job.objects.filter(number=number).values_list(*COLUMNS).first()
        return None if columns is None else _shown(*columns)

    def append(self, number: str, typed_text: str, *, entry_id: str, account: str, on_head: int | None) -> Landed:
        """Land one entry: the answer comes when it is on the disk."""
        return self.append_all(number, ((typed_text, entry_id),), account=account, on_head=on_head)[0]

    def append_all(
        self, number: str, typed: tuple[tuple[str, str], ...], *, account: str, on_head: int | None
    ) -> tuple[Landed, ...]:
        """Land all of them or none."""
        with written(f"job {number}"):
            return append.land(number, typed, account=account, on_head=on_head, now=self._clock.now())

    def rows(self, number: str, *, after: int = 0) -> tuple[Row, ...]:
        """The entries after a number, as stored."""
        with told(f"job {number}"):
            found = LedgerRow.objects.filter(job_id=number, seq__gt=after).order_by("seq")
            rows = tuple(
                Row(seq=seq, line=line, digest=bytes(digest))
                for seq, line, digest in found.values_list("seq", "line", "digest")
            )
        if not rows:
            self.head(number)
        return rows

    def head(self, number: str) -> Head:
        """Where the ledger stands."""
        with told(f"job {number}"):
            found = HeadRow.objects.filter(job_id=number).values_list("seq", "digest").first()
        if found is None:
            raise append.unknown(number)
        return Head(seq=found[0], digest=bytes(found[1]))

    def note_summary(self, number: str, *, state: str, scope: str, summary: str, at: int) -> None:
        """Keep what the list shows, unless what is kept was made later."""
        with written(f"job {number}"):
            found = Job.objects.filter(number=number)
            if not found.exists():
                raise append.unknown(number)
            found.filter(summary_at__lte=at).update(state=state, scope=scope, summary=summary, summary_at=at)

    def adopt(self, row: JobRow, rows: tuple[Row, ...]) -> None:
        """Take in a whole ledger from an archive, digests and all."""
        wrong = chain.verify([one.line for one in rows], [one.digest for one in rows])
        if wrong:
            raise Refused(wrong)
        if [one.seq for one in rows] != list(range(1, len(rows) + 1)):
            raise refuse("ledger", "The entries are not numbered 1 to {n}.", "Export the job again.", n=len(rows))
        kept = [
            LedgerRow(job_id=row.number, seq=one.seq, entry=_id_in(one), line=one.line, digest=one.digest)
            for one in rows
        ]
        job = Job(number=row.number, title=row.title, engine_number=row.engine_number, scope=row.scope)
        job.state, job.opened_at, job.summary, job.summary_at = row.state, row.opened_at, row.summary, row.summary_at
        with written(f"job {row.number}"):
            _begin(job, rows[-1] if rows else None)
            _adopt(row.number, kept)


def _begin(job: Job, last: Row | None = None) -> None:
    number = job.number
    if not 1 <= len(number) <= LONGEST_NUMBER or number != number.strip() or any(map(_unfit, number)):
        raise refuse(
            "number",
            "{given} is no number of a job.",
            "Give 1 to {most} visible characters, no slash.",
            given=repr(number[: 2 * LONGEST_NUMBER]),
            most=LONGEST_NUMBER,
        )
    if Job.objects.filter(number=number).exists():
        raise refuse("number", "There is a job {number} already.", "Give another number.", number=number)
    job.save(force_insert=True)
    HeadRow(job=job, seq=last.seq if last else 0, digest=last.digest if last else chain.START).save(force_insert=True)


def _unfit(letter: str) -> bool:
    """Invisible, or what would part an address in two."""
    return unicodedata.category(letter)[0] == "C" or letter in "/\\"


def _adopt(number: str, kept: list[LedgerRow]) -> None:
    try:
        LedgerRow.objects.bulk_create(kept, batch_size=200)
    except IntegrityError:
        raise refuse(
            f"job {number}",
            "An entry of this archive stands in another job already.",
            "The job was taken in before under another number: go on there.",
        ) from None


def _id_in(row: Row) -> str:
    """The id in a stored line, whatever version wrote it."""
    try:
        return append.key_of(msgspec.json.decode(typed_text(row.line))["id"])
    except (msgspec.MsgspecError, KeyError, TypeError):
        raise refuse(f"entry {row.seq}", "The entry has no id.", "Export the job again.") from None


def _shown(
    number: str,
    title: str,
    engine_number: str,
    state: str,
    scope: str,
    opened_at: str,
    head: int,
    summary: str,
    summary_at: int,
) -> JobRow:
    return JobRow(
        number=number,
        title=title,
        engine_number=engine_number,
        state=state,
        scope=scope,
        opened_at=opened_at,
        head=head,
        summary=summary,
        summary_at=summary_at,
    )
