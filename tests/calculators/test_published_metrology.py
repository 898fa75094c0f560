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
        ("roundness", "points=FILE", "x_mm,y_mm\n0,0\n1,1\n2,2\n3,3\n", "line"),
        ("roundness", "points=FILE", "x_mm,y_mm\n0,0\n1,nan\n2,2\n3,3\n", "nan"),
    ],
)
def test_refused(asked, name: str, words: str, text: str, said: str) -> None:  # type: ignore[no-untyped-def]
    assert said in asked(name, words, text, code=1)
