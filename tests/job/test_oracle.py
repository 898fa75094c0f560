"""Random ledgers: every reading is fresh or stale exactly as the definition says, worked out by brute force."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from oracle import Oracle
from random_ledgers import random_ledger
from story import Ledger

from gudgeon.job.entries import GoNoGo, Reading

LEDGERS = 320


def said(ledger: Ledger) -> dict[str, bool]:
    return {t.entry.typed.id: t.fresh for t in ledger.state().readings if isinstance(t.fact, Reading | GoNoGo)}


@pytest.fixture(scope="module")
def counted() -> dict[str, int]:
    return {"ledgers": 0, "readings": 0, "fresh": 0, "order not known": 0}


@pytest.mark.parametrize("block", range(8))
def test_seeded_ledgers_agree_with_the_definition(block: int, counted: dict[str, int]) -> None:
    for seed in range(block * LEDGERS // 8, (block + 1) * LEDGERS // 8):
        rng = Random(seed)
        ledger = random_ledger(rng, rng.randint(10, 100))
        found, wanted = said(ledger), Oracle(ledger.entries).fresh()
        assert found == wanted, f"seed {seed}"
        counted["ledgers"] += 1
        counted["readings"] += len(found)
        counted["fresh"] += sum(found.values())
        reasons = [{r.how for r in t.reasons} for t in ledger.state().readings]
        counted["order not known"] += sum("order not known" in hows for hows in reasons)


def test_enough_was_compared(counted: dict[str, int]) -> None:
    print("\noracle:", ", ".join(f"{n} {what}" for what, n in counted.items()))
    assert counted["ledgers"] == LEDGERS
    assert counted["readings"] > 5000
    assert 0.3 < counted["fresh"] / counted["readings"] < 0.8
    assert counted["order not known"] > 150


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(rng=st.randoms(use_true_random=False), length=st.integers(3, 30))
def test_any_ledger_agrees_with_the_definition(rng: Random, length: int) -> None:
    ledger = random_ledger(rng, length)
    assert said(ledger) == Oracle(ledger.entries).fresh()


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(rng=st.randoms(use_true_random=False), length=st.integers(3, 30))
def test_reasons_are_given_exactly_where_a_reading_is_stale(rng: Random, length: int) -> None:
    for taken in random_ledger(rng, length).state().readings:
        assert bool(taken.reasons) is not taken.fresh
        assert taken.predicts or not taken.fresh
