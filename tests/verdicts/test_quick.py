"""Quick measuring reads the worst place first and leaves the rest only where the law lets it."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from statistics import median
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st
from verdict_room import HEAD, MIC, Room, card, limit

from gudgeon.job.entries import Finding
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.quick import AGREEING, ALONE, APART, Worn, ranked, worn

#: New down to 4.970, worn out at 4.940: 0.030 is there to wear away.
STEM = limit("stem_diameter", new=("4.970 mm", "4.985 mm"), least="4.940 mm")
QUICK = Rules(measuring="quick").pinned()
IN, EX = "c1.in", "c1.ex"
ROOT = Path(__file__).resolve().parents[2]


def stems(rules: dict[str, str] = QUICK, **read: str) -> Room:
    """Stems read at some of their six places; `ex="4.968"` is one place of the exhaust's."""
    room = Room(book=STEM, rules=rules)
    for side, texts in read.items():
        room.six("stem_diameter", f"c1.{side}", texts, "M")
    return room


def test_one_place_far_from_the_limit_is_enough_and_the_other_valve_is_spared() -> None:
    room = stems(ex="4.975")
    read, left = room.at("stem_diameter", EX), room.at("stem_diameter", IN)
    assert (read.verdict, read.taken, read.wanted, read.fresh) == ("as new", 1, 6, True)
    assert (left.verdict, left.spared) == ("not measured", True)
    assert "the worst of its kind (stem diameter, exhaust) has used" in str(left.notes[-1])


def test_full_measuring_wants_every_place() -> None:
    room = stems(Rules().pinned(), ex="4.975")
    assert room.word("stem_diameter", EX) == "not measured"
    assert not room.at("stem_diameter", IN).spared


@pytest.mark.parametrize(
    ("texts", "enough"),
    [
        ("4.964", True),  # 0.006 and its doubt, of 0.030: under a third
        ("4.960", False),  # over a third, read alone
        ("4.960 4.962", True),  # under a half, and two places agree
        ("4.960 4.975", False),  # they lie half the allowance apart
        ("4.952 4.953", False),  # over a half
        ("4.952 4.953 4.953 4.952 4.954 4.953", True),  # all six
    ],
)
def test_the_law_in_numbers(texts: str, enough: bool) -> None:
    assert (stems(ex=texts).word("stem_diameter", EX) == "serviceable") is enough


def test_one_place_past_the_limit_condemns_at_once_and_spares_nobody() -> None:
    room = stems(ex="4.930")
    assert room.word("stem_diameter", EX) == "past limit"
    assert not room.at("stem_diameter", IN).spared


def test_the_cooler_side_read_first_spares_nobody() -> None:
    assert not stems(**{"in": "4.975"}).at("stem_diameter", EX).spared
    assert ranked(("c1.in.left", "c1.ex.left", "c2.ex.left")) == ("c1.ex.left", "c2.ex.left", "c1.in.left")


def test_where_something_was_found_everything_is_read() -> None:
    room = stems(ex="4.975")
    room.add(Finding(kind="groove", where=f"{IN}/valve", words="seen"))
    assert not room.at("stem_diameter", IN).spared


def test_a_leak_of_the_cylinder_is_a_doubt_about_its_valves() -> None:
    tester = card("L", "leak tester", "1 %", "", unit="%", resolution="1 %")
    room = Room(book=STEM + limit("leak_down", most="10 %"), rules=QUICK, cards=(MIC, tester))
    room.six("stem_diameter", EX, "4.975", "M")
    assert room.at("stem_diameter", IN).spared
    room.read("leak_down", "c1", "52", "L", "cold", unit="%")
    assert not room.at("stem_diameter", IN).spared


def test_a_new_part_is_read_whole_and_speaks_for_no_other() -> None:
    room = stems()
    room.renew(f"{EX}/valve")
    room.six("stem_diameter", EX, "4.975", "M")
    assert room.word("stem_diameter", EX) == "not measured"
    assert not room.at("stem_diameter", IN).spared


def test_settings_and_guards_are_never_left_out() -> None:
    room = Room(book=limit("lash", least="0.10 mm", most="0.30 mm"), head=HEAD, rules=QUICK)
    room.read("lash", EX, "0.19/0.20", "F")
    assert not room.at("lash", IN).spared


@given(
    value=st.floats(4.90, 5.0), u=st.floats(0.0, 0.01), read=st.integers(1, 6), apart=st.floats(0.0, 0.03)
)  # fmt: skip
def test_more_wear_more_doubt_or_less_agreement_never_lets_more_be_left(
    value: float, u: float, read: int, apart: float
) -> None:
    limits = Limits(low=4.94, high=None, new_low=4.97, new_high=4.985, judged_new=False)

    def far(value: float, u: float, read: int, apart: float) -> bool:
        found = worn(value, u, limits, risk=0.05, read=read, apart=apart)
        assert found is not None
        return found.far_from_limit

    now = far(value, u, read, apart)
    assert now >= far(value - 0.001, u, read, apart)
    assert now >= far(value, u + 0.001, read, apart)
    assert now >= far(value, u, read, apart + 0.001)
    assert now <= far(value, u, read + 1, apart)


def test_without_a_new_range_nothing_is_known_of_wear() -> None:
    limits = Limits(low=4.94, high=None, new_low=None, new_high=None, judged_new=False)
    assert worn(4.975, 0.001, limits, risk=0.05, read=1, apart=0.0) is None
    assert Worn(share=ALONE, read=1, apart=9.0).far_from_limit
    assert Worn(share=AGREEING, read=2, apart=APART).far_from_limit
    assert not Worn(share=AGREEING, read=1, apart=0.0).far_from_limit


@pytest.fixture(scope="module")
def played() -> ModuleType:
    spec = importlib.util.spec_from_file_location("quick_or_full", ROOT / "tools" / "quick_or_full.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["quick_or_full"] = module
    spec.loader.exec_module(module)
    return module


def test_a_healthy_single_needs_forty_readings(played: ModuleType) -> None:
    """Readings with a gauge; what is only looked at or heard (seal test, contact, oil) comes on top and is never left out."""
    book, shelf = played.kept("tarn")
    counts = []
    for seed in range(9):
        hand = played.Hand(played.Engine(book, played.HEALTHY, seed), book, shelf, played.QUICK)
        hand.work()
        counts.append(sum(n for (m, _w, _p), n in hand.taken.items() if played.MEASURANDS[m].dimension != "words"))
    print(counts)
    assert median(counts) <= 40


@pytest.mark.parametrize("worn_how", range(3))
def test_engines_worn_as_a_whole_are_decided_alike(played: ModuleType, worn_how: int) -> None:
    tally = played.play("tarn", (played.HEALTHY, *played.WORN)[worn_how], range(6))
    print(tally)
    assert (tally.same, tally.missed) == (6, 0)
    assert sum(tally.quick) < 0.85 * sum(tally.full)
