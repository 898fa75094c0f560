"""Files and functions stay small enough to be read in one sitting."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FILE_LINES = 400
FUNCTION_LINES = 50
SOURCES = sorted(path for room in ("src", "tests", "tools", "bench") for path in (ROOT / room).rglob("*.py"))


def long_functions(text: str, limit: int) -> list[str]:
    """Every function longer than the limit, its docstring and decorators not counted in."""
    found = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[0]
            said = (
                isinstance(first, ast.Expr)
                and isinstance(first.value, ast.Constant)
                and isinstance(first.value.value, str)
            )
            words = (first.end_lineno or 0) - first.lineno + 1 if said else 0
            lines = (node.end_lineno or 0) - node.lineno + 1 - words
            if lines > limit:
                found.append(f"{node.name} at line {node.lineno} has {lines} lines")
    return found


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_nothing_outgrows_its_budget(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= FILE_LINES
    assert long_functions(text, FUNCTION_LINES) == []


def test_the_budget_bites() -> None:
    body = "\n".join(f"    x = {n}" for n in range(FUNCTION_LINES))
    assert long_functions(f"def long():\n{body}\n", FUNCTION_LINES) == ["long at line 1 has 51 lines"]
    assert long_functions(f'def said():\n    """Why,\n    on two lines."""\n{body[:-11]}\n', FUNCTION_LINES) == []


def test_other_sources_stay_short_too() -> None:
    others = [path for kind in ("*.js", "*.css", "*.html") for path in (ROOT / "src").rglob(kind)]
    assert [str(path) for path in others if len(path.read_text(encoding="utf-8").splitlines()) > FILE_LINES] == []
