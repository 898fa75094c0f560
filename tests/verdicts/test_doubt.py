"""A verdict counts only as far as the gauge can see: coarser gauges, shared gauges, what settles it."""

from __future__ import annotations

from math import erf, sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from verdict_room import MIC, Room, card, limit

from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.metrology.known import Known
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.verdicts import decide
from gudgeon.verdicts.decide import Limits

STEM = limit("stem_diameter", new=("6.960 mm", "6.980 mm"), least="6.950 mm")
FIT = limit("stem_guide_clearance", new=("0.020 mm", "0.050 mm"), most="0.080 mm")
VALVE = "c1.in"


def stem(gauge: GaugeCard, *texts: str) -> Room:
    room = Room(book=STEM, cards=(gauge,))
    for text in texts or ("6.955",):
        room.six("stem_diameter", VALVE, " ".join([text] * 6), gauge.id)
    return room


def phi(z: float) -> float:
    return 0.5 * (1.0 + erf(z / sqrt(2.0)))


def test_the_same_readings_with_a_coarser_gauge_change_the_word() -> None:
    fine, finer = card("fine", "micrometer", "0.002 mm"), card("finer", "micrometer", "0.0005 mm", "0.0005 mm")
    coarse = card("coarse", "micrometer", "0.012 mm")
    assert stem(fine).word("stem_diameter", VALVE) == "serviceable"
    room = Room(book=STEM, cards=(coarse, finer))
    room.six("stem_diameter", VALVE, " ".join(["6.955"] * 6), "coarse")
    v = room.at("stem_diameter", VALVE)
    assert (v.verdict, [s.gauge for s in v.settles]) == ("too close to call", ["finer"])
    assert not v.good and not v.bad


def test_the_probability_is_that_of_a_monte_carlo_with_one_shared_draw() -> None:
    """One micrometer reads guide and stem: its own error is drawn once and cancels; drawn twice it would not."""
    both = card("M2", "micrometer", "0.006 mm", "0.004 mm")
    room = Room(book=FIT, cards=(both,))
    room.six("guide_bore", VALVE, "7.030 7.030 7.030 7.030 7.030 7.034", "M2")
    room.six("stem_diameter", VALVE, "6.961 6.961 6.961 6.961 6.961 6.959", "M2")
    v = room.at("stem_guide_clearance", VALVE)
    rng, bias_u, own_u = Random(4711), both.shared_u(7.0), both.reading_u(7.0)
    n, inside = 60_000, 0
    for _ in range(n):
        bias = rng.gauss(0.0, bias_u)
        guide, spindle = 7.034 + bias + rng.gauss(0.0, own_u), 6.959 + bias + rng.gauss(0.0, own_u)
        inside += guide - spindle <= 0.080
    assert v.value == pytest.approx(0.075) and v.u is not None
    assert phi((0.080 - v.value) / v.u) == pytest.approx(inside / n, abs=4 * sqrt(0.25 / n))
    found = decide.of_size(Known(value=v.value, parts=v.budget), Limits(low=None, high=0.080, new_low=None, new_high=None,
                           judged_new=False), risk=0.05, guarded=True, guard=False)  # fmt: skip
    assert found.probability == pytest.approx(phi((0.080 - v.value) / v.u), abs=1e-9)
    twice = 0
    for _ in range(n):
        guide = 7.034 + rng.gauss(0.0, bias_u) + rng.gauss(0.0, own_u)
        twice += guide - (6.959 + rng.gauss(0.0, bias_u) + rng.gauss(0.0, own_u)) <= 0.080
    assert abs(twice / n - inside / n) > 0.02  # the test can tell the two apart


@pytest.mark.parametrize(
    ("error", "repeat"), [("0.002 mm", "0.001 mm"), ("0.010 mm", "0.0005 mm"), ("0.0031 mm", "0.004 mm")]
)
def test_one_gauge_against_two_of_equal_cards_differ_by_exactly_two_bias_squares(error: str, repeat: str) -> None:
    def u(guide: str, spindle: str) -> float:
        room = Room(book=FIT, cards=tuple(card(id, "micrometer", error, repeat) for id in ("A", "B")))
        room.six("guide_bore", VALVE, " ".join(["7.020"] * 6), guide)
        room.six("stem_diameter", VALVE, " ".join(["6.970"] * 6), spindle)
        found = room.at("stem_guide_clearance", VALVE).u
        assert found is not None
        return found

    bias = card("A", "micrometer", error, repeat).shared_u(7.0)
    assert u("A", "B") ** 2 - u("A", "A") ** 2 == pytest.approx(2.0 * bias**2, rel=1e-9)


