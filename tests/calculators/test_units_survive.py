"""Every unit in a formula survives being given in the other system: each key of each example in each unit it can take."""

from __future__ import annotations

import shlex

import pytest

from gudgeon.calculators.asking import pairs, work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE, WORDS
from gudgeon.units import read, units_of


def cases() -> list[tuple[str, str, str, str]]:
    found = []
    for name in CALCULATORS:
        kind = calculator(name)
        typed = dict(pairs(shlex.split(kind.example)))
        for key in kind.keys:
            if key.dimension in (FILE, WORDS) or key.name not in typed:
                continue
            quantity = read(typed[key.name], key.dimension, unit=key.bare_unit)
            for unit in units_of(key.dimension):
                if unit != quantity.unit:
                    found.append((name, key.name, f"{quantity.in_unit(unit)!s} {unit}", unit))
    return found


@pytest.mark.parametrize(("name", "key", "text", "unit"), cases(), ids=lambda value: str(value)[:20])
def test_the_answer_stays(name: str, key: str, text: str, unit: str) -> None:
    kind = calculator(name)
    files = {one.name for one in kind.keys if one.dimension == FILE}
    typed = {k: kind.example_file if k in files else t for k, t in pairs(shlex.split(kind.example))}
    plain = work_out(kind, typed.items())
    other = work_out(kind, {**typed, key: text}.items())
    assert [r.unit for r in other.results] == [r.unit for r in plain.results]
    for one, again in zip(plain.results, other.results, strict=True):
        if isinstance(one.value, str):
            assert one.value == again.value
        else:
            assert again.value == pytest.approx(one.value, rel=1e-9, abs=1e-12)


def test_there_are_many() -> None:
    assert len(cases()) > 150
