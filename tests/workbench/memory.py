"""Ports that keep everything in memory, and a clock that a test can set: the workbench without storage."""

from __future__ import annotations

from dataclasses import replace
from hashlib import sha256
from itertools import count

from gudgeon.job import chain, codec
from gudgeon.problem import refuse
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.ports import Copy, Head, JobRow, Landed, Row


class MemoryLedgers:
    def __init__(self, clock: StoryClock) -> None:
        self.rows_of: dict[str, list[Row]] = {}
        self.row_of: dict[str, JobRow] = {}
        self.seq_of: dict[tuple[str, str], int] = {}
        self.clock = clock

    def open(self, number, *, title, engine_number, scope, opened_at, typed=(), account=""):  # type: ignore[no-untyped-def]
        if number in self.row_of:
            raise refuse(f"job {number}", "There is a job of this number.", "Take another number.")
        self.row_of[number] = JobRow(
            number=number, title=title, engine_number=engine_number, state="open", scope=scope,
            opened_at=opened_at, head=0, summary="", summary_at=0,
        )  # fmt: skip
        self.rows_of[number] = []
        self.append_all(number, typed, account=account, on_head=None)

    def jobs(self, *, search: str = "", state: str = "", limit: int = 200, after: str = "") -> tuple[JobRow, ...]:
        return tuple(replace(row, head=len(self.rows_of[number])) for number, row in self.row_of.items())

    def job(self, number: str) -> JobRow | None:
        return self.row_of.get(number)

    def append(self, number: str, typed_text: str, *, entry_id: str, account: str, on_head: int | None) -> Landed:
        rows = self.rows_of[number]
        if (number, entry_id) in self.seq_of:
            row = rows[self.seq_of[number, entry_id] - 1]
            if codec.typed_text(row.line) != typed_text:
                raise refuse("entry", "This id stands with other bytes.", "Make a new entry.")
            return Landed(id=entry_id, seq=row.seq, digest=row.digest, again=True)
        if on_head is not None and on_head != len(rows):
            raise refuse("head", "The job has moved on.", "Look at what arrived.")
        line = codec.landed_line(typed_text, seq=len(rows) + 1, landed_at=self.clock.now(), account=account)
        digest = chain.link(rows[-1].digest if rows else chain.START, line)
        rows.append(Row(seq=len(rows) + 1, line=line, digest=digest))
        self.seq_of[number, entry_id] = len(rows)
        return Landed(id=entry_id, seq=len(rows), digest=digest, again=False)

    def append_all(self, number, typed, *, account, on_head):  # type: ignore[no-untyped-def]
        return tuple(self.append(number, t, entry_id=i, account=account, on_head=None) for t, i in typed)

    def rows(self, number: str, *, after: int = 0) -> tuple[Row, ...]:
        return tuple(self.rows_of[number][after:])

    def head(self, number: str) -> Head:
        rows = self.rows_of[number]
        return Head(seq=len(rows), digest=rows[-1].digest if rows else chain.START)

    def note_summary(self, number: str, *, state: str, scope: str, summary: str, at: int) -> None:
        self.row_of[number] = replace(self.row_of[number], state=state, scope=scope, summary=summary, summary_at=at)

    def adopt(self, row: JobRow, rows: tuple[Row, ...]) -> None:
        self.row_of[row.number], self.rows_of[row.number] = row, list(rows)
        self.seq_of |= {(row.number, codec.decode(one.line).typed.id): one.seq for one in rows}


class MemoryLibrary:
    def __init__(self) -> None:
        self.texts: dict[str, tuple[str, str, str]] = {}
        self.shelf_text = ""
        self.photo_of: dict[tuple[str, str], str] = {}

    def put_book(self, text: str, *, name: str, edition: str) -> str:
        digest = sha256(text.encode()).hexdigest()
        self.texts[digest] = (name, edition, text)
        return digest

    def book(self, sha256: str) -> str | None:
        return self.texts[sha256][2] if sha256 in self.texts else None

    def books(self) -> tuple[tuple[str, str, str], ...]:
        return tuple((sha, name, edition) for sha, (name, edition, _t) in reversed(self.texts.items()))

    def put_photo(self, book: str, row: str, picture: str) -> None:
        self.photo_of[(book, row)] = picture

    def photos(self, book: str) -> dict[str, str]:
        return {row: sha for (name, row), sha in self.photo_of.items() if name == book and sha}

    def put_shelf(self, text: str) -> None:
        self.shelf_text = text

    def shelf(self) -> str:
        return self.shelf_text


class MemoryPictures:
    def __init__(self) -> None:
        self.kept: dict[str, bytes] = {}

    def put(self, data: bytes) -> str:
        digest = sha256(data).hexdigest()
        self.kept[digest] = data
        return digest

    adopt = put

    def get(self, sha256: str) -> bytes | None:
        return self.kept.get(sha256)


class MemoryPeople:
    def __init__(self) -> None:
        self.kept: dict[str, tuple[str, str]] = {}

    def put(self, person: str, *, name: str, phone: str = "") -> None:
        self.kept[person] = (name, phone)

    def person(self, person: str) -> tuple[str, str] | None:
        return self.kept.get(person)

    def forget(self, person: str) -> None:
        self.kept.pop(person, None)


class NoCopies:
    def make(self) -> Copy:
        return Copy(name="none", made_at="", size=0, checked=True)

    def all(self) -> tuple[Copy, ...]:
        return ()

    def restore(self, name: str) -> None:
        raise refuse("copies", "There are none in memory.", "Use storage.")


class StoryClock:
    """A minute for every question, and ids in order."""

    def __init__(self) -> None:
        self._minutes, self._ids = count(), count(1)

    def now(self) -> str:
        minute = next(self._minutes)
        return f"2026-11-{1 + minute // 1440:02d}T{minute // 60 % 24:02d}:{minute % 60:02d}:00Z"

    def new_id(self) -> str:
        return f"00000000-0000-4000-8000-{next(self._ids):012d}"


def workbench() -> Workbench:
    clock = StoryClock()
    return Workbench(
        ledgers=MemoryLedgers(clock),
        library=MemoryLibrary(),
        pictures=MemoryPictures(),
        copies=NoCopies(),
        people=MemoryPeople(),
        clock=clock,
    )
