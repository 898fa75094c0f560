"""Whatever is typed for any key of any calculator gives figures or problems that name something: never anything else."""

from __future__ import annotations

import shlex

import pytest

from gudgeon.calculators.asking import pairs, work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE
from gudgeon.problem import Refused

NO_NUMBERS = ("", "nan", "inf", "-inf", "abc", "--", "1e999", "5 furlong", "0x10", "1;2", "∞", "9" * 500)
ODD = ("0", "-1", "-0.0001", "1e-300", "999999999999", "-999999999999", "0.5", "180", "90", "45", "1000000", "3")
TEXTS = ("", "x", "x_mm\n", "\x00", "x_mm,y_mm,z_um\n1,2\n", "part,appraiser,trial,value\na,b,c,d\n", '"' * 1000)
KEYS = [(name, key.name) for name in CALCULATORS for key in calculator(name).keys]


def tried(name: str, key: str, text: str) -> None:
    kind = calculator(name)
    files = {one.name for one in kind.keys if one.dimension == FILE}
    typed = {k: kind.example_file if k in files else t for k, t in pairs(shlex.split(kind.example))}
    try:
        assert work_out(kind, {**typed, key: text}.items()).results
    except Refused as refused:
        assert all(problem.where and str(problem.what) and str(problem.remedy) for problem in refused.problems)


@pytest.mark.parametrize(("name", "key"), KEYS)
def test_figures_or_problems(name: str, key: str) -> None:
    dimension = next(one.dimension for one in calculator(name).keys if one.name == key)
    for text in (*NO_NUMBERS, *ODD, *(TEXTS if dimension == FILE else ())):
        tried(name, key, text)
    if dimension not in ("words", FILE):
        for text in NO_NUMBERS:
            with pytest.raises(Refused):
                work_out(calculator(name), [(key, text)])
