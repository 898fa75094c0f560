"""A repeat study against a published series (GUM 4.4.3): its standard deviation, what it counts as, and what it refuses."""

import pytest
from tests.workbench.memory import workbench
from tests.workbench.shop import HAND, JOB, read, shop

from gudgeon.problem import Refused
from gudgeon.shelf import GaugeCard
from gudgeon.workbench import shelving, study
from gudgeon.workbench.shelving import WrongCells

#: GUM (JCGM 100:2008) 4.4.3, table 1: twenty readings; printed: mean 100.14, s 1.489.
GUM = ("96.90", "98.18", "98.25", "98.61", "99.03", "99.49", "99.56", "99.74", "99.89", "100.07",
       "100.33", "100.42", "100.68", "100.95", "101.11", "101.20", "101.57", "101.84", "102.36", "102.72")  # fmt: skip
TEN = ("4.975", "4.976", "4.974", "4.975", "4.977", "4.975", "4.973", "4.976", "4.975", "4.974")


@pytest.mark.authority
def test_the_guides_series() -> None:
    found = study.studied(workbench(), "caliper", GUM)
    assert (found.n, found.nu, found.alone) == (20, 19, 0)
    assert round(found.mean, 3) == 100.145 and round(found.s, 3) == 1.489
    assert found.counts_as == pytest.approx(1.489 * (19 / 17) ** 0.5, rel=1e-3)  # JCGM 101:2008 6.4.9


def test_it_replaces_what_was_assumed_with_its_day_and_hand() -> None:
    bench = workbench()
    study.keep_study(bench, "mic-25", TEN, "mara")
    card = bench.shelf().gauge("mic-25")
    assert isinstance(card, GaugeCard) and str(card.repeatability) == "0.00115 mm"
    assert (card.repeat_nu, card.repeat_by, card.repeat_on) == (9, "mara", "2026-11-01")
    assert card.repeat_u == pytest.approx(0.00115 * (9 / 7) ** 0.5)
    assert GaugeCard.from_pinned(card.pinned()) == card
    assert study.card_says(card.pinned()) == "10 readings by mara, 2026-11-01"


def test_a_verdict_rests_on_it() -> None:
    bench = shop()
    loose = tuple(f"{5.45 + step / 1000:.3f}" for step in (-9, 8, -4, 6, -7, 9, 0, 3, -5, -1))
    study.keep_study(bench, "mic", loose, "mara")
    bench.record(JOB, [read("stem_diameter", "c1.in", "5.450", "mic", "top x")], HAND)
    found = bench.view(JOB).at("stem_diameter@c1.in")
    card = bench.shelf().gauge("mic")
    assert found is not None and card is not None and found.u == pytest.approx(card.u(5.45), rel=1e-6)
    assert card.repeat_u > 0.006


def test_a_repeatability_typed_by_hand_ends_the_study() -> None:
    bench = workbench()
    study.keep_study(bench, "mic-25", TEN, "mara")
    shelving.put_gauge(bench, {"name": "the good one"}, known="mic-25")
    assert bench.shelf().gauge("mic-25").repeat_nu == 9  # type: ignore[union-attr]
    shelving.put_gauge(bench, {"repeatability": "0.003"}, known="mic-25")
    card = bench.shelf().gauge("mic-25")
    assert card is not None and (card.repeat_nu, card.repeat_by, card.repeat_u) == (0, "", 0.003)


@pytest.mark.parametrize("n", [0, 1, 4])
def test_too_few_are_refused(n: int) -> None:
    with pytest.raises(Refused, match="too few"):
        study.studied(workbench(), "mic-25", TEN[:n])
    assert study.studied(workbench(), "mic-25", TEN[:5]).nu == 4


def test_one_that_stands_alone_is_said_and_asked() -> None:
    bench = workbench()
    wild = (*TEN[:6], "4.995", *TEN[7:])
    assert study.studied(bench, "mic-25", wild).alone == 7
    with pytest.raises(WrongCells) as refused:
        study.keep_study(bench, "mic-25", wild, "mara")
    assert set(refused.value.fields) == {"r7"} and bench.library.shelf() == ""
    study.keep_study(bench, "mic-25", wild, "mara", with_alone=True)
    assert bench.shelf().gauge("mic-25").repeatability.value > 0.006  # type: ignore[union-attr]


def test_one_step_of_the_gauge_is_no_slip() -> None:
    coarse = ("4.97",) * 9 + ("4.98",)
    assert study.studied(workbench(), "mic-25", coarse).alone == 0


def test_all_the_same_is_said() -> None:
    found = study.studied(workbench(), "mic-25", ("4.97",) * 10)
    assert found.s == 0.0 and "its own step" in found.words[0]


def test_pairs_of_leaves_are_taken_by_their_middle() -> None:
    found = study.studied(workbench(), "feelers", ("0.12/0.13", "0.13/0.14", "0.12/0.13", "0.12/0.13", "0.13/0.14"))
    assert found.mean == pytest.approx(0.129)


@pytest.mark.parametrize("text", ["wide", "4 N", "<0.03", "no gap", "1e9"])
def test_what_is_no_reading_is_said_at_its_field(text: str) -> None:
    with pytest.raises(WrongCells) as refused:
        study.studied(workbench(), "mic-25", (*TEN[:5], text))
    assert set(refused.value.fields) == {"r6"}


def test_nobody_and_nothing_are_refused() -> None:
    with pytest.raises(WrongCells, match="whose hand"):
        study.keep_study(workbench(), "mic-25", TEN, " ")
    with pytest.raises(Refused, match="no gauge"):
        study.studied(workbench(), "gone", TEN)
