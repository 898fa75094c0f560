"""The calculators of metrology as they are typed, against JCGM 106, Moody's plate, published circles and exact zones."""

from __future__ import annotations

import json
from math import cos, pi, sin
from pathlib import Path

import pytest

from gudgeon.cli.main import main

GANDER = "x_mm,y_mm\n1,7\n2,6\n5,8\n7,7\n9,5\n3,7\n"
GRID = "x_mm,y_mm,z_um\n0,0,0\n100,0,4\n200,0,6\n0,100,-5\n100,100,20\n200,100,-9\n0,200,-10\n100,200,-3\n200,200,8\n"
LINE = "x_mm,z_um\n0,0\n10,5\n20,2\n30,6\n40,0\n"


@pytest.fixture
def asked(capsys: pytest.CaptureFixture[str], tmp_path: Path):  # type: ignore[no-untyped-def]
    def ask(name: str, words: str, text: str = "", code: int = 0):  # type: ignore[no-untyped-def]
        (tmp_path / "points.csv").write_text(text, encoding="utf-8")
        typed = words.replace("points=FILE", f"points={tmp_path / 'points.csv'}").split()
        assert main(["calc", name, *typed, "--json"]) == code
        answer = json.loads(capsys.readouterr().out)
        return (
            {r["name"]: r["value"] for r in answer["results"]} if code == 0 else json.dumps(answer, ensure_ascii=False)
        )

    return ask


@pytest.mark.authority
def test_jcgm_106(asked) -> None:  # type: ignore[no-untyped-def]
    """Breakdown voltage, 7.4: −5.47 V, u 0.05, at most −5.40: probability 0.92."""
    found = asked("conformity", "value=-5.47 u=0.05 upper=-5.40")
    assert found["probability"] == pytest.approx(0.91924, abs=5e-6)
    assert found["verdict"] == "too close to call"
    assert asked("conformity", "value=-5.49 u=0.05 upper=-5.40")["verdict"] == "proven inside"


@pytest.mark.authority
@pytest.mark.parametrize(("capability", "factor"), [(1.0, 1.79621), (1.5, 1.644918), (2.0, 1.644854)])
def test_two_limits_need_more_than_1_645(asked, capability: float, factor: float) -> None:  # type: ignore[no-untyped-def]
    found = asked("conformity", f"value=0 u=1 lower={-2 * capability} upper={2 * capability} risk=0.05")
    assert found["guard_band"] == pytest.approx(factor, abs=5e-6)
    assert found["accepted_to"] == pytest.approx(2 * capability - factor, abs=5e-6)
    assert found["capability_of_measuring"] == pytest.approx(capability)


def test_conformity_in_other_units(asked) -> None:  # type: ignore[no-untyped-def]
    found = asked("conformity", "value=0.036mm u=3µm upper=0.05 risk=5%")
    assert found["verdict"] == "proven inside"
    assert found["accepted_to"] == pytest.approx(0.050 - 1.644854 * 0.003, abs=1e-8)
    load = asked("conformity", "value=153.6N u=1.5N lower=160N")
    assert load["verdict"] == "proven outside"
    assert load["largest_u_that_settles_it"] == pytest.approx(6.4 / 1.644854, rel=1e-6)


@pytest.mark.authority
def test_flatness(asked) -> None:  # type: ignore[no-untyped-def]
    found = asked("flatness", "points=FILE", GRID)
    assert found["flatness"] == pytest.approx(0.027, abs=1e-9)
    assert found["flatness_by_least_squares"] == pytest.approx(0.0323333, abs=1e-7)
    assert found["points_touching_above"] == "5"
    tilted = "\n".join(["x_mm,y_mm,z_um", *(f"{x},{y},{float(z) + 8 * float(x) - 3 * float(y) + 50}" for x, y, z in
                        (row.split(",") for row in GRID.split()[1:]))])  # fmt: skip
    assert asked("flatness", "points=FILE", tilted)["flatness"] == pytest.approx(0.027, rel=1e-4)


