"""Which word stands when: coverage, settings, bounds, methods, renewed or reused, stale, trial, warm, altitude, no limit."""

from __future__ import annotations

from typing import get_args

import pytest
from verdict_room import SIX, Room, card, limit

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.job.entries import PartsSwapped
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.mechanics.air import ambient_kpa
from gudgeon.verdicts.shape import FAILED, GOOD, OPEN, Word

STEM = limit("stem_diameter", new=("6.960 mm", "6.980 mm"), least="6.950 mm")
GUIDE = limit("guide_bore", new=("7.000 mm", "7.020 mm"), most="7.050 mm")
LASH = limit("lash", least="0.10 mm", most="0.15 mm")
V = "c1.in"

# -- coverage ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("left_out", SIX)
def test_five_of_six_places_never_pass(left_out: str) -> None:
    room = Room(book=STEM)
    for point in SIX:
        if point != left_out:
            room.read("stem_diameter", V, "6.970", "M", point)
    v = room.at("stem_diameter", V)
    assert (v.verdict, v.wanted, v.taken, v.fresh) == ("not measured", 6, 5, False)
    assert not v.good and v.probability is None
    room.read("stem_diameter", V, "6.970", "M", left_out)
    assert room.word("stem_diameter", V) == "as new"


def test_one_bad_place_of_six_is_past_its_limit() -> None:
    room = Room(book=STEM)
    room.read("stem_diameter", V, "6.930", "M", "middle y")
    v = room.at("stem_diameter", V)
    assert (v.verdict, v.taken) == ("past limit", 1) and v.bad
    near = Room(book=STEM)
    near.read("stem_diameter", V, "6.949", "M", "middle y")
    assert near.word("stem_diameter", V) == "not measured", "one place that is only near the limit proves nothing"


def test_a_fit_needs_both_of_its_parts() -> None:
    room = Room(book=limit("stem_guide_clearance", most="0.080 mm"))
    room.six("stem_diameter", V, " ".join(["6.970"] * 6), "M")
    v = room.at("stem_guide_clearance", V)
    assert (v.verdict, v.wanted, v.taken) == ("not measured", 12, 6)
    room.read("guide_bore", V, "7.090", "H", "top x")
    assert room.word("stem_guide_clearance", V) == "past limit"


def test_both_parts_pass_and_their_fit_fails() -> None:
    room = Room(book=STEM + GUIDE + limit("stem_guide_clearance", most="0.080 mm"))
    room.six("stem_diameter", V, " ".join(["6.954"] * 6), "M")
    room.six("guide_bore", V, " ".join(["7.043"] * 6), "H")
    assert [room.word(k, V) for k in ("stem_diameter", "guide_bore", "stem_guide_clearance")] == [
        "serviceable", "serviceable", "past limit"]  # fmt: skip


# -- settings --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "word"),
    [("0.03/0.04", "tight"), ("0.08/0.09", "tight"), ("0.11/0.12", "in setting"), ("0.14/0.15", "in setting"),
     ("0.15/0.16", "loose"), ("0.30/0.31", "loose"), ("no gap", "tight"), (">0.20", "loose"), ("<0.03", "tight"),
     (">0.12", "not measured")],
)  # fmt: skip
def test_a_window_is_guarded_on_its_tight_wall_and_taken_at_face_value_on_the_loose_one(text: str, word: str) -> None:
    room = Room(book=LASH)
    room.read("lash", V, text, "F")
    assert room.word("lash", V) == word


def test_the_pair_on_the_tight_wall_is_open_and_reading_again_settles_it() -> None:
    feeler = card("F", "feeler", "0.0022 mm", "0.0016 mm", resolution="0.01 mm", low="0.03 mm", high="1 mm")
    room = Room(book=LASH, cards=(feeler,))
    room.read("lash", V, "0.10/0.11", "F")
    v = room.at("lash", V)
    assert (v.verdict, [(s.gauge, s.readings) for s in v.settles]) == ("too close to call", [("F", 1)])
    assert v.probability == pytest.approx(0.93, abs=0.015), "P inside 0.94 for u = 0.0033"
    room.read("lash", V, "0.10/0.11", "F")
    assert room.word("lash", V) == "in setting"


def test_the_rules_of_the_workshop_decide_which_wall_is_guarded() -> None:
    def word(text: str, **rules: str) -> str:
        room = Room(book=LASH, rules=rules)
        room.read("lash", V, text, "F")
        return room.word("lash", V)

    assert word("0.10/0.11", tight_wall="face value") == "in setting"
    assert word("0.15/0.16", loose_wall="guarded") in ("too close to call", "loose")
    assert word("0.12/0.13", tight_wall="guarded", loose_wall="guarded") == "in setting"


