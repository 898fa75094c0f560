"""Typed pairs: every slip is named, with what was given and what was likely meant."""

from __future__ import annotations

import pytest

from gudgeon.calculators.asking import answer, pairs, work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.problem import Refused

GOOD = {"shim": "1.85mm", "lash": "0.02mm", "low": "0.10mm", "high": "0.15mm"}


def problems(name: str, typed: list[tuple[str, str]]) -> str:
    with pytest.raises(Refused) as refused:
        answer(name, typed)
    return str(refused.value)


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_calculator_is_what_its_line_says_and_its_example_runs(name: str) -> None:
    kind = calculator(name)
    assert (kind.key, kind.line) == (name, CALCULATORS[name][0])
    files = {key.name for key in kind.keys if key.dimension == FILE}
    typed = [(key, kind.example_file if key in files else text) for key, text in pairs(kind.example.split())]
    result = work_out(kind, typed)
    assert result.results and result.method and result.source and result.validity
    names = [r.name for r in result.results]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_kind_says_why_in_its_docstring(name: str) -> None:
    module = __import__(CALCULATORS[name][1], fromlist=["KIND"])
    assert module.__doc__ and len(module.__doc__) > 40


def test_a_missing_an_unknown_and_a_doubled_key_are_all_named_at_once() -> None:
    said = problems("shim", [("shim", "1.85mm"), ("lsh", "0.02mm"), ("low", "0.1mm"), ("low", "0.1mm")])
    assert "Did you mean lash?" in said
    assert "low was given twice" in said
    assert "lash is missing" in said
    assert "high is missing" in said


@pytest.mark.parametrize(
    ("key", "text", "word"),
    [
        ("lash", "5 N", "length"),
        ("lash", "abc", "abc"),
        ("lash", "nan", "nan"),
        ("lash", "inf", "inf"),
        ("lash", "", "lash"),
        ("measured-at", "tappet", "valve, cam"),
        ("ratio", "1.5mm", "ratio"),
        ("lash", "9" * 400, "lash"),
    ],
)
def test_a_value_that_is_none_is_named(key: str, text: str, word: str) -> None:
    assert word in problems("shim", list({**GOOD, key: text}.items()))


def test_unknown_calculator_suggests() -> None:
    assert "Did you mean shim?" in problems("shmi", [])


@pytest.mark.parametrize("word", ["lash", "=0.1", ""])
def test_a_word_without_a_value(word: str) -> None:
    with pytest.raises(Refused, match="key=value"):
        pairs([word])


def test_spelling_of_keys_is_taken_kindly() -> None:
    assert pairs(["Measured_At = cam"]) == (("measured-at", "cam"),)


def test_the_same_in_inches_and_thou() -> None:
    metric = answer("shim", list(GOOD.items())).results
    imperial = answer("shim", [("shim", f"{1.85 / 25.4:.12f}in"), ("lash", f"{0.02 / 0.0254:.12f} thou"),
                               ("low", "100 µm"), ("high", "0.015 cm")]).results  # fmt: skip
    assert [r.value for r in imperial] == pytest.approx([r.value for r in metric], abs=1e-9)


def test_a_figure_that_is_none_never_leaves() -> None:
    def work(*, x: float) -> Answer:
        return Answer(results=(Result(name="y", value=x * 1e308 * 10),), method="m", source="s", validity="v")

    kind = Calculator(key="t", line="t", keys=(Key(name="x", dimension="number", help="x"),), work=work, example="x=1")
    with pytest.raises(Refused):
        work_out(kind, [("x", "10")])
