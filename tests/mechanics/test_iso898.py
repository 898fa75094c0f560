"""ISO 898-1: stress areas, proof and tensile loads (grade A). Printed loads use areas to three figures: 0.7 % apart."""

from __future__ import annotations

import pytest

from gudgeon.mechanics import bolts
from gudgeon.mechanics.threads import GRADES, HEADS_MM, PITCHES_MM, grade, thread
from gudgeon.problem import Refused

LOADS = {
    "M5": (14.183, (8230, 11800, 13800), (11350, 14800, 17300)),
    "M6": (20.123, (11600, 16700, 19500), (16100, 20900, 24500)),
    "M8": (36.609, (21200, 30400, 35500), (29200, 38100, 44600)),
    "M10": (57.990, (33700, 48100, 56300), (46400, 60300, 70800)),
    "M12": (84.267, (48900, 70000, 81800), (67400, 87700, 103000)),
}


@pytest.mark.authority
@pytest.mark.parametrize("name", LOADS)
def test_loads(name: str) -> None:
    area, proofs, tensiles = LOADS[name]
    size = thread(name)
    assert size.stress_area_mm2 == pytest.approx(area, abs=6e-4)
    for strength, proof, tensile in zip(("8.8", "10.9", "12.9"), proofs, tensiles, strict=True):
        assert bolts.proof_load_kn(size, grade(strength)) * 1000 == pytest.approx(proof, rel=0.007)
        assert grade(strength).tensile_mpa * size.stress_area_mm2 == pytest.approx(tensile, rel=0.007)


@pytest.mark.authority
@pytest.mark.parametrize(
    ("name", "area"), [("M8x1", 39.17), ("M10x1.25", 61.20), ("M10×1.0", 64.49), ("m12*1,25", 92.07)]
)
def test_fine_threads(name: str, area: float) -> None:
    assert thread(name).stress_area_mm2 == pytest.approx(area, abs=0.006)


PRINTED_AREAS = {
    "M3": 5.03, "M4": 8.78, "M7": 28.9, "M14": 115, "M16": 157, "M10x1": 64.5, "M12x1.5": 88.1, "M14x1.5": 125,
    "M16x1.5": 167,
}  # fmt: skip
M10_LOADS = {
    "4.6": (13000, 23200), "4.8": (18000, 24400), "5.6": (16200, 29000), "5.8": (22000, 30200), "6.8": (25500, 34800),
    "9.8": (37700, 52200),
}  # fmt: skip


@pytest.mark.parametrize(("name", "area"), PRINTED_AREAS.items())
def test_areas_as_printed(name: str, area: float) -> None:
    """ISO 898-1, tables 4 and 6, from memory: three figures."""
    assert float(f"{thread(name).stress_area_mm2:.3g}") == area


@pytest.mark.parametrize(("strength", "loads"), M10_LOADS.items())
def test_other_classes_of_m10(strength: str, loads: tuple[float, float]) -> None:
    """ISO 898-1, tables 5 and 7, from memory: three figures, with an area of 58.0 mm²."""
    one = grade(strength)
    assert (float(f"{58.0 * one.proof_mpa:.3g}"), float(f"{58.0 * one.tensile_mpa:.3g}")) == loads


def test_classes_follow_their_numbers() -> None:
    """First number × 100 is the nominal strength, second the share that is yield (least values lie within 6.3 %)."""
    for one in GRADES:
        first, second = (int(n) for n in one.name.split("."))
        assert one.tensile_mpa == pytest.approx(100 * first, rel=0.05)
        assert one.yield_mpa == pytest.approx(one.tensile_mpa * second / 10, rel=0.063)
        assert one.proof_mpa < one.yield_mpa < one.tensile_mpa


def test_every_size_has_a_head() -> None:
    assert set(PITCHES_MM) == set(HEADS_MM)
    for size, (bearing, hole) in HEADS_MM.items():
        assert float(size) < hole < bearing < 2 * float(size)


def test_fractions() -> None:
    size, strength = thread("M6"), grade("8.8")
    assert bolts.yield_fraction(8.5, size, strength) == pytest.approx(0.66, abs=0.001)
    assert bolts.proof_fraction(bolts.proof_load_kn(size, strength), size, strength) == 1


@pytest.mark.parametrize(
    ("name", "word"),
    [("M9", "M3 to M16"), ("M10x2", "M10x1.25"), ("", "M8"), ("3/4-16", "M8"), ("M8x", "M8"), ("9" * 99, "M8")],
)
def test_threads_that_are_none(name: str, word: str) -> None:
    with pytest.raises(Refused, match=word):
        thread(name)


@pytest.mark.parametrize("name", ["8", "", "88", "A2-70"])
def test_grades_that_are_none(name: str) -> None:
    with pytest.raises(Refused, match=r"12\.9"):
        grade(name)
