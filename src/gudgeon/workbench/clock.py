"""A clock that a story or a test sets: the same story gives the same times and ids, byte for byte."""

from __future__ import annotations

import datetime as dt
import hashlib
import uuid

_FORM = "%Y-%m-%dT%H:%M:%SZ"


class StoryClock:
    """Moves on by `step_seconds` with every id it makes and when it is told to; ids follow from `seed` and a count."""

    def __init__(self, start: str, seed: str = "story", step_seconds: float = 0) -> None:
        self._at = dt.datetime.strptime(start, _FORM).replace(tzinfo=dt.UTC)
        self._seed, self._step = seed, dt.timedelta(seconds=step_seconds)
        self._made = 0

    def now(self) -> str:
        """The time it has come to; looking does not move it, whatever stands behind a workbench."""
        return self._at.strftime(_FORM)

    def go_on(self, *, minutes: float = 0, seconds: float = 0) -> None:
        """Let time pass."""
        self._at += dt.timedelta(minutes=minutes, seconds=seconds)

    def new_id(self) -> str:
        """The next id: a UUID in form, made from the count."""
        self._made += 1
        self._at += self._step
        digest = hashlib.sha256(f"{self._seed} {self._made}".encode()).digest()
        return str(uuid.UUID(bytes=digest[:16], version=4))
