"""Gauge cards: what is shared, what is each reading's own, and the card that comes back from the ledger unchanged."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.problem import Refused
from gudgeon.shelf import EYE, GAUGE_KINDS, USUAL_GAUGES, GaugeCard


def card(**more: str) -> GaugeCard:
    base = {"id": "m1", "kind": "micrometer", "name": "micrometer", "unit": "mm", "source": "maker's sheet"}
    return GaugeCard.from_pinned({**base, **more})


def test_permissible_error_is_rectangular_and_resolution_is_each_readings_own() -> None:
    # GUM (JCGM 100:2008) 4.3.7 and F.2.2.1: half-width a gives a/√3, a digital step d gives 0.29 d.
    found = card(permissible_error="0.003 mm", resolution="0.001 mm")
    assert found.shared_u(5.0) == pytest.approx(0.00173205, rel=1e-5)
    assert found.reading_u(5.0) == pytest.approx(0.00029, rel=0.01)


def test_certificate_is_divided_by_its_own_k_and_master_is_shared() -> None:
    found = card(certificate_u="6 µm", k="3", master="88.000 mm", master_u="0.0015 mm", deviation="true")
    assert found.own_u(0.0) == pytest.approx(0.002)
    assert found.shared_u(0.0) == pytest.approx(0.0025)


def test_per_cent_grows_with_the_reading_and_adds_to_a_fixed_error() -> None:
    tester = GaugeCard.from_pinned(
        {
            "id": "t",
            "kind": "spring tester",
            "name": "t",
            "unit": "N",
            "per_cent": "1.5 %",
            "permissible_error": "1 N",
            "source": "sheet",
        }
    )
    assert tester.shared_u(200.0) == pytest.approx((3.0**2 + 1.0) ** 0.5 / 3**0.5)


def test_every_gauge_a_measurand_asks_for_is_a_known_kind_of_its_dimension() -> None:
    for measurand in MEASURANDS.values():
        assert {GAUGE_KINDS.get(kind) for kind in measurand.gauges} == {measurand.dimension}, measurand.key


@pytest.mark.parametrize("gauge", [*USUAL_GAUGES, EYE], ids=lambda g: g.id)
def test_pinned_comes_back_the_same(gauge: GaugeCard) -> None:
    assert all(type(v) is str for v in gauge.pinned().values())
    assert GaugeCard.from_pinned(gauge.pinned()) == gauge


@given(
    error=st.decimals("0.0001", "1", places=4),
    direction=st.sampled_from(["1", "-1"]),
    k=st.sampled_from(["2", "2.0", "1.96", "3"]),
    due=st.sampled_from(["", "2026-05-01"]),
)
def test_pinned_comes_back_the_same_for_any_card(error: object, direction: str, k: str, due: str) -> None:
    found = card(certificate_u=f"{error} mm", k=k, direction=direction, due=due, master="1/2 in", deviation="true")
    again = GaugeCard.from_pinned(found.pinned())
    assert again == found
    assert again.certificate_u is not None and again.certificate_u.text == f"{error} mm"


def test_overdue_says_so_from_the_day_after() -> None:
    found = card(permissible_error="0.004 mm", due="2026-05-01")
    assert not found.overdue("2026-05-01")
    assert found.overdue("2026-05-02")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, "how far this gauge may be off"),
        ({"permissible_error": "0.004"}, "has no unit"),
        ({"permissible_error": "0.004 N"}, "length is wanted"),
        ({"permissible_error": "-0.004 mm"}, "not above zero"),
        ({"permissible_error": "0.004 mm", "certificate_u": "0.002 mm"}, "Both a certificate"),
        ({"permissible_error": "0.004 mm", "low": "25 mm", "high": "5 mm"}, "has no width"),
        ({"permissible_error": "0.004 mm", "deviation": "true"}, "from what"),
        ({"permissible_error": "0.004 mm", "direction": "2"}, "cannot run"),
        ({"permissible_error": "0.004 mm", "k": "9"}, "coverage factor"),
        ({"permissible_error": "0.004 mm", "unit": "N"}, "does not read in N"),
        ({"permissible_error": "0.004 mm", "kind": "micromter"}, "Did you mean micrometer"),
        ({"permissible_error": "0.004 mm", "resolutoin": "0.01 mm"}, "Did you mean resolution"),
        ({"permissible_error": "0.004 mm", "source": ""}, "source"),
        ({"permissible_error": "0.004 mm", "kind": "eye", "unit": ""}, "has no sizes"),
    ],
)  # fmt: skip
def test_a_card_that_cannot_be_is_refused(more: dict[str, str], words: str) -> None:
    with pytest.raises(Refused, match=words):
        card(**more)
