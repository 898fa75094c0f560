"""Every row of the trade's table, both columns, exactly: too much gone stale is as bad as too little."""

from __future__ import annotations

from functools import cache

import pytest
from freshness_rows import Row
from freshness_table import ROWS
from story import Ledger, standing

from gudgeon.measurands.catalogue import MEASURANDS

GASKETS = {"c1/base gasket": "B-04", "c2/base gasket": "B-04", "head/head gasket": "H-04"}


def prepared(row: Row) -> Ledger:
    ledger = Ledger(row.layout, numbers=GASKETS)
    if not row.dirty:
        ledger.clean_everything()
    row.before(ledger)
    ledger.read_everything()
    return ledger


@cache
def outcome(number: str) -> tuple[frozenset[str], frozenset[str]]:
    """What stood before a row's event, and what stands after it."""
    row = next(one for one in ROWS if one.number == number)
    ledger = prepared(row)
    before = ledger.state()
    assert not before.problems
    row.event(ledger)
    after = ledger.state()
    assert not after.problems
    return frozenset(standing(before)), frozenset(standing(after))


def test_the_table_is_whole() -> None:
    """Rows 25, 30, 31, 32 and what the state says beside freshness stand in the module on findings."""
    told = {number.split(" ")[0] for number in (row.number for row in ROWS)}
    words = "1 2 3 4 5 6 7 8 8b 9 10 11 11b 12 13 13b 14 15 16 17 18 19 20 21 22 23 24 25b 26 27 28 29"
    assert told == set(words.split())


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.number)
def test_everything_stands_before_the_event(row: Row) -> None:
    ledger = prepared(row)
    before, _after = outcome(row.number)
    every = sum(len(kind.where(ledger.anatomy)) for kind in MEASURANDS.values()) + len(ledger.joints())
    assert len(before) == every


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.number)
def test_exactly_the_middle_column_goes_stale(row: Row) -> None:
    before, after = outcome(row.number)
    assert set(before - after) == row.stale()
    assert not after - before


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.number)
def test_the_right_column_stays_fresh(row: Row) -> None:
    before, after = outcome(row.number)
    for name in row.stays:
        own = {one for one in before if one.startswith(f"{name} ")}
        assert own, name
        assert own - row.stale() <= after, name
