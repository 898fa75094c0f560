"""Pins: the one that goes and the one that does not are an interval, as with leaves."""

import pytest
from tests.workbench.shop import HAND, JOB, gauge, read, refused, shop

from gudgeon.job.entries import GoNoGo
from gudgeon.workbench.bench import Workbench

VALVE, TOP = "c1.in", "top x"
PINS = gauge("pins", "pin", error="0.001 mm", low="4 mm", high="7 mm", resolution="0.01 mm")


def room() -> Workbench:
    bench = shop()
    bench.put_shelf(bench.library.shelf() + PINS)
    return bench


def test_a_pair_is_the_middle_with_half_a_step_of_doubt() -> None:
    bench = room()
    bench.record(JOB, [read("guide_bore", VALVE, "5.49/5.50", "pins", TOP)], HAND)
    entry = bench.view(JOB).entries[-1]
    assert entry.counts == "fresh"
    found = bench.view(JOB).at(f"guide_bore@{VALVE}")
    assert found is not None and found.value == pytest.approx(5.495)
    # rectangular over 0.01: 0.01/√12 (GUM F.2.2.1), the pins' own error 0.001/√3, repeats 0.001
    assert found.u == pytest.approx((0.01**2 / 12 + 0.001**2 / 3 + 0.001**2) ** 0.5, rel=1e-6)


def test_the_bench_asks_for_the_pair() -> None:
    bench = room()
    assert bench.measure(JOB, "guide_bore", VALVE, TOP, "pins").pair
    assert not bench.measure(JOB, "guide_bore", VALVE, TOP, "hole").pair


def test_one_pin_alone_bounds() -> None:
    bench = room()
    stopped = GoNoGo(measurand="guide_bore", where=VALVE, point=TOP, gauge="pins", size="5.50", unit="mm", enters=False)
    bench.record(JOB, [stopped], HAND)
    assert "under 5.5" in bench.view(JOB).at(f"guide_bore@{VALVE}").said  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("text", "with_"), [("no gap", "pins"), ("5.49/5.50", "hole"), ("8.00/8.01", "pins"), ("wide", "pins")]
)
def test_what_pins_cannot_say_is_refused(text: str, with_: str) -> None:
    refused(room(), read("guide_bore", VALVE, text, with_, TOP))