@pytest.mark.authority
def test_straightness(asked) -> None:  # type: ignore[no-untyped-def]
    found = asked("straightness", "points=FILE", LINE)
    assert found["straightness"] == pytest.approx(0.006, abs=1e-9)
    assert found["straightness_by_least_squares"] == pytest.approx(0.0061, abs=1e-8)


@pytest.mark.authority
def test_roundness_of_gander_golub_and_strebel(asked) -> None:  # type: ignore[no-untyped-def]
    found = asked("roundness", "points=FILE", GANDER)
    assert found["least_squares_x"] == pytest.approx(4.7398, abs=5e-5)
    assert found["least_squares_y"] == pytest.approx(2.9835, abs=5e-5)
    assert found["least_squares_radius"] == pytest.approx(4.7142, abs=5e-5)
    assert found["roundness_by_least_squares"] == pytest.approx(1.4130027, abs=5e-7)
    assert found["roundness"] == pytest.approx(1.3536151, abs=5e-7)


@pytest.mark.authority
@pytest.mark.parametrize("lobes", [2, 3])
def test_lobes(asked, lobes: int) -> None:  # type: ignore[no-untyped-def]
    angles = [2 * pi * n / 36 for n in range(36)]
    rows = [
        ((25 + 0.01 * cos(lobes * t)) * cos(t) + 0.003, (25 + 0.01 * cos(lobes * t)) * sin(t) - 0.002) for t in angles
    ]
    text = "x_mm,y_mm\n" + "\n".join(f"{x!r},{y!r}" for x, y in rows)
    found = asked("roundness", "points=FILE", text)
    assert found["roundness"] == pytest.approx(0.02, abs=1e-9)
    assert (found["minimum_zone_x"], found["minimum_zone_y"]) == (pytest.approx(0.003), pytest.approx(-0.002))


MSA = """0.29 -0.56 1.34 0.47 -0.80 0.02 0.59 -0.31 2.26 -1.36
0.41 -0.68 1.17 0.50 -0.92 -0.11 0.75 -0.20 1.99 -1.25
0.64 -0.58 1.27 0.64 -0.84 -0.21 0.66 -0.17 2.01 -1.31
0.08 -0.47 1.19 0.01 -0.56 -0.20 0.47 -0.63 1.80 -1.68
0.25 -1.22 0.94 1.03 -1.20 0.22 0.55 0.08 2.12 -1.62
0.07 -0.68 1.34 0.20 -1.28 0.06 0.83 -0.34 2.19 -1.50
0.04 -1.38 0.88 0.14 -1.46 -0.29 0.02 -0.46 1.77 -1.49
-0.11 -1.13 1.09 0.20 -1.07 -0.67 0.01 -0.56 1.45 -1.77
-0.15 -0.96 0.67 0.11 -1.45 -0.49 0.21 -0.49 1.87 -2.16"""


@pytest.mark.authority
def test_repeatability_of_the_manual(asked) -> None:  # type: ignore[no-untyped-def]
    """AIAG MSA, 4th ed.: 26.68 % and 5 classes by ranges, 0.302373 and 4 classes by variances."""
    rows = [
        f"{part},{'ABC'[nth // 3]},{nth % 3 + 1},{value}"
        for nth, line in enumerate(MSA.splitlines())
        for part, value in enumerate(line.split(), 1)
    ]
    found = asked("repeatability", "points=FILE", "part,appraiser,trial,value\n" + "\n".join(rows))
    assert found["repeatability_and_reproducibility_percent"] == pytest.approx(26.68, abs=0.005)
    assert found["classes_told_apart"] == 5
    assert found["repeatability"] == pytest.approx(0.20188, abs=5e-5)
    assert found["variances_repeatability_and_reproducibility"] == pytest.approx(0.302373, abs=5e-6)
    assert found["variances_classes_told_apart"] == 4
    assert found["ranges_out_of_control"] == "part 4 B"


GUM_H3 = """21.521,-0.171 22.012,-0.169 22.512,-0.166 23.003,-0.159 23.507,-0.164 23.999,-0.165 24.513,-0.156 25.002,-0.157
25.503,-0.159 26.010,-0.161 26.511,-0.160"""


