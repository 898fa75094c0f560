"""What holds for all calculators: other units give the same figures, and nonsense is refused in words, never a crash."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gudgeon.calculators.asking import pairs, work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE, WORDS, Answer, Calculator, Key
from gudgeon.cli.main import main
from gudgeon.problem import Refused
from gudgeon.units import read, units_of

NONSENSE = ("", "abc", "nan", "inf", "-inf", "1e999", "0", "-1", "0 mm", "-5 mm", "1e6 mm", "90", "90°", "180°", "-400 °C",
            "5 N", "5 kg", "1 GPa", "0 bar", "-3 bar", "mm", "1/0", "1,234,5", "٣", "9" * 70, "1.5", "0.5", "1000000")  # fmt: skip


def example(kind: Calculator) -> dict[str, str]:
    """The typed pairs of a calculator's own example."""
    files = {key.name for key in kind.keys if key.dimension == FILE}
    return {key: kind.example_file if key in files else text for key, text in pairs(kind.example.split())}


def figures(answer: Answer) -> list[float]:
    return [float(r.value) for r in answer.results if not isinstance(r.value, str)]


def in_other_units(key: Key, text: str) -> list[str]:
    """The same value in every other unit of its dimension, with all its digits."""
    if key.dimension in (FILE, WORDS):
        return []
    typed = read(text, key.dimension, unit=key.bare_unit)
    others = [unit for unit in units_of(key.dimension) if unit not in ("", typed.unit)]
    written = [(f"{typed.in_unit(unit):.30f}".rstrip("0").rstrip("."), unit) for unit in others]
    return [f"{digits} {unit}" for digits, unit in written if len(digits) < 40]


UNITS = [
    (name, key.name) for name in CALCULATORS for key in calculator(name).keys if key.name in example(calculator(name))
]


@pytest.mark.parametrize(("name", "key"), UNITS)
def test_the_same_in_every_other_unit(name: str, key: str) -> None:
    kind = calculator(name)
    typed = example(kind)
    expected = figures(work_out(kind, typed.items()))
    described = next(k for k in kind.keys if k.name == key)
    for other in in_other_units(described, typed[key]):
        found = figures(work_out(kind, {**typed, key: other}.items()))
        assert found == pytest.approx(expected, rel=1e-9, abs=1e-9), other


@pytest.mark.parametrize("name", CALCULATORS)
def test_nonsense_in_any_key_is_refused_or_answered_with_finite_figures(name: str) -> None:
    kind = calculator(name)
    for key in kind.keys:
        for text in NONSENSE:
            sane(kind, {**example(kind), key.name: text})


def sane(kind: Calculator, typed: dict[str, str]) -> None:
    """A refusal that says where, what and what to do, or an answer of finite figures; any other exception fails."""
    try:
        answer = work_out(kind, typed.items())
    except Refused as refused:
        assert refused.problems
        assert all(p.where and str(p.what) and str(p.remedy) for p in refused.problems)
        assert not any("{" in str(p.what) + str(p.remedy) for p in refused.problems), refused
    else:
        assert all(math.isfinite(value) for value in figures(answer))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data(), name=st.sampled_from(sorted(CALCULATORS)))
def test_any_numbers_together(data: st.DataObject, name: str) -> None:
    kind = calculator(name)
    number = st.one_of(st.floats(-1e3, 1e3), st.floats(0, 5), st.integers(-5, 400)).map(lambda x: f"{x:.6f}")
    typed = example(kind)
    for key in kind.keys:
        if key.dimension not in (FILE, WORDS) and key.bare_unit is not None and key.name in typed:
            typed[key.name] = data.draw(number)
    sane(kind, typed)


@pytest.mark.parametrize(
    "text", ["", "\n", "x\n", "a,b\n1,2\n", "x_mm,y_mm,z_um\n1,2\n", "\x00", "x_mm,y_mm,z_um\nnan,1,2\n"]
)
@pytest.mark.parametrize("name", [n for n in CALCULATORS if any(k.dimension == FILE for k in calculator(n).keys)])
def test_a_wrong_file_is_refused(name: str, text: str) -> None:
    kind = calculator(name)
    key = next(key.name for key in kind.keys if key.dimension == FILE)
    with pytest.raises(Refused):
        work_out(kind, {**example(kind), key: text}.items())


def test_files_are_capped_and_missing_ones_named(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:  # type: ignore[no-untyped-def]
    many = tmp_path / "many.csv"
    many.write_text("x_mm,y_mm,z_um\n" + "1,2,3\n" * 10_000_000, encoding="utf-8")
    binary = tmp_path / "picture.csv"
    binary.write_bytes(b"\xff\xd8\xff\xe0" * 10)
    for path in (many, binary, tmp_path / "none.csv", tmp_path):
        assert main(["calc", "flatness", f"points={path}", "--json"]) == 1
        problems = json.loads(capsys.readouterr().out)["problems"]
        assert [p["where"] for p in problems] == ["points"]
