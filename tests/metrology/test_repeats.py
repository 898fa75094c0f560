"""Type A with few repeats: NIST StRD one-way analyses of variance (files shipped with scipy), NumAcc (from memory), EA-4/02 S4."""

import math
import re
from importlib import resources

import numpy as np
import pytest

from gudgeon.metrology.budget import certificate, pooled, resolution, spread, type_a
from gudgeon.metrology.instruments import Instrument
from gudgeon.metrology.known import Known, mean_of
from gudgeon.problem import Refused

SIRSTV = (
    (196.3052, 196.1240, 196.1890, 196.2569, 196.3403),
    (196.3042, 196.3825, 196.1669, 196.3257, 196.0422),
    (196.1303, 196.2005, 196.2889, 196.0343, 196.1811),
    (196.2795, 196.1748, 196.1494, 196.1485, 195.9885),
    (196.2119, 196.1051, 196.1850, 196.0052, 196.2090),
)


@pytest.mark.authority
def test_pooled_is_the_certified_residual_of_sirstv():
    found = pooled(SIRSTV)
    assert found.nu == 20
    assert found.s == pytest.approx(1.04076068334656e-01, rel=1e-13)


@pytest.mark.authority
@pytest.mark.parametrize(("name", "certified"), [("AtmWtAg", 1.51048314446410e-05), ("SmLs01", 0.1), ("SmLs04", 0.1)])
def test_pooled_against_strd_files(name, certified):
    file = resources.files("scipy") / "stats" / "tests" / "data" / "nist_anova" / f"{name}.dat"
    if not file.is_file():
        pytest.skip("this scipy was packed without its test data")
    rows = re.findall(r"^\s*(\d+)\s+([\d.]+)\s*$", file.read_text().split("Data:")[-1], flags=re.M)
    groups: dict[str, list[float]] = {}
    for group, value in rows:
        groups.setdefault(group, []).append(float(value))
    assert pooled(tuple(groups.values())).s == pytest.approx(certified, rel=1e-8)


@pytest.mark.authority
@pytest.mark.parametrize("base", [1_000_000.0, 10_000_000.0])
def test_numacc_keeps_its_digits(base):
    assert spread((10000001.0, 10000003.0, 10000002.0)).s == 1.0
    series = [base + 0.2] + [base + 0.1, base + 0.3] * 500
    assert spread(series).s == pytest.approx(0.1, rel=1e-8)
    assert abs(spread(series).s - 0.1) <= abs(np.std(series, ddof=1) - 0.1) * 1.0001 + 1e-16
    shortcut = math.sqrt(abs(sum(x * x for x in series) - sum(series) ** 2 / len(series)) / 1000)
    assert abs(shortcut - 0.1) > 1e-6  # the trap


@pytest.mark.authority
def test_ea_4_02_s4_gauge_block():
    """EA-4/02 S4, from memory: contributions in nm, published u 36.4 nm and U 73 nm."""
    parts = (15.0, 17.3, 5.37, 18.5, 16.6, 11.8, 3.87)
    block = Known(value=49_999_926.0, parts=tuple((f"part {n}", u) for n, u in enumerate(parts)))
    assert block.u == pytest.approx(36.4027, abs=5e-5)
    assert round(2 * block.u) == 73


@pytest.mark.parametrize(("n", "factor"), [(2, 8.9846), (3, 2.4841), (5, 1.2417), (10, 0.7154)])
def test_few_repeats_widen_the_interval(n, factor):
    readings = [0.0, 2.0, *[1.0] * (n - 2)]
    mean = type_a(readings, "repeats")
    assert mean.expanded() / spread(readings).s == pytest.approx(factor, abs=5e-5)


def test_one_reading_with_an_earlier_study():
    study = pooled(SIRSTV)
    one = type_a((196.2,), "silicon", of=study)
    assert (one.u, one.effective_nu) == (study.s, 20)


MICROMETER = Instrument(label="mic 25-50", source="DIN 863, secondary tabulation", permissible_error=0.004, step=0.001)


def test_instrument_parts():
    assert MICROMETER.u_bias == pytest.approx(0.002309, abs=5e-7)
    assert MICROMETER.u_reading == pytest.approx(0.0002887, abs=5e-8)
    reads = tuple(MICROMETER.reading(30.0, str(n)) for n in range(4))
    assert mean_of(reads).u == pytest.approx(math.hypot(MICROMETER.u_bias, MICROMETER.u_reading / 2))
    assert reads[0].plus(reads[1], -1.0).u == pytest.approx(math.sqrt(2) * MICROMETER.u_reading)


def test_two_gauges_set_on_one_master_share_it():
    ring = {"master": "ring 88", "master_u": 0.001, "source": "certificate", "expanded": 0.002, "step": 0.001}
    a, b = (Instrument(label=name, **ring).reading(88.0, "x") for name in ("bore gauge 1", "bore gauge 2"))
    apart = math.hypot(certificate(0.002), certificate(0.002), resolution(0.001), resolution(0.001))
    assert a.plus(b, -1.0).u == pytest.approx(apart)
    assert a.u == pytest.approx(Instrument(label="bore gauge 1", **ring).u)


def test_repeatability_from_a_study_carries_its_freedom():
    gauge = Instrument(label="g", source="study", expanded=0.0, repeatability=0.003, repeatability_nu=4)
    assert gauge.reading(1.0, "a").effective_nu == pytest.approx(4.0)
    mixed = Instrument(label="g", source="study", expanded=0.002, step=0.004, repeatability=0.003, repeatability_nu=4)
    assert mixed.reading(1.0, "a").effective_nu == pytest.approx(4 * (mixed.u / 0.003) ** 4)


@pytest.mark.parametrize(
    "bad",
    [
        {},
        {"permissible_error": 0.004, "expanded": 0.002},
        {"permissible_error": -0.004},
        {"expanded": 0.002, "k": 0.0},
        {"permissible_error": 0.004, "step": math.nan},
        {"permissible_error": 0.004, "repeatability_nu": 0.0},
    ],
)
def test_an_instrument_must_make_sense(bad):
    with pytest.raises(Refused):
        Instrument(label="g", source="s", **bad)


@pytest.mark.parametrize("bad", [(), (1.0,), (1.0, math.nan), (1.0, "x")])
def test_bad_readings(bad):
    with pytest.raises(Refused):
        spread(bad)
    with pytest.raises(Refused):
        pooled((bad,))
    with pytest.raises(Refused):
        pooled(())
