"""What a plan is: what to fit, machine, order or measure, or what it waits for, or why it cannot be. Never an empty list."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from gudgeon.book.book import Book
from gudgeon.job.state import JobState
from gudgeon.problem import Said
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.evaluate import evaluate
from gudgeon.verdicts.shape import Judged

Standing = Literal["ready", "waits", "impossible", "nothing to do"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a plan: where, what to do there in words, the numbers behind it by name, and why."""

    where: str
    what: Said
    numbers: tuple[tuple[str, float | str | bool | None], ...] = ()
    because: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """A part that the job uses up: its number, how many, for which slots, whether it is sure; `on_hand` is not ordered."""

    number: str
    name: str
    count: int
    slots: tuple[str, ...]
    because: Said
    sure: bool = True
    price: float | None = None
    on_hand: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Something a machine shop does: where, what, the size to reach, its bounds as the machinist can measure them."""

    where: str
    what: Said
    to_reach: tuple[Said, ...]
    low_mm: float | None
    high_mm: float | None
    never_over_mm: float | None
    bound_because: tuple[Said, ...]
    forbidden: tuple[Said, ...] = ()
    encloses: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Given:
    """All that a planner may look at; the verdicts are worked out when somebody asks for them."""

    state: JobState
    book: Book
    shelf: Shelf
    rules: Rules

    @cached_property
    def judged(self) -> Judged:
        """Every verdict of the job."""
        return evaluate(self.state, self.book, self.rules, self.shelf)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What a planner says. The two roll-ups read `buys` and `machines` only."""

    key: str
    name: str
    state: Standing
    lines: tuple[Line, ...] = ()
    needs: tuple[str, ...] = ()
    buys: tuple[Buy, ...] = ()
    machines: tuple[Cut, ...] = ()
    rests_on: tuple[int, ...] = ()
    reasons: tuple[Said, ...] = field(default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Planner:
    """A planner: its key, its name, and the function that plans from what is given and from earlier plans."""

    key: str
    name: str
    plan: Callable[[Given, tuple[Plan, ...]], Plan]
    scopes: tuple[str, ...]
