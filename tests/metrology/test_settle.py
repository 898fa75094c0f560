"""What would settle it: each proposal is tried with the decision rule itself, and one repeat fewer must not do."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.metrology.conformity import decide
from gudgeon.metrology.settle import Candidate, needed_u, what_settles
from gudgeon.problem import Refused

candidates = st.builds(
    Candidate,
    label=st.sampled_from("abc"),
    u_bias=st.floats(0.0, 1.0),
    u_reading=st.floats(0.0, 1.0),
    u_part=st.floats(0.0, 0.3),
)


@given(value=st.floats(-2, 2), shelf=st.lists(candidates, max_size=4), both=st.booleans())
def test_every_proposal_settles_and_is_the_least(value, shelf, both):
    lower = -1.0 if both else None
    for way in what_settles(value, lower, 1.0, shelf):
        assert decide(value, way.u, lower, 1.0).proven != "neither"
        assert way.probability >= 0.95 - 1e-9
        each = next(c for c in shelf if c.label == way.label and math.isclose(c.u(way.repeats), way.u))
        if way.repeats > 1:
            assert decide(value, each.u(way.repeats - 1), lower, 1.0).proven == "neither"


@given(value=st.floats(-3, 3), both=st.booleans())
def test_needed_u_is_the_edge(value, both):
    lower = -1.0 if both else None
    edge = needed_u(value, lower, 1.0)
    if edge > 1e-9:
        assert decide(value, edge * (1 - 1e-9), lower, 1.0).proven != "neither"
        assert decide(value, edge * (1 + 1e-9), lower, 1.0).proven == "neither"


def test_bias_does_not_average_away():
    poor = Candidate(label="feeler", u_bias=0.006, u_reading=0.001)
    assert what_settles(0.046, None, 0.050, (poor,), most_repeats=1000) == ()


def test_fewest_repeats_come_first_then_the_better_gauge():
    fine, finer = (Candidate(label=n, u_bias=b, u_reading=0.0) for n, b in (("fine", 0.002), ("finer", 0.001)))
    slow = Candidate(label="slow", u_bias=0.0, u_reading=0.004)
    assert [way.label for way in what_settles(0.046, None, 0.050, (slow, fine, finer))] == ["finer", "fine", "slow"]


def test_on_the_limit_nothing_settles():
    assert what_settles(0.05, None, 0.05, (Candidate(label="laser", u_bias=1e-9, u_reading=0.0),)) == ()
    assert needed_u(0.05, None, 0.05) < 1e-12


def test_refusals():
    with pytest.raises(Refused, match="x u_bias"):
        what_settles(0.0, None, 1.0, (Candidate(label="x", u_bias=-1.0, u_reading=0.0),))
    with pytest.raises(Refused, match="most_repeats"):
        what_settles(0.0, None, 1.0, (), most_repeats=0)
    with pytest.raises(Refused):
        needed_u(0.0, None, None)
    with pytest.raises(Refused, match="value"):
        what_settles(math.nan, None, 1.0, ())
