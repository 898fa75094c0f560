"""What every operation must say of itself: what it is called, what it disturbs, what it calls for, and what it endangers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gudgeon.anatomy import Anatomy, Feature

Where = Callable[[Anatomy], tuple[str, ...]]
Detail = Mapping[str, str]
Disturbs = Callable[[Anatomy, str, Detail], tuple[Feature, ...]]
Pairs = Callable[[Anatomy, str], tuple[tuple[str, str], ...]]


def disturbs_nothing(_anatomy: Anatomy, _where: str, _detail: Detail) -> tuple[Feature, ...]:
    """What an operation disturbs that leaves every reading as it was."""
    return ()


def no_pairs(_anatomy: Anatomy, _where: str) -> tuple[tuple[str, str], ...]:
    """No pair of slots is worked to one another."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """Something that can be done: where, what it disturbs, what is to be measured after it."""

    key: str
    name: str
    did: str
    where: Where
    disturbs: Disturbs = disturbs_nothing
    first_time_only: bool = False
    renews: bool = False
    closes: Disturbs = disturbs_nothing
    pairs: Pairs = no_pairs
    calls_for: tuple[str, ...] = ()
    forbidden_on: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    caution: str = ""
    example: str = ""