@pytest.mark.authority
def test_trend_of_gum_h3(asked) -> None:  # type: ignore[no-untyped-def]
    """Correction of a thermometer at 30 °C: −0.1494 °C, u 0.0041, slope 0.00218, u 0.00067, s 0.0035."""
    found = asked("trend", "points=FILE at=30 level=0.95", "x,y\n" + GUM_H3.replace(" ", "\n"))
    assert found["value_at"] == pytest.approx(-0.1494, abs=5e-5)
    assert found["u_at"] == pytest.approx(0.0041, abs=5e-5)
    assert (found["slope"], found["u_of_slope"]) == (pytest.approx(0.00218, abs=5e-6), pytest.approx(0.00067, abs=5e-6))
    assert found["residual_standard_deviation"] == pytest.approx(0.0035, abs=5e-5)
    assert (found["curve_from"], found["curve_to"]) == (
        pytest.approx(-0.158739, abs=1e-6),
        pytest.approx(-0.140015, abs=1e-6),
    )
    assert found["next_reading_from"] == pytest.approx(-0.161634, abs=1e-6)


def test_trend_by_a_power_law(asked) -> None:  # type: ignore[no-untyped-def]
    found = asked("trend", "points=FILE at=800 law=power limit=0.04", "x,y\n100,0.0100001\n200,0.0141421\n400,0.02")
    assert found["exponent"] == pytest.approx(0.5, abs=1e-4)
    assert found["value_at"] == pytest.approx(0.028284, abs=1e-5)
    assert found["limit_reached_at"] == pytest.approx(1600, abs=1)


@pytest.mark.parametrize(
    ("name", "words", "text", "said"),
    [
        ("conformity", "value=1mm u=0.1mm", "", "Neither lower nor upper"),
        ("conformity", "value=1mm u=0.1kg upper=2mm", "", "length"),
        ("conformity", "value=1mm u=-0.1mm upper=2mm", "", "u"),
        ("conformity", "value=1mm u=0.1 lower=3 upper=2mm", "", "lower"),
        ("conformity", "value=abc u=0.1 upper=2", "", "abc"),
        ("conformity", "value=5furlong u=0.1 upper=2", "", "furlong"),
        ("conformity", "value=1 u=0.1 upper=2 risk=2", "", "risk"),
        ("conformity", "value=nan u=0.1 upper=2", "", "nan"),
        ("flatness", "points=FILE", "x_mm,y_mm,z_um\n0,0,0\n1,1,1\n", "points"),
        ("flatness", "points=FILE", "x_mm,y_mm,z_um\n" + "\n".join(f"{n},{n},{n}" for n in range(6)), "line"),
        ("flatness", "points=FILE", LINE, "x_mm,y_mm,z_mm"),
        ("flatness", "points=/nowhere.csv", "", "cannot be read"),
        ("straightness", "points=FILE", "x_mm,z_um\n0,0\n1,1\n", "points"),
        ("repeatability", "points=FILE", "part,appraiser,trial,value\n1,A,1,0.2\n", "too few"),
        ("repeatability", "points=FILE", "part,who,trial,value\n1,A,1,0.2\n", "part,appraiser,trial,value"),
        ("repeatability", "points=FILE", "part,appraiser,trial,value\n1,A,1,x\n", "“x” is not a number"),
        ("trend", "points=FILE", "x,y\n1,2\n2,3\n", "three or more"),
        ("trend", "points=FILE", "x,y\n1,2\n1,3\n1,4\n", "different places"),
        ("trend", "points=FILE law=power", "x,y\n-1,2\n1,3\n2,4\n", "above 0"),
        ("trend", "points=FILE at=3 level=2", "x,y\n1,2\n2,3.5\n3,4\n", "level"),
        ("roundness", "points=FILE", "x_mm,y_mm\n0,0\n1,1\n2,2\n3,3\n", "line"),
        ("roundness", "points=FILE", "x_mm,y_mm\n0,0\n1,nan\n2,2\n3,3\n", "nan"),
    ],
)
def test_refused(asked, name: str, words: str, text: str, said: str) -> None:  # type: ignore[no-untyped-def]
    assert said in asked(name, words, text, code=1)
