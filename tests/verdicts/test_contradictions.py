"""Two fresh readings that contradict with no work written between them: something was done and not written (R13)."""

from __future__ import annotations

import pytest
from verdict_room import FEELER, HOLE, MIC, Room, card, limit

from gudgeon.job.entries import Retraction

V = "c1.in"
STEM = limit("stem_diameter", new=("6.960 mm", "6.980 mm"), least="6.950 mm")
#: Two readings with one gauge: the gauge's own error cancels, what is new each time does not.
JOINT_U = 2.0 * 2.0**0.5 * MIC.reading_u(7.0)


def two(first: float, second: float) -> Room:
    room = Room(book=STEM)
    room.read("stem_diameter", V, f"{first:.6f}", "M", "top x")
    room.read("stem_diameter", V, f"{second:.6f}", "M", "top x")
    return room


@pytest.mark.parametrize(("share", "clash"), [(0.999, False), (1.001, True)])
@pytest.mark.parametrize("sign", [1, -1])
def test_the_threshold_is_the_joint_expanded_uncertainty_exactly(share: float, clash: bool, sign: int) -> None:
    judged = two(6.970, 6.970 + sign * share * JOINT_U).judge()
    assert bool(judged.problems) is clash
    v = judged.at("stem_diameter", V)
    assert v is not None and v.contradicts == ((3, 4) if clash else ())


def test_what_contradicts_passes_no_hold_and_the_problem_names_both_entries() -> None:
    room = two(6.970, 6.990)
    for point in ("top y", "middle x", "middle y", "bottom x", "bottom y"):
        room.read("stem_diameter", V, "6.970", "M", point)
    judged = room.judge()
    v = judged.at("stem_diameter", V)
    assert v is not None and v.verdict == "as new" and not v.good
    assert "Entries 3 and 4 contradict: stem diameter top x" in str(judged.problems[0])
    assert "write it, read again, or retract" in str(judged.problems[0].remedy)


def test_a_creep_in_small_steps_is_seen_against_the_first_reading() -> None:
    room = Room(book=STEM)
    for n in range(4):
        room.read("stem_diameter", V, f"{6.970 + 0.6 * n * JOINT_U:.6f}", "M", "top x")
    assert room.judge().problems


def test_work_between_them_explains_it() -> None:
    book = limit("lash", least="0.10 mm", most="0.15 mm")
    room = Room(book=book)
    room.read("lash", V, "0.12/0.13", "F")
    room.do("open_cam_holder", "cam.in")
    room.torque("cam.in holder")
    room.do("turn_forwards", "engine")
    room.read("lash", V, "0.20/0.21", "F")
    assert room.judge().problems == ()


def test_words_that_differ_contradict_and_words_that_agree_do_not() -> None:
    for second, clash in (("leaks", True), ("holds", False)):
        room = Room()
        room.read("seal_test", V, "holds", "eye", unit="")
        room.read("seal_test", V, second, "eye", unit="")
        assert bool(room.judge().problems) is clash


@pytest.mark.parametrize(("text", "clash"), [("0.03/0.04", False), ("0.10/0.11", True), ("no gap", False)])
def test_no_gap_contradicts_a_gap_that_is_plainly_wider_than_the_thinnest_leaf(text: str, clash: bool) -> None:
    for order in (("no gap", text), (text, "no gap")):
        room = Room(book=limit("lash", least="0.10 mm", most="0.15 mm"))
        for each in order:
            room.read("lash", V, each, "F")
        assert bool(room.judge().problems) is clash


@pytest.mark.parametrize(("enters", "clash"), [(True, True), (False, False)])
def test_a_pin_that_enters_a_hole_read_smaller_contradicts(enters: bool, clash: bool) -> None:
    room = Room(book=limit("guide_bore", most="7.050 mm"))
    room.read("guide_bore", V, "7.010", "H", "top x")
    room.pin_gauge(V, "7.050", enters, "top x")
    assert bool(room.judge().problems) is clash


def test_a_larger_pin_that_enters_where_a_smaller_one_did_not_contradicts() -> None:
    room = Room(book=limit("guide_bore", most="7.050 mm"))
    room.pin_gauge(V, "7.030", False, "top x")
    room.pin_gauge(V, "7.040", True, "top x")
    assert room.judge().problems


def test_two_methods_that_measure_two_things_do_not_contradict() -> None:
    edge = card("S", "straightedge", "0.005 mm", "0.003 mm", resolution="0.01 mm", low="0.03 mm")
    room = Room(
        book=limit("barrel_flatness", most="0.05 mm", method="straightedge"), cards=(edge, card("G", "dial grid"))
    )
    room.read("barrel_flatness", "c1", "0.03/0.04", "S")
    room.read("barrel_flatness", "c1", "0.090", "G")
    assert room.judge().problems == ()


def test_two_gauges_that_disagree_beyond_both_doubts_contradict() -> None:
    room = Room(book=STEM, cards=(MIC, HOLE, FEELER, card("M3", "micrometer")))
    room.read("stem_diameter", V, "6.970", "M", "top x")
    room.read("stem_diameter", V, "6.973", "M3", "top x")
    assert room.judge().problems == ()
    room.read("stem_diameter", V, "6.990", "M3", "top x")
    assert len(room.judge().problems) == 1, "one problem a place, however many readings it has"


def test_an_unreadable_reading_is_a_problem_and_not_a_crash() -> None:
    room = Room(book=STEM)
    room.read("stem_diameter", V, "seven", "M", "top x")
    judged = room.judge()
    assert len(judged.problems) == 1 and "seven" in str(judged.problems[0])


def test_of_lashes_that_contradict_the_last_is_shown_and_not_the_mean() -> None:
    """Something was done and not written: half way between before and after is the size of nothing."""
    room = Room(book=limit("lash", least="0.10 mm", most="0.15 mm"))
    room.read("lash", V, "0.12/0.13", "F")
    room.read("lash", V, "0.20/0.21", "F")
    v = room.at("lash", V)
    assert (v.value, v.verdict, v.contradicts) == (pytest.approx(0.205), "loose", (3, 4))
    room.read("lash", V, "0.21/0.22", "F")
    v = room.at("lash", V)
    assert (v.value, v.contradicts) == (pytest.approx(0.21), (3, 4, 5)), "those since then are repeats"
    assert not v.good


def test_a_retraction_leaves_the_one_that_was_right() -> None:
    room = Room(book=limit("lash", least="0.10 mm", most="0.15 mm"))
    room.read("lash", V, "0.12/0.13", "F")
    wrong = room.read("lash", V, "0.20/0.21", "F")
    room.add(Retraction(entry=f"e{wrong}", reason="wrong valve"))
    v = room.at("lash", V)
    assert (v.value, v.verdict, v.contradicts) == (pytest.approx(0.125), "in setting", ())


def test_work_retracted_between_two_lashes_shows_the_last_of_them() -> None:
    """What lies between them never happened: they contradict, and the last is the engine as it stands."""
    room = Room(book=limit("lash", least="0.10 mm", most="0.15 mm"))
    room.read("lash", V, "0.20/0.21", "F")
    room.do("open_cam_holder", "cam.in")
    opened = f"e{len(room.entries)}"
    room.torque("cam.in holder")
    fitted = f"e{len(room.entries)}"
    room.do("turn_forwards", "engine")
    room.read("lash", V, "0.12/0.13", "F")
    for entry in (opened, fitted):
        room.add(Retraction(entry=entry, reason="not this engine"))
    v = room.at("lash", V)
    assert v.value == pytest.approx(0.125) and v.contradicts and room.judge().problems
