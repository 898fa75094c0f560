"""Pain 12: the drag of a feeler is felt differently by everybody."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, Job

from gudgeon.job.entries import HoldPassed


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_pair_that_goes_and_does_not_is_asked_for(layout: str) -> None:
    seen = Job(layout, "valves").bench.measure("P-1", "lash", IN)
    assert seen.pair
    assert "leaf that goes, then the leaf that does not" in seen.ask_words


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_two_people_one_leaf_apart_are_pooled_and_both_kept(layout: str) -> None:
    job = Job(layout, "valves")
    job.read("lash", IN, "0.12/0.13", by="mara")
    one = job.at(f"lash@{IN}")
    job.read("lash", IN, "0.13/0.14", by="ivo")
    both = job.at(f"lash@{IN}")
    assert both.value == pytest.approx(0.130)
    assert len(both.rests_on) == 2
    assert one.u is not None and both.u is not None and both.u < one.u
    assert [e.by for e in job.view.entries if e.fact == "reading"] == ["mara", "ivo"]
    assert job.view.problems == ()


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_two_people_who_cannot_both_be_right_are_asked(layout: str) -> None:
    """0.13 by one, 0.15 by the other: more than both feelers together explain."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.12/0.13", by="mara")
    job.read("lash", IN, "0.14/0.15", by="ivo")
    job.read("lash", EX, "0.23/0.24")
    assert any("contradict" in p.what for p in job.view.problems)
    assert f"lash@{IN}" in job.refuses(HoldPassed(hold="H10"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_doubt_of_the_feel_counts_at_the_wall_that_burns_valves(layout: str) -> None:
    """0.09/0.11, a feel of two leaves about a tight wall of 0.10, does not pass: the leaf between was never tried."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.09/0.11", by="ivo")
    seen = job.at(f"lash@{IN}")
    assert seen.verdict == "too close to call"
    assert any("try 0.10" in str(note) for note in seen.notes)
    assert [s.gauge for s in seen.settles] == ["feel"]
    assert f"lash@{IN}" in job.hold("H10").needs
    assert job.view.next.address == f"lash@{IN}"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
@pytest.mark.parametrize(("tried", "word"), [("0.10/0.11", "in setting"), ("0.08/0.09", "tight")])
def test_the_leaf_between_settles_it(layout: str, tried: str, word: str) -> None:
    job = Job(layout, "valves")
    job.read("lash", IN, "0.08/0.11" if word == "tight" else "0.09/0.11")
    job.read("lash", IN, tried)
    assert job.at(f"lash@{IN}").verdict == word


@pytest.mark.parametrize("pair", ["0.12/0.15", "0.11/0.14"])
def test_a_wide_pair_clear_of_both_walls_asks_for_nothing_more(pair: str) -> None:
    job = Job("rocker", "valves")
    job.read("lash", IN, pair)
    assert job.at(f"lash@{IN}").verdict == "in setting"
