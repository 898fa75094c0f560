"""Every example in a docstring runs and gives what it says."""

import ast
import doctest
import importlib
import re
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parents[2] / "src"
WITH_EXAMPLES = [
    ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__")
    for path in sorted(SOURCE.rglob("*.py"))
    if ">>> " in path.read_text(encoding="utf-8")
]


FORMULAS = ("mechanics", "metrology")


def formulas() -> list[tuple[str, str, str]]:
    """Each public function of the two rooms of formulas: its file, its name, and all that is said of it."""
    found = []
    for path in sorted(path for room in FORMULAS for path in (SOURCE / "gudgeon" / room).glob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                found.append((path.stem, node.name, f"{ast.get_docstring(node)}\n\f{ast.get_docstring(tree)}"))
    return [one for one in found if not one[0].endswith("given")]


@pytest.mark.parametrize("module", WITH_EXAMPLES)
def test_examples_give_what_they_say(module: str) -> None:
    failed, tried = doctest.testmod(importlib.import_module(module))
    assert tried > 0
    assert failed == 0


def test_every_formula_has_an_example_and_a_source() -> None:
    said = formulas()
    assert said
    assert [f"{file}.{name}" for file, name, words in said if ">>> " not in words.partition("\f")[0]] == []
    assert [
        f"{file}.{name}" for file, name, words in said if not re.search("Source|References|ISO|ILAC|GUM|JCGM", words)
    ] == []
