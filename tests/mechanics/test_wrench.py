"""Wrench settings: a maker's worked adapters (grade A), ISO 6789 on what a wrench may be used for (read in a summary)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import wrench
from gudgeon.problem import Refused


@pytest.mark.authority
def test_published_adapters() -> None:
    """80 N·m, 40 cm and 5 cm: 71.1 in line, 80 square to it; 20 lbf·ft, 12 in and 3 in: 16."""
    assert wrench.setting_nm(80, 400, 50) == pytest.approx(71.111, abs=5e-4)
    assert wrench.setting_nm(80, 400, 50, 90) == pytest.approx(80, abs=1e-9)
    assert wrench.setting_nm(20 * 1.3558179483314, 304.8, 76.2) / 1.3558179483314 == pytest.approx(16)


def test_full_in_line_and_none_across_not_the_other_way_round() -> None:
    assert wrench.setting_nm(50, 300, 60, 0) < wrench.setting_nm(50, 300, 60, 45) < wrench.setting_nm(50, 300, 60, 90)
    assert wrench.setting_nm(50, 300, 60, 180) > 50
    assert wrench.setting_nm(50, 300, 60, 45) == wrench.setting_nm(50, 300, 60, -45)


@given(st.floats(1, 300), st.floats(100, 800), st.floats(0, 90), st.floats(-180, 180))
def test_setting_and_torque_are_inverse(torque: float, length: float, extension: float, angle: float) -> None:
    setting = wrench.setting_nm(torque, length, extension, angle)
    assert wrench.at_bolt_nm(setting, length, extension, angle) == pytest.approx(torque)


@pytest.mark.authority
def test_iso_6789() -> None:
    assert (wrench.permissible_error(10), wrench.permissible_error(10.1)) == (0.06, 0.04)
    assert wrench.least_setting_nm(20, 200) == 40
    assert wrench.least_setting_nm(20, 60) == 20
    assert not wrench.fits(11.9, 5, 60)
    assert wrench.fits(12, 5, 60) and wrench.fits(60, 5, 60)
    assert not wrench.fits(60.1, 5, 60)


def test_an_adapter_folded_past_the_grip() -> None:
    with pytest.raises(Refused, match="other way"):
        wrench.setting_nm(50, 100, 120, 180)
