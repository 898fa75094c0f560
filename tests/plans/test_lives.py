"""Lives of parts: what begins one anew, and that readings of another part never join it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.plans.lives import Read, Visit, lives

AT = "ring_gap@c1.ring.top"


def visit(hours: float, *, came: float | None = None, left: float | None = None, renewed: bool = False) -> Visit:
    def read(value: float | None) -> dict[str, Read]:
        return {} if value is None else {AT: Read(hours=hours, value=value, u=0.003)}

    return Visit(hours=hours, came=read(came), left=read(left), renewed=frozenset({AT} if renewed else ()))


def told(*seen: Visit, way: float = 1.0) -> list[list[tuple[float, float]]]:
    return [[(r.hours, r.value) for r in life] for life in lives(seen, AT, way)]


def test_a_renewed_part_begins_anew_and_what_it_came_with_ends_the_life_before() -> None:
    seen = (visit(100, left=0.25), visit(300, came=0.45, left=0.25, renewed=True), visit(400, came=0.35))
    assert told(*seen) == [[(100, 0.25), (300, 0.45)], [(300, 0.25), (400, 0.35)]]


def test_a_renewed_part_that_was_not_read_has_a_life_without_readings() -> None:
    assert told(visit(100, left=0.25), visit(300, came=0.45, renewed=True)) == [[(100, 0.25), (300, 0.45)], []]


def test_a_reading_as_it_came_and_as_it_was_left_is_one_reading() -> None:
    assert told(visit(100, came=0.25, left=0.25), visit(200, came=0.30, left=0.302)) == [[(100, 0.25), (200, 0.302)]]


def test_a_fit_with_one_of_its_parts_renewed_begins_anew() -> None:
    """A new stem in an old guide is not new, but its clearance is another one's."""
    seen = (visit(100, left=0.05), visit(200, came=0.09, left=0.06), visit(300, came=0.08))
    assert told(*seen) == [[(100, 0.05), (200, 0.09)], [(200, 0.06), (300, 0.08)]]


def test_a_size_that_was_worked_begins_anew_whichever_way_it_went() -> None:
    """A cut seat leaves the tip higher: that is no wear."""
    seen = (visit(100, left=37.50), visit(200, came=37.56, left=37.91), visit(300, came=37.95))
    assert told(*seen) == [[(100, 37.50), (200, 37.56)], [(200, 37.91), (300, 37.95)]]
    assert told(*seen, way=0.0) == told(*seen)


@pytest.mark.parametrize(("way", "before", "after"), [(1.0, 0.45, 0.25), (-1.0, 4.95, 4.99)])
def test_what_comes_in_less_worn_than_it_was_left_is_another_part(way: float, before: float, after: float) -> None:
    assert told(visit(100, left=before), visit(200, came=after), way=way) == [[(100, before)], [(200, after)]]


def test_within_the_doubt_of_two_readings_nothing_is_another_part() -> None:
    assert len(told(visit(100, left=0.300), visit(200, came=0.292))) == 1
    assert len(told(visit(100, left=0.300), visit(200, came=0.291))) == 2  # 2·√2·0.003 = 0.0085


def test_where_it_may_wear_either_way_only_a_renewal_begins_anew() -> None:
    assert len(told(visit(100, left=0.45), visit(200, came=0.25), way=0.0)) == 1


@given(
    st.lists(st.tuples(st.floats(0.2, 0.6), st.booleans()), min_size=1, max_size=8), st.sampled_from([-1.0, 0.0, 1.0])
)
def test_no_reading_is_lost_and_none_counts_twice(told_of: list[tuple[float, bool]], way: float) -> None:
    seen = [visit(100.0 * n, came=value, renewed=new) for n, (value, new) in enumerate(told_of)]
    flat = [r.value for life in lives(seen, AT, way) for r in life]
    assert flat == [value for value, _ in told_of]
