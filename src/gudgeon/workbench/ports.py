"""What the workbench needs from whoever keeps things: ledgers, books, shelf, pictures, copies, and a clock."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from gudgeon.problem import Problem, Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One landed entry as stored: its number, its line as text, the digest after it."""

    seq: int
    line: str
    digest: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """Where a ledger stands: number and digest of its last entry (0 and 32 zero bytes when empty)."""

    seq: int
    digest: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRow:
    """What the list of jobs shows, kept beside the ledger so that listing never replays: `summary` is words, `at` its head."""

    number: str
    title: str
    engine_number: str
    state: str
    scope: str
    opened_at: str
    head: int
    summary: str
    summary_at: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Landed:
    """The answer to an entry: where it landed and the digest after it; `again` when these very bytes were there already."""

    id: str
    seq: int
    digest: bytes
    again: bool


class OldHead(Refused):
    """A decision made on a head that is no longer the last: `head` is where the ledger stands now."""

    def __init__(self, problem: Problem, *, head: int) -> None:
        super().__init__(problem)
        self.head = head


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A checked backup: its file name, when it was made, its size, and whether its check passed."""

    name: str
    made_at: str
    size: int
    checked: bool


class Ledgers(Protocol):
    """Append-only ledgers, one a job. Refuses: unknown job, same id with other bytes, a decision on an old head.

    `append_all` and `open` take pairs of (typed text, entry id) and land all of them or none. `jobs` lists the newest first;
    `after` is the number of the last job of the page before.
    """

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
    ) -> None: ...
    def jobs(self, *, search: str = "", state: str = "", limit: int = 200, after: str = "") -> tuple[JobRow, ...]: ...
    def job(self, number: str) -> JobRow | None: ...
    def append(self, number: str, typed_text: str, *, entry_id: str, account: str, on_head: int | None) -> Landed: ...
    def append_all(
        self, number: str, typed: tuple[tuple[str, str], ...], *, account: str, on_head: int | None
    ) -> tuple[Landed, ...]: ...
    def rows(self, number: str, *, after: int = 0) -> tuple[Row, ...]: ...
    def head(self, number: str) -> Head: ...
    def note_summary(self, number: str, *, state: str, scope: str, summary: str, at: int) -> None: ...
    def adopt(self, row: JobRow, rows: tuple[Row, ...]) -> None: ...


class Library(Protocol):
    """Books and the shelf as text; editions are kept. A photo stands beside a value, by the book's name and its row."""

    def put_book(self, text: str, *, name: str, edition: str) -> str: ...
    def book(self, sha256: str) -> str | None: ...
    def books(self) -> tuple[tuple[str, str, str], ...]: ...
    def put_photo(self, book: str, row: str, picture: str) -> None: ...
    def photos(self, book: str) -> dict[str, str]: ...
    def put_shelf(self, text: str) -> None: ...
    def shelf(self) -> str: ...


class People(Protocol):
    """Name and telephone of owners and hands, by the id that entries name; beside the ledger, so that they can go."""

    def put(self, person: str, *, name: str, phone: str = "") -> None: ...
    def person(self, person: str) -> tuple[str, str] | None: ...
    def forget(self, person: str) -> None: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A tablet or laptop that may come in over a network; `id` is the digest of what it holds, not the thing itself."""

    id: str
    name: str
    paired_at: str


class Benches(Protocol):
    """Paired benches and the codes that pair them, all by digest. `pair` uses a code up, or says that it is gone."""

    def put_code(self, digest: str, *, until: str, now: str) -> None: ...
    def code(self, digest: str) -> str: ...
    def pair(self, code: str, bench: Bench) -> bool: ...
    def keep(self, bench: Bench) -> None: ...
    def bench(self, digest: str) -> Bench | None: ...
    def benches(self) -> tuple[Bench, ...]: ...
    def end(self, digest: str, at: str) -> bool: ...


class Accounts(Protocol):
    """Names and passwords, of which only a slow digest is kept."""

    def put(self, name: str, password: str) -> None: ...
    def proves(self, name: str, password: str) -> bool: ...
    def names(self) -> tuple[str, ...]: ...
    def remove(self, name: str) -> None: ...


class Pictures(Protocol):
    """Pictures by the digest of what is stored (re-encoded, without position or camera data).

    `adopt` keeps a picture of an archive byte for byte, or entries would no longer name it.
    """

    def put(self, data: bytes) -> str: ...
    def adopt(self, data: bytes) -> str: ...
    def get(self, sha256: str) -> bytes | None: ...


class Copies(Protocol):
    """Checked backups of everything; the last ten are kept."""

    def make(self) -> Copy: ...
    def all(self) -> tuple[Copy, ...]: ...
    def restore(self, name: str) -> None: ...


class Clock(Protocol):
    """The time and fresh random ids, passed in so that stories and tests can say them."""

    def now(self) -> str: ...
    def new_id(self) -> str: ...