@pytest.mark.parametrize("text", ["6.9515", "6.9485", "6.951", "6.949"])
def test_the_gauge_that_settles_put_in_place_of_the_old_one_settles_it(text: str) -> None:
    shelf = (
        card("old", "micrometer", "0.006 mm", "0.002 mm"),
        card("good", "micrometer", "0.0005 mm", "0.0004 mm"),
        card("worse", "micrometer", "0.05 mm"),
    )
    room = Room(book=STEM, cards=shelf)
    room.six("stem_diameter", VALVE, " ".join([text] * 6), "old")
    v = room.at("stem_diameter", VALVE)
    assert v.verdict == "too close to call" and {s.gauge for s in v.settles} == {"good"}
    for way in v.settles:
        after = Room(book=STEM, cards=shelf)
        for _ in range(way.readings):
            after.six("stem_diameter", VALVE, " ".join([text] * 6), way.gauge)
        assert after.word("stem_diameter", VALVE) in ("serviceable", "past limit")
    for _ in range(v.settles[0].readings):  # and where the old readings stay, too
        room.six("stem_diameter", VALVE, " ".join([text] * 6), "good")
    assert room.word("stem_diameter", VALVE) == ("serviceable" if float(text) > 6.95 else "past limit")


def test_what_settles_a_fit_counts_what_the_two_parts_share() -> None:
    """Guide and stem by one micrometer: its error cancels, so that reading once more with it settles the fit."""
    one = card("M", "micrometer", "0.02 mm", "0.003 mm")
    room = Room(book=FIT, cards=(one,))
    room.six("guide_bore", VALVE, " ".join(["7.0345"] * 6), "M")
    room.six("stem_diameter", VALVE, " ".join(["6.961"] * 6), "M")
    v = room.at("stem_guide_clearance", VALVE)
    assert v.verdict == "too close to call" and [s.gauge for s in v.settles] == ["M"]
    for _ in range(v.settles[0].readings):
        room.six("stem_diameter", VALVE, " ".join(["6.961"] * 6), "M")
    assert room.word("stem_guide_clearance", VALVE) == "serviceable"


def test_what_settles_a_spread_is_the_gauge_that_reads_the_sizes() -> None:
    rough = card("bore", "bore gauge", "0.05 mm", "0.002 mm", low="50 mm", high="80 mm")
    room = Room(book=limit("out_of_round", most="0.010 mm"), cards=(rough,))
    room.six("bore_diameter", "c1", "64.0000 64.0065 64.0000 64.0000 64.0000 64.0000", "bore")
    v = room.at("out_of_round", "c1")
    assert v.u == pytest.approx(sqrt(2.0) * rough.reading_u(64.0)), "the gauge's own error cancels in a spread"
    assert (v.verdict, [(s.gauge, s.readings) for s in v.settles]) == ("too close to call", [("bore", 1)])
    room.six("bore_diameter", "c1", "64.0000 64.0065 64.0000 64.0000 64.0000 64.0000", "bore")
    assert room.word("out_of_round", "c1") == "serviceable"


def test_a_spread_has_two_readings_in_it_and_needs_more_repeats_than_one_size() -> None:
    dial = card("bore", "bore gauge", "0.05 mm", "0.002 mm", low="50 mm", high="80 mm")
    room = Room(book=limit("out_of_round", most="0.010 mm"), cards=(dial,))
    series = "64.0000 64.0072 64.0000 64.0000 64.0000 64.0000"
    room.six("bore_diameter", "c1", series, "bore")
    v = room.at("out_of_round", "c1")
    assert (v.verdict, [s.readings for s in v.settles]) == ("too close to call", [2])
    for _ in range(2):
        room.six("bore_diameter", "c1", series, "bore")
    assert room.word("out_of_round", "c1") == "serviceable"


