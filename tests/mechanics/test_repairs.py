"""Repair data with published functions: valve seats of 41 engines (Nelson and Doganaksoy 1989; Nelson 1995) and the main
engine of a submarine (Meeker and Escobar, *Statistical Methods for Reliability Data*).

The lists are from memory; that the published values come out of them is the check on both.
"""

from __future__ import annotations

import pytest

from gudgeon.mechanics import wear
from gudgeon.problem import Refused

SEATS = """251:761; 252:759; 327:98|667; 328:326,653,653|667; 329:665; 330:84|667; 331:87|663; 389:646|653; 390:92|653;
391:651; 392:258,328,377,621|650; 393:61,539|648; 394:254,276,298,640|644; 395:76,538|642; 396:635|641;
397:349,404,561|649; 398:631; 399:596; 400:120,479|614; 401:323,449|582; 402:139,139|589; 403:593; 404:573|589;
405:165,408,604|606; 406:249|594; 407:344,497|613; 408:265,586|595; 409:166,206,348|389; 410:601; 411:410,581|601;
412:611; 413:608; 414:587; 415:367|603; 416:202,563,570|585; 417:587; 418:578; 419:578; 420:586; 421:585; 422:582"""
SUBMARINE = """1.382 2.990 4.124 6.827 7.472 7.567 8.845 9.450 9.794 10.848 11.993 12.300 15.413 16.497 17.352 17.632
18.122 19.067 19.172 19.299 19.360 19.686 19.940 19.944 20.121 20.132 20.431 20.525 21.057 21.061 21.309 21.310 21.378
21.391 21.456 21.461 21.603 21.658 21.688 21.750 21.815 21.820 21.822 21.888 21.930 21.943 21.946 22.181 22.311 22.634
22.635 22.669 22.691 22.846 22.947 23.149 23.305 23.491 23.526 23.774 23.791 23.822 24.006 24.286 25.000 25.010 25.048
25.268 25.400 25.500 25.518"""


def seats() -> dict[str, tuple[list[float], float]]:
    engines = {}
    for entry in SEATS.replace("\n", " ").split(";"):
        name, _, rest = entry.strip().partition(":")
        ages, _, end = rest.rpartition("|")
        engines[name] = ([float(age) for age in ages.split(",") if age], float(end))
    return engines


@pytest.mark.authority
def test_valve_seats() -> None:
    engines = seats()
    assert (len(engines), sum(len(ages) for ages, _ in engines.values())) == (41, 48)
    steps = wear.mean_cumulative(engines)
    printed = {61: 0.024390, 100: 0.146341, 200: 0.268293, 323: 0.487805, 326: 0.512195, 400: 0.658537, 500: 0.808537,
               600: 1.014264, 646: 1.320465, 653: 1.542688}  # fmt: skip
    for day, value in printed.items():
        assert max(mean for age, mean in steps if age <= day) == pytest.approx(value, abs=5e-7)


@pytest.mark.authority
def test_submarine() -> None:
    ages = [float(age) for age in SUBMARINE.split()]
    assert len(ages) == 71
    fit = wear.power_law(ages, end=25.518)
    assert fit.shape == pytest.approx(2.76, abs=0.005)
    assert fit.scale == pytest.approx(5.45, abs=0.005)
    assert (fit.shape, fit.scale) == (pytest.approx(2.76034, abs=5e-6), pytest.approx(5.44733, abs=5e-6))


def test_how_watching_ended_changes_the_answer() -> None:
    ages = [103.0, 315.0, 801.0, 1183.0, 1345.0]
    by_time, by_failure = wear.power_law(ages, end=1600), wear.power_law(ages)
    assert by_failure.shape > by_time.shape
    assert by_failure.scale * 5 ** (1 / by_failure.shape) == pytest.approx(1345)


@pytest.mark.parametrize(
    ("ages", "end"),
    [([5.0], None), ([], 10), ([5.0, 5.0], None), ([1.0, 9.0], 8), ([0.0, 2.0], 3), ([1.0, float("nan")], 3)],
)
def test_too_little_to_fit(ages: list[float], end: float | None) -> None:
    with pytest.raises(Refused):
        wear.power_law(ages, end)


def test_a_repair_after_the_end() -> None:
    with pytest.raises(Refused, match="a age"):
        wear.mean_cumulative({"a": ([12.0], 10.0)})
