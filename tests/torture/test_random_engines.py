"""Fifty randomly worn engines: each ends in a route whose holds all pass on evidence, or in a reason that the bench itself gives.

`make torture` works thousands of every scope; `python tools/torture_engines.py 1 SEED` works the one of a seed again.
"""

from __future__ import annotations

import pytest
from tests.torture.technician import BOOKS, Technician

#: Jobs of each book, small ones mostly: a big one of sixteen valves takes as long as thirty of them.
JOBS = {
    "corrie": ("valves",) * 7 + ("leak test",) * 4 + ("cylinder", "whole top end"),
    "scree": ("valves",) * 7 + ("leak test",) * 4 + ("cylinder",),
    "gully": ("valves",) * 7 + ("leak test",) * 5,
    "tarn": ("valves",) * 5 + ("leak test",) * 4 + ("cylinder", "cylinder", "head out", "whole top end"),
}
ENGINES = [(BOOKS.index(book) + 4 * n, scope) for book, scopes in JOBS.items() for n, scope in enumerate(scopes)]


def ends_well(seed: int, scope: str) -> None:
    ended = Technician(seed, scope).work()
    assert ended.how in ("finished", "stopped"), ended
    assert ended.how == "finished" or ended.words, ended


class TestFirst:
    """Run beside the others."""

    @pytest.mark.parametrize(("seed", "scope"), ENGINES[::2])
    def test_an_engine_ends_finished_or_with_a_reason(self, seed: int, scope: str) -> None:
        ends_well(seed, scope)


class TestSecond:
    """Run beside the others."""

    @pytest.mark.parametrize(("seed", "scope"), ENGINES[1::2])
    def test_an_engine_ends_finished_or_with_a_reason(self, seed: int, scope: str) -> None:
        ends_well(seed, scope)


def test_there_are_fifty() -> None:
    assert len(ENGINES) == 50


def test_a_seed_makes_the_same_job_again_and_not_every_job_is_given_up() -> None:
    ends = [Technician(seed, "valves").work() for seed in (3, 7, 11)]
    assert any(e.how == "finished" for e in ends)
    assert ends == [Technician(seed, "valves").work() for seed in (3, 7, 11)]