def test_an_unfinished_series_names_no_gauge_that_would_settle_it() -> None:
    room = Room(
        book=STEM, cards=(card("old", "micrometer", "0.006 mm"), card("good", "micrometer", "0.0005 mm", "0.0004 mm"))
    )
    room.six("stem_diameter", VALVE, "6.951 6.951 6.951 6.951 6.951", "old")
    assert (room.word("stem_diameter", VALVE), room.at("stem_diameter", VALVE).settles) == ("not measured", ())
    room.read("stem_diameter", VALVE, "6.951", "old", "bottom y")
    assert (room.word("stem_diameter", VALVE), len(room.at("stem_diameter", VALVE).settles)) == ("too close to call", 1)


@pytest.mark.parametrize("kind", ["micrometer", "small-hole gauge"])
def test_the_gauge_that_read_both_parts_settles_either_of_them(kind: str) -> None:
    room = Room(book=FIT, cards=(card("X", kind, "0.02 mm", "0.003 mm"),))
    room.six("guide_bore", VALVE, " ".join(["7.0345"] * 6), "X")
    room.six("stem_diameter", VALVE, " ".join(["6.961"] * 6), "X")
    assert [s.gauge for s in room.at("stem_guide_clearance", VALVE).settles] == ["X"]


def test_nothing_on_the_shelf_can_settle_it_so_it_is_judged_as_read_and_says_so() -> None:
    coarse = card("M", "micrometer", "0.010 mm")
    for text, word in (("6.952", "serviceable"), ("6.949", "past limit")):
        v = stem(coarse, text).at("stem_diameter", VALVE)
        assert (v.verdict, v.settles) == (word, ())
        assert [str(n) for n in v.notes] == ["nothing on the shelf can settle it; judged as read"]


def test_what_wrecks_an_engine_and_cannot_be_settled_is_not_passed() -> None:
    kind = MEASURANDS["squish"]
    shelf = (card("C", kind.gauges[0], "0.10 mm", "0.05 mm"),)
    room = Room(book=limit("squish", least="0.80 mm"), cards=shelf)
    points = kind.points(room.anatomy, "c1")
    assert len(points) > 1
    room.read("squish", "c1", "0.85", "C", points[0])
    assert room.word("squish", "c1") == "not measured", "what is only not proven must not condemn from one spot"
    for point in points[1:]:
        room.read("squish", "c1", "0.85", "C", point)
    v = room.at("squish", "c1")
    assert v.verdict == "past limit" and "not proven, so not passed" in str(v.notes[0])


@given(
    value=st.floats(6.93, 6.99),
    u=st.floats(1e-5, 0.02),
    more=st.floats(1.0, 30.0),
    both=st.booleans(),
    guarded=st.booleans(),
)
def test_a_larger_doubt_never_turns_open_into_proven(
    value: float, u: float, more: float, both: bool, guarded: bool
) -> None:
    limits = Limits(low=6.95, high=6.98 if both else None, new_low=None, new_high=None, judged_new=False)

    def word(doubt: float) -> decide.Outcome:
        known = Known(value=value, parts=(("gauge", doubt),))
        return decide.of_size(known, limits, risk=0.05, guarded=guarded, guard=False)

    def setting(doubt: float) -> decide.Outcome:
        known = Known(value=value, parts=(("gauge", doubt),))
        return decide.of_setting(known, limits, risk=0.05, tight_guarded=guarded, loose_guarded=not guarded)

    for judge in (word, setting):
        if judge(u).open:
            assert judge(u * more).open or judge(u * more).word == judge(u).word


def test_of_two_gauges_at_a_place_the_one_that_sees_better_counts() -> None:
    rough, fine = card("rough", "micrometer", "0.02 mm"), card("fine", "micrometer", "0.001 mm")
    for order in (("rough", "fine"), ("fine", "rough")):
        room = Room(book=STEM, cards=(rough, fine))
        for gauge in order:
            room.six("stem_diameter", VALVE, " ".join(["6.970" if gauge == "fine" else "6.965"] * 6), gauge)
        v = room.at("stem_diameter", VALVE)
        assert (v.value, v.gauges) == (pytest.approx(6.970), ("fine",))


