"""The schema that editors read is that of the models, takes the demo's books, and marks what is not known."""

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

import gudgeon
from gudgeon.book.schema import schema

HOME = Path(gudgeon.__file__).parent
BOOKS = sorted((HOME / "demo" / "books").glob("*.toml"))
TYPES: dict[str, Any] = {
    "string": str,
    "integer": int,
    "number": (int, float),
    "boolean": bool,
    "array": list,
    "object": dict,
}


def misfits(node: Any, rule: dict[str, Any], whole: dict[str, Any], at: str = "") -> list[str]:
    """Where a value does not fit a schema: the few keywords that this schema uses."""
    if "$ref" in rule:
        return misfits(node, whole["$defs"][rule["$ref"].rpartition("/")[2]], whole, at)
    if "anyOf" in rule:
        return min((misfits(node, one, whole, at) for one in rule["anyOf"]), key=len)
    found = [at] if "type" in rule and rule["type"] != "null" and not isinstance(node, TYPES[rule["type"]]) else []
    found += [at] if "enum" in rule and node not in rule["enum"] else []
    if isinstance(node, dict):
        found += [f"{at}.{key}" for key in rule.get("required", ()) if key not in node]
        for key, value in node.items():
            inner = rule.get("properties", {}).get(key)
            found += misfits(value, inner, whole, f"{at}.{key}") if inner is not None else [f"{at}.{key}"]
    if isinstance(node, list):
        for index, value in enumerate(node):
            items = rule["prefixItems"][index] if "prefixItems" in rule else rule.get("items", {})
            found += misfits(value, items, whole, f"{at}.{index}")
    return found


def test_the_file_that_editors_read_is_up_to_date() -> None:
    assert json.loads((HOME / "book" / "book.schema.json").read_text(encoding="utf-8")) == schema()


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_the_books_fit(path: Path) -> None:
    assert misfits(tomllib.loads(path.read_text(encoding="utf-8")), schema(), schema()) == []


@pytest.mark.parametrize(
    ("row", "at"),
    [
        ('[[limit]]\nof = "stem_diametre"', ".limit.0.of"),
        ('[[limit]]\nmost = "1 mm"', ".limit.0.of"),
        ('[[limit]]\nof = "lash"\nmoist = "1 mm"', ".limit.0.moist"),
        ('[[limit]]\nof = "lash"\nmost = 1', ".limit.0.most"),
        ('[[fastener]]\nname = "a"\nthread_state = "wet"', ".fastener.0.thread_state"),
        ("[[limts]]", ".limts"),
    ],
)
def test_what_is_not_known_is_marked(row: str, at: str) -> None:
    text = BOOKS[0].read_text(encoding="utf-8").split("[[limit]]")[0].split("[[cam]]")[0]
    assert misfits(tomllib.loads(text + row), schema(), schema()) == [at]