def test_a_narrow_window_and_a_thick_feeler_do_not_hide_a_loose_valve() -> None:
    rough = card("F", "feeler", "0.02 mm", "0.01 mm", resolution="0.01 mm", low="0.03 mm")
    room = Room(book=limit("lash", least="0.10 mm", most="0.12 mm"), cards=(rough,))
    room.read("lash", V, "0.13/0.14", "F")
    assert room.word("lash", V) == "loose"


def test_a_setting_whose_book_prints_a_range_only_takes_its_ends_as_walls() -> None:
    room = Room(book=limit("lash", new=("0.10 mm", "0.15 mm")))
    room.read("lash", V, "0.20/0.21", "F")
    assert room.word("lash", V) == "loose"


# -- renewed or reused, as found ------------------------------------------------------------------------------------------------


def test_a_new_part_is_judged_by_the_new_range_and_a_reused_one_by_the_wear_limit() -> None:
    room = Room(book=STEM)
    room.six("stem_diameter", V, " ".join(["6.955"] * 6), "M")
    assert (room.word("stem_diameter", V), room.at("stem_diameter", V).judged_new) == ("serviceable", False)
    room.renew(f"{V}/valve")
    assert room.word("stem_diameter", V) == "not measured", "a new part is not measured, not stale"
    room.six("stem_diameter", V, " ".join(["6.955"] * 6), "M")
    v = room.at("stem_diameter", V)
    assert (v.verdict, v.judged_new, v.low, v.high) == ("past limit", True, 6.960, 6.980)


def test_a_machined_seat_is_new_and_a_lapped_one_stays_reused() -> None:
    book = limit("seat_width", new=("1.00 mm", "1.20 mm"), most="1.60 mm")
    for work, word in (("lap_valve", "serviceable"), ("cut_seat", "past limit")):
        room = Room(book=book, cards=(card("R", "graticule", "0.01 mm"),))
        room.do(work, V)
        room.read("seat_width", V, "1.40", "R")
        assert room.word("seat_width", V) == word, work


def test_what_was_found_is_kept_after_work_and_after_the_part_is_gone() -> None:
    room = Room(book=STEM + LASH)
    room.read("lash", V, "0.03/0.04", "F")
    room.six("stem_diameter", V, " ".join(["6.930"] * 6), "M")
    room.do("open_cam_holder", "cam.in")
    room.renew(f"{V}/valve")
    room.six("stem_diameter", V, " ".join(["6.970"] * 6), "M")
    lash, stem = room.at("lash", V), room.at("stem_diameter", V)
    assert lash.as_found is not None and stem.as_found is not None
    assert (lash.as_found.verdict, lash.as_found.said, lash.verdict) == ("tight", "0.035", "stale")
    assert (stem.as_found.verdict, stem.as_found.value, stem.verdict) == ("past limit", pytest.approx(6.930), "as new")


def test_what_was_found_of_a_valve_stays_with_the_place_it_was_found_in() -> None:
    room = Room(book=STEM)
    room.six("stem_diameter", V, " ".join(["6.955"] * 6), "M")
    room.add(PartsSwapped(slot="c1.in/valve", other="c1.ex/valve"))
    here, there = room.at("stem_diameter", V), room.at("stem_diameter", "c1.ex")
    assert here.as_found is not None and here.verdict == "not measured"
    assert there.as_found is None and there.verdict == "serviceable"


def test_stale_says_why_and_shows_the_last_value() -> None:
    room = Room(book=LASH)
    seq = room.read("lash", V, "0.12/0.13", "F")
    room.do("open_cam_holder", "cam.in")
    v = room.at("lash", V)
    assert (v.verdict, v.said, v.value, v.fresh, v.rests_on) == ("stale", "0.125", None, False, (seq,))
    assert [str(r.words) for r in v.reasons] == ["cam holder opened"]


def test_a_warm_lash_releases_nothing() -> None:
    room = Room(book=LASH)
    room.read("lash", V, "0.12/0.13", "F", temperature="55 °C")
    v = room.at("lash", V)
    assert (v.verdict, [str(n) for n in v.notes]) == ("not measured", ["read warm: not usable"])
    room.read("lash", V, "0.12/0.13", "F", temperature="18 °C")
    assert room.word("lash", V) == "in setting"


def test_a_trial_lash_plans_and_never_releases() -> None:
    room = Room(book=LASH)
    room.do("remove_tensioner", "engine")
    room.do("open_cam_holder", "cam.in")
    room.read("lash", V, "0.12/0.13", "F")
    v = room.at("lash", V)
    assert v.verdict == "not measured" and "cam.in holder not at final torque" in {str(n) for n in v.notes}
    room.torque("cam.in holder")
    room.torque("engine tensioner")
    room.read("lash", V, "0.12/0.13", "F")
    assert [str(n) for n in room.at("lash", V).notes].count("not turned two turns since") == 1
    room.do("turn_forwards", "engine")
    room.read("lash", V, "0.12/0.13", "F")
    assert room.word("lash", V) == "in setting"


