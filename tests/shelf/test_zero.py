"""A zero is held against the card: what the budget allows anyway holds, more has drifted (common practice, no source)."""

import pytest

from gudgeon.problem import Refused
from gudgeon.shelf import GAUGE_KINDS, USUAL_GAUGES, GaugeCard
from gudgeon.shelf.zero import WITH_ZERO, drift_limit, drift_of, drifted, zero_words

BASE = {"id": "g", "name": "g", "unit": "mm", "source": "sheet"}
MIC = GaugeCard.from_pinned(
    {**BASE, "kind": "micrometer", "low": "25 mm", "high": "50 mm", "permissible_error": "0.003 mm"}
)
DIAL = GaugeCard.from_pinned(
    {**BASE, "kind": "bore gauge", "unit": "µm", "master": "66.000 mm", "deviation": "true", "certificate_u": "0.004 mm",
     "set_with": "MIC-75"}
)  # fmt: skip
LEAK = GaugeCard.from_pinned({**BASE, "kind": "leak tester", "unit": "%", "per_cent": "2 %", "resolution": "1 %"})


def test_kinds_with_a_zero_are_kinds() -> None:
    assert set(GAUGE_KINDS) >= WITH_ZERO
    assert "pin" not in WITH_ZERO and "feeler" not in WITH_ZERO


@pytest.mark.parametrize(
    ("card", "text", "mm"),
    [(DIAL, "0", 0.0), (DIAL, "+3", 0.003), (DIAL, "-3", -0.003), (DIAL, "66.004 mm", 0.004),
     (MIC, "25.002", 0.002), (MIC, "24.996", -0.004), (MIC, "+0.002", 0.002), (MIC, "0", 0.0)],
)  # fmt: skip
def test_what_it_shows_is_a_deviation_or_the_whole_size(card: GaugeCard, text: str, mm: float) -> None:
    assert drift_of(card, text, card.unit) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    ("card", "text", "moved"),
    [(DIAL, "+4", False), (DIAL, "-4", False), (DIAL, "+5", True), (MIC, "25.003", False), (MIC, "24.996", True),
     (LEAK, "1", False), (LEAK, "2", True)],
)  # fmt: skip
def test_the_limit_is_what_the_budget_allows(card: GaugeCard, text: str, moved: bool) -> None:
    assert drifted(card, text, card.unit) is moved


def test_every_usual_gauge_with_a_zero_has_a_limit() -> None:
    assert all(drift_limit(g) > 0 for g in USUAL_GAUGES if g.kind in WITH_ZERO)


def test_it_says_what_it_is_held_on() -> None:
    assert zero_words(DIAL) == "66.000 mm, set in MIC-75"
    assert zero_words(MIC) == "its setting standard 25 mm"
    assert zero_words(USUAL_GAUGES[2]) == "its zero"


@pytest.mark.parametrize("text", ["", "wide", "3 N", "1e9", "/"])
def test_what_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(Refused):
        drift_of(DIAL, text, "µm")
    with pytest.raises(Refused, match="no zero"):
        drift_of(USUAL_GAUGES[0], "0", "mm")