def test_repeats_of_one_gauge_average_what_is_new_each_time_only() -> None:
    room = stem(MIC, "6.970", "6.972")
    v = room.at("stem_diameter", VALVE)
    assert v.value == pytest.approx(6.971) and v.u is not None
    assert v.u**2 == pytest.approx(MIC.shared_u(7.0) ** 2 + MIC.reading_u(7.0) ** 2 / 2)


def test_the_extremes_that_count_are_the_smallest_stem_and_the_largest_guide() -> None:
    room = Room(book=FIT)
    room.six("guide_bore", VALVE, "7.010 7.012 7.030 7.011 7.015 7.010", "H")
    room.six("stem_diameter", VALVE, "6.970 6.968 6.966 6.975 6.971 6.970", "M")
    v = room.at("stem_guide_clearance", VALVE)
    assert v.value == pytest.approx(7.030 - 6.966) and {label for label, _ in v.budget} >= {"gauge H", "gauge M"}


def test_a_card_pinned_into_the_job_is_what_its_verdicts_go_by() -> None:
    room = stem(MIC)
    better = replace_error(MIC, "0.02 mm")
    before, after = room.judge().at("stem_diameter", VALVE), room.judge((better,)).at("stem_diameter", VALVE)
    assert before is not None and after is not None and before.u == after.u


def replace_error(old: GaugeCard, error: str) -> GaugeCard:
    return GaugeCard.from_pinned(old.pinned() | {"permissible_error": error})


def test_an_overdue_gauge_still_measures_and_says_so_by_the_day_it_was_used() -> None:
    late = card("M", "micrometer", due="2033-05-03")
    v = stem(late).at("stem_diameter", VALVE)
    assert v.verdict == "serviceable" and [str(n) for n in v.notes] == ["gauge M: calibration overdue"]
    room = stem(card("M", "micrometer", due="2033-05-04"))
    room.day = "2033-06-01"
    room.read("valve_margin", VALVE, "1.20", "M")
    assert room.at("stem_diameter", VALVE).notes == (), "it was not overdue when the stem was read"


def test_a_dial_set_on_a_master_reads_deviations_and_plain_sizes_alike() -> None:
    book = limit("bore_diameter", new=("64.000 mm", "64.015 mm"), most="64.060 mm")
    for direction, sign in (("1", "+"), ("-1", "-")):
        dial = card("B", "bore gauge", "0.002 mm", unit="µm", deviation="true", master="64.000 mm", master_u="0.001 mm",
                    direction=direction)  # fmt: skip
        room = Room(book=book, cards=(dial,))
        for point, text in zip(("top x", "top y", "middle x", "middle y", "bottom x", "bottom y"),
                               (f"{sign}26", "11" if sign == "+" else "-11", "0", f"{sign}5", "64.010 mm", f"{sign}7"),
                               strict=True):  # fmt: skip
            room.read("bore_diameter", "c1", text, "B", point, unit="µm")
        v = room.at("bore_diameter", "c1")
        assert (v.value, v.verdict) == (pytest.approx(64.026), "serviceable")
        assert dict(v.budget)["gauge B"] == pytest.approx(sqrt((0.002 / sqrt(3)) ** 2 + 0.001**2))


def test_the_typed_digits_say_the_resolution_where_they_are_coarser_than_the_gauge() -> None:
    fine, rough = stem(MIC, "6.970").at("stem_diameter", VALVE), stem(MIC, "6.97").at("stem_diameter", VALVE)
    assert fine.u is not None and rough.u is not None
    assert rough.u**2 - fine.u**2 == pytest.approx((0.01**2 - 0.001**2) / 12)


def test_all_readings_in_inches_move_nothing_but_their_last_digits() -> None:
    metric, inch = Room(book=FIT), Room(book=FIT)
    metric.six("guide_bore", VALVE, " ".join(["7.0104"] * 6), "H")
    metric.six("stem_diameter", VALVE, " ".join(["6.9596"] * 6), "M")
    for point in ("top x", "top y", "middle x", "middle y", "bottom x", "bottom y"):
        inch.read("guide_bore", VALVE, "0.2760", "H", point, unit="in")
        inch.read("stem_diameter", VALVE, "0.2740", "M", point, unit="in")
    one, other = metric.at("stem_guide_clearance", VALVE), inch.at("stem_guide_clearance", VALVE)
    assert one.value == pytest.approx(other.value) and one.verdict == other.verdict
