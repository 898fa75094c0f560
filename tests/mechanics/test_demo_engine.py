"""The invented engine of the demo, worked out apart from this code: what its book says must follow from its parts."""

from __future__ import annotations

import pytest

from gudgeon.mechanics import air, bolts, cranking, leak, volumes, wrench
from gudgeon.mechanics.threads import grade, thread

CLEARANCE = volumes.clearance_volume_cm3(
    bore_mm=88.0, chamber_cm3=36.0, gasket_bore_mm=89.0, gasket_thickness_mm=0.60, deck_mm=0.40, dome_cm3=6.0
)


def test_volumes_and_ratios() -> None:
    swept = volumes.displacement_cm3(88.0, 61.0)
    assert swept == pytest.approx(371.01, abs=0.005)
    assert volumes.disc_volume_cm3(89, 0.6) == pytest.approx(3.733, abs=5e-4)
    assert volumes.disc_volume_cm3(88, 0.4) == pytest.approx(2.433, abs=5e-4)
    assert pytest.approx(36.166, abs=1e-3) == CLEARANCE
    assert volumes.compression_ratio(swept, CLEARANCE) == pytest.approx(11.26, abs=0.005)
    effective = volumes.effective_ratio(
        bore_mm=88, stroke_mm=61, rod_mm=108, clearance_cm3=CLEARANCE, intake_closes_deg=60
    )
    assert effective == pytest.approx(9.25, abs=0.005)
    assert volumes.squish_mm(0.40, 0.60) == pytest.approx(1.0)


@pytest.mark.parametrize(("book", "here"), [(1300, 1136), (1500, 1311), (1200, 1049)])
def test_compression_at_the_station(book: float, here: float) -> None:
    ambient = air.ambient_kpa(1120)
    assert ambient == pytest.approx(88.58, abs=0.005)
    assert air.gauge_at_ambient_kpa(book, ambient) == pytest.approx(here, abs=0.6)


def test_the_reading_passes_only_when_corrected_for_height() -> None:
    ambient = air.ambient_kpa(1120)
    assert 1090 < 1200
    assert air.gauge_at_sea_level_kpa(1090, ambient) > 1200


@pytest.mark.parametrize(
    ("name", "strength", "torque", "friction", "kn", "percent"),
    [("M10x1.25", "10.9", 62, 0.123, 37.7, 65), ("M6", "8.8", 10, 0.146, 8.5, 66), ("M7", "10.9", 18, 0.150, 13.2, 49)],
)
def test_preloads(name: str, strength: str, torque: float, friction: float, kn: float, percent: float) -> None:
    force = bolts.preload_kn(torque, thread(name), friction, friction)
    assert force == pytest.approx(kn, rel=0.01)
    assert 100 * bolts.yield_fraction(force, thread(name), grade(strength)) == pytest.approx(percent, abs=1)


def test_wrenches() -> None:
    assert not wrench.fits(62, 10, 60)
    assert wrench.fits(62, 20, 100)
    assert wrench.fits(4, 2, 20) and wrench.fits(18, 10, 60)


def test_a_worse_leak_means_less_compression() -> None:
    """Leak-down cold, warm and after the work: the order of the readings, and about what the gauge showed."""
    ambient, peaks = air.ambient_kpa(1120), []
    for percent in (6, 24, 52):
        hole = leak.leak_diameter_mm(
            supply_kpa=690, cylinder_kpa=690 * (1 - percent / 100), orifice_mm=1.016, ambient_kpa=ambient
        )
        peak = cranking.leaking_compression(
            bore_mm=88, stroke_mm=61, rod_mm=108, ratio=11.26, speed_rpm=400, leak_mm=hole, ambient_kpa=ambient,
            exponent=1.2, intake_closes_deg=60,
        )  # fmt: skip
        peaks.append(peak.pressure_kpa - ambient)
    assert peaks[0] > peaks[1] > peaks[2] > 0.5 * peaks[0]
    assert peaks[0] == pytest.approx(1165, rel=0.1)
