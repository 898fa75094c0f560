"""Cells of forms that are refused one by one: what was typed stays, and what is wrong stands beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.problem import Problem, Refused
from gudgeon.web.words import worded
from gudgeon.workbench.shelving import WrongCells

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One field: its name, its label, what stands in it, what is wrong with that, and what helps to fill it."""

    name: str
    label: str
    value: str = ""
    problem: str = ""
    hint: str = ""
    choices: Choices = ()
    lines: int = 0
    wide: bool = False
    fixed: bool = False


def problem_at(problems: Mapping[str, Problem], name: str) -> str:
    """What is wrong with a cell, and what to do."""
    found = problems.get(name)
    return f"{worded(found.what)} {worded(found.remedy)}" if found is not None else ""


def at_cells(refused: Refused) -> Mapping[str, Problem]:
    """The problems of a refusal by their cell; one that belongs to none has the name ""."""
    return refused.fields if isinstance(refused, WrongCells) else {"": refused.problems[0]}