# -- words -----------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "where", "text", "word"),
    [("contact", V, "centre", "in line"), ("contact", V, "low", "off"), ("seal_test", V, "holds", "holds"),
     ("seal_test", V, "leaks", "leaks"), ("timing_marks", "cam.in", "in line", "in line"), ("timing_marks", "cam.in", "off", "off")],
)  # fmt: skip
def test_tests_are_judged_in_words(key: str, where: str, text: str, word: str) -> None:
    assert text in MEASURANDS[key].words
    room = Room()
    room.read(key, where, text, "eye", unit="")
    v = room.at(key, where)
    assert (v.verdict, v.said) == (word, text)
    assert v.good is (word in GOOD) and v.bad is (word in FAILED)


def test_every_word_that_a_kind_may_say_is_one_of_the_words() -> None:
    said = {w for kind in CHARACTERISTICS.values() for w in (kind.good_word, kind.bad_word) if w}
    assert said <= set(get_args(Word)) and set(get_args(Word)) == GOOD | FAILED | OPEN
    assert not (GOOD & FAILED or GOOD & OPEN or FAILED & OPEN)


# -- no limit yet, the workshop's own limits, altitude --------------------------------------------------------------------------------


def test_a_reading_without_a_limit_is_shown_and_not_judged() -> None:
    room = Room()
    room.read("spring_free_length", V, "42.1", "C")
    room = Room(cards=(card("C", "caliper"),))
    room.read("spring_free_length", V, "42.1", "C")
    v = room.at("spring_free_length", V)
    assert (v.verdict, v.value, str(v.notes[0])) == ("not comparable", 42.1, "the book has no limit for it yet")


def test_a_book_without_a_wear_limit_does_not_pass_a_reused_part_outside_the_new_range() -> None:
    book = limit("stem_diameter", new=("6.960 mm", "6.980 mm"))
    for text, word in (("6.970", "as new"), ("6.900", "not comparable")):
        room = Room(book=book)
        room.six("stem_diameter", V, " ".join([text] * 6), "M")
        assert room.word("stem_diameter", V) == word


def test_a_limit_in_words_only_is_no_number() -> None:
    room = Room(book=limit("guide_bore", words="no scratches"))
    room.six("guide_bore", V, " ".join(["7.0"] * 6), "H")
    assert room.word("guide_bore", V) == "not comparable"


def test_where_the_book_is_silent_the_rules_guard_what_wrecks_an_engine() -> None:
    tester = card("T", "leak tester", "1 %", "0.5 %", unit="%", resolution="1 %")
    for text, word in (("4", "holds"), ("30", "past limit")):
        room = Room(cards=(tester,))
        room.read("leak_down", "c1", text, "T", "cold", unit="%")
        assert room.word("leak_down", "c1") == word
    strict = Room(cards=(tester,), rules={"leak_down_most": "3 %"})
    strict.read("leak_down", "c1", "8", "T", "cold", unit="%")
    assert strict.word("leak_down", "c1") == "past limit"


def test_a_guard_whose_book_prints_a_range_only_is_held_to_that_range() -> None:
    kind = MEASURANDS["squish"]
    room = Room(book=limit("squish", new=("0.90 mm", "1.10 mm")), cards=(card("C", kind.gauges[0]),))
    for point in kind.points(room.anatomy, "c1"):
        room.read("squish", "c1", "0.40", "C", point)
    assert room.word("squish", "c1") == "past limit"


@pytest.mark.parametrize(("altitude", "height_m"), [("1500 m", 1500.0), ("5000 ft", 1524.0), ("", 0.0)])
def test_compression_is_held_against_the_book_at_this_height(altitude: str, height_m: float) -> None:
    """The ratio of absolute pressures stays: (p + p0)/p0 at the sea is (p' + pa)/pa here."""
    gauge = card("P", "compression gauge", "10 kPa", "5 kPa", unit="kPa", resolution="5 kPa")
    room = Room(book=limit("compression", least="1000 kPa"), cards=(gauge,), altitude=altitude)
    room.read("compression", "c1", "880", "P", "cold", unit="kPa")
    v, ambient = room.at("compression", "c1"), ambient_kpa(height_m)
    assert v.low is not None and (v.low + ambient) / ambient == pytest.approx((1000 + 101.325) / 101.325)
    assert v.verdict == ("past limit" if not altitude else "serviceable")


@pytest.mark.parametrize("altitude", ["90000 m", "half way up", "-9000 m"])
def test_an_altitude_nobody_works_at_leaves_the_book_as_printed(altitude: str) -> None:
    room = Room(book=limit("compression", least="1000 kPa"), altitude=altitude)
    assert room.at("compression", "c1").low == 1000.0
