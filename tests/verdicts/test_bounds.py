"""Go and no-go gauges, "no gap", and limits that only one method may judge."""

from __future__ import annotations

from verdict_room import FEELER, SIX, Room, card, limit

GUIDE = limit("guide_bore", new=("7.000 mm", "7.020 mm"), most="7.050 mm")
LASH = limit("lash", least="0.10 mm", most="0.15 mm")
V = "c1.in"

# -- go and no-go, no gap ----------------------------------------------------------------------------------------------------


def test_a_no_go_pin_at_the_wear_limit_that_enters_neither_end_passes_the_guide() -> None:
    """Common practice, no source: said for both ends and two axes, since a guide wears to a bell mouth."""
    room = Room(book=GUIDE)
    for point in ("top x", "top y", "bottom x"):
        room.pin_gauge(V, "7.050", False, point)
        assert room.word("guide_bore", V) == "not measured"
    room.pin_gauge(V, "7.050", False, "bottom y")
    v = room.at("guide_bore", V)
    assert (v.verdict, v.wanted, v.taken, v.value, v.said) == ("serviceable", 4, 4, None, ", ".join(["under 7.05"] * 4))


def test_a_pin_at_the_wear_limit_that_enters_one_end_condemns() -> None:
    room = Room(book=GUIDE)
    room.pin_gauge(V, "7.050", True, "bottom x")
    assert room.word("guide_bore", V) == "past limit"


def test_a_pin_under_the_limit_says_nothing_of_the_limit() -> None:
    room = Room(book=GUIDE)
    for point in SIX:
        room.pin_gauge(V, "7.010", True, point)
    v = room.at("guide_bore", V)
    assert (v.verdict, [str(n) for n in v.notes]) == ("not measured", ["what was tried does not reach the limit"])


def test_each_place_has_its_own_bounds() -> None:
    """A smaller pin that stops at one end must not pass the other end, where only a larger one was tried."""
    room = Room(book=GUIDE)
    for point, size in zip(SIX, ("7.020", "7.060", "7.060", "7.060", "7.060", "7.060"), strict=True):
        room.pin_gauge(V, size, False, point)
    assert room.word("guide_bore", V) == "not measured"


def test_sizes_at_some_places_and_pins_at_the_others() -> None:
    room = Room(book=GUIDE)
    for point in SIX[:3]:
        room.read("guide_bore", V, "7.030", "H", point)
    for point in SIX[3:]:
        room.pin_gauge(V, "7.050", False, point)
    assert room.word("guide_bore", V) == "serviceable"
    room.pin_gauge(V, "7.055", True, SIX[4])
    assert room.word("guide_bore", V) == "past limit"


def test_a_pin_in_the_guide_is_not_held_against_the_limits_of_the_fit() -> None:
    room = Room(book=limit("stem_guide_clearance", most="0.080 mm"))
    room.six("stem_diameter", V, " ".join(["6.970"] * 6), "M")
    room.six("guide_bore", V, " ".join(["7.020"] * 6), "H")
    room.pin_gauge(V, "7.000", True, "top x")
    assert room.word("stem_guide_clearance", V) == "serviceable"


def test_no_gap_is_tight_for_a_lash_and_flat_for_a_face() -> None:
    edge = card("S", "straightedge", "0.005 mm", "0.003 mm", resolution="0.01 mm", low="0.03 mm")
    room = Room(book=LASH + limit("barrel_flatness", most="0.05 mm", method="straightedge"), cards=(FEELER, edge))
    room.read("lash", V, "no gap", "F")
    room.read("barrel_flatness", "c1", "no gap", "S")
    assert (room.word("lash", V), room.word("barrel_flatness", "c1")) == ("tight", "serviceable")
    assert room.at("lash", V).said == "no gap"


def test_a_ring_without_gap_is_past_its_lower_limit() -> None:
    room = Room(book=limit("ring_gap", least="0.15 mm", most="0.60 mm"))
    room.read("ring_gap", "c1.ring.top", "no gap", "F")
    assert room.word("ring_gap", "c1.ring.top") == "past limit"


# -- methods ---------------------------------------------------------------------------------------------------------------------


def flat(*readings: tuple[str, str]) -> str:
    edge = card("S", "straightedge", "0.005 mm", "0.003 mm", resolution="0.01 mm", low="0.03 mm")
    grid = card("G", "dial grid")
    room = Room(book=limit("barrel_flatness", most="0.05 mm", method="straightedge"), cards=(edge, grid))
    for gauge, text in readings:
        room.read("barrel_flatness", "c1", text, gauge)
    assert room.judge().problems == ()
    return room.word("barrel_flatness", "c1")


def test_a_dial_grid_releases_against_a_straightedge_limit_and_never_condemns_by_itself() -> None:
    assert flat(("G", "0.036")) == "serviceable"
    assert flat(("G", "0.080")) == "not comparable"
    assert flat(("S", "0.03/0.04"), ("G", "0.080")) == "serviceable", "the straightedge is what the book means"
    assert flat(("S", "0.08/0.09"), ("G", "0.090")) == "past limit"


def test_a_wobble_limit_is_no_clearance() -> None:
    room = Room(book=limit("stem_guide_clearance", most="0.20 mm", method="wobble"))
    room.six("stem_diameter", V, " ".join(["6.970"] * 6), "M")
    room.six("guide_bore", V, " ".join(["7.020"] * 6), "H")
    v = room.at("stem_guide_clearance", V)
    assert (v.verdict, str(v.notes[0])) == ("not comparable", "a wobble limit is not a clearance")
