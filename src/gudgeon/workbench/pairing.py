"""Who may come in over a network: a bench paired by a code that was shown on one that is in already, or by an account.

A code is random (122 bits), counts for a few minutes and once. A paired bench holds a secret of its own; kept is only its digest,
so whoever reads the database cannot come in. Ending a bench works at its next request.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from gudgeon.problem import Refused, refuse
from gudgeon.workbench.ports import Accounts, Bench, Benches, Clock

CODE_MINUTES = 10
#: Wrong passwords in a row before an account rests, and for how long (common practice, no source).
TRIES, REST_MINUTES = 5, 5
SHORTEST_PASSWORD = 10
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Paired:
    """A bench that has just come in, and the secret that its cookie shall hold."""

    bench: Bench
    secret: str


class Pairing:
    """The verbs of the door."""

    def __init__(self, *, benches: Benches, accounts: Accounts, clock: Clock) -> None:
        self.benches, self.accounts, self.clock = benches, accounts, clock
        self._wrong: dict[str, list[str]] = {}

    def new_code(self, minutes: int = CODE_MINUTES) -> str:
        """A code to show; only its digest is kept."""
        code, now = self.clock.new_id(), self.clock.now()
        self.benches.put_code(digest(code), until=_later(now, minutes), now=now)
        return code

    def code_counts(self, code: str) -> bool:
        """Whether a code may still pair."""
        until = self.benches.code(digest(code))
        return bool(until) and self.clock.now() <= until

    def pair(self, code: str, name: str) -> Paired:
        """Use a code up: this bench may come in."""
        if not self.code_counts(code):
            raise _gone()
        paired = self._new(_named(name, self.benches.benches()))
        if not self.benches.pair(digest(code), paired.bench):
            raise _gone()
        return paired

    def enter(self, account: str, password: str) -> Paired:
        """Come in by name and password."""
        name = account.strip()
        if self._rests(name):
            raise refuse(
                "account",
                "Too many wrong passwords for it in a row.",
                "Wait {n} minutes, or use a code.",
                n=REST_MINUTES,
            )
        if not self.accounts.proves(name, password):
            self._wrong.setdefault(name[:LONGEST_NAME], []).append(self.clock.now())
            raise refuse("account", "Name and password do not belong together.", "Type them again.")
        self._wrong.pop(name, None)
        paired = self._new(name)
        self.benches.keep(paired.bench)
        return paired

    def bench(self, secret: str) -> Bench | None:
        """The bench that holds a secret, unless it was sent away."""
        return self.benches.bench(digest(secret)) if secret else None

    def end(self, bench: str) -> None:
        """Send a bench away."""
        if not self.benches.end(bench, self.clock.now()):
            raise refuse("bench", "There is no such bench, or it was sent away already.", "Load the page again.")

    def put_account(self, name: str, password: str) -> None:
        """Make an account or change its password."""
        plain = name.strip()
        if not plain or len(plain) > LONGEST_NAME or not plain.isprintable():
            raise refuse("account", "A name has 1 to {n} characters.", "Choose another name.", n=LONGEST_NAME)
        if len(password) < SHORTEST_PASSWORD or password.strip().lower() == plain.lower():
            raise refuse(
                "account",
                "A password has at least {n} characters and is not the name.",
                "Choose another.",
                n=SHORTEST_PASSWORD,
            )
        self.accounts.put(plain, password)

    def remove_account(self, name: str) -> None:
        """Take an account away, and send away every bench that came in by it."""
        self.accounts.remove(name)
        for bench in self.benches.benches():
            if bench.name == name:
                self.benches.end(bench.id, self.clock.now())

    def _new(self, name: str) -> Paired:
        secret = self.clock.new_id()
        return Paired(bench=Bench(id=digest(secret), name=name, paired_at=self.clock.now()), secret=secret)

    def _rests(self, name: str) -> bool:
        since = _later(self.clock.now(), -REST_MINUTES)
        recent = [at for at in self._wrong.get(name[:LONGEST_NAME], []) if at > since]
        if recent:
            self._wrong[name[:LONGEST_NAME]] = recent
        else:
            self._wrong.pop(name[:LONGEST_NAME], None)
        return len(recent) >= TRIES


def digest(secret: str) -> str:
    """What is kept of a code or a secret. They are random and long, so a plain digest is enough (no dictionary holds them)."""
    return sha256(secret.encode("utf-8", "replace")).hexdigest()


def _named(name: str, others: tuple[Bench, ...]) -> str:
    plain = " ".join(name.split())
    if not plain or len(plain) > LONGEST_NAME or not plain.isprintable():
        raise refuse("bench", "A bench's name has 1 to {n} characters.", "Name it by where it stands.", n=LONGEST_NAME)
    if any(other.name.casefold() == plain.casefold() for other in others):
        raise refuse(
            "bench", "There is a bench {name} already.", "Choose another name, or send that one away first.", name=plain
        )
    return plain


def _gone() -> Refused:
    return refuse("pairing", "This code was used or is too old.", "Show a new one on a bench that is in already.")


def _later(now: str, minutes: int) -> str:
    at = datetime.fromisoformat(now.replace("Z", "+00:00")) + timedelta(minutes=minutes)
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")
