"""The shape of a book as JSON Schema, so that any editor completes its keys and marks what it does not know."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from gudgeon.book.layout import LayoutTyped
from gudgeon.book.parse import ROWS, TABLES, Title


def schema() -> dict[str, Any]:
    """The schema of a whole book; what it cannot say (units, places, contradictions) the audit does."""
    tables: dict[str, type[BaseModel]] = {"book": Title, "layout": LayoutTyped}
    tables |= {key: model for key, (_, model) in TABLES.items()}
    rows: dict[str, type[BaseModel]] = {key: model for key, (_, model) in ROWS.items()}
    refs, whole = models_json_schema([(model, "validation") for model in (*tables.values(), *rows.values())])
    whole_book: dict[str, Any] = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Book of an engine family",
        "type": "object",
        "additionalProperties": False,
        "required": ["book", "layout"],
        "properties": {
            **{key: refs[model, "validation"] for key, model in tables.items()},
            **{key: {"type": "array", "items": refs[model, "validation"]} for key, model in rows.items()},
        },
        "$defs": whole["$defs"],
    }
    return {key: _plain(value) for key, value in whole_book.items()}


def _plain(node: Any) -> Any:
    """Without defaults that cannot be typed, and without titles that only repeat the key."""
    if isinstance(node, list):
        return [_plain(item) for item in node]
    if not isinstance(node, dict):
        return node
    out = {key: _plain(value) for key, value in node.items()}
    if not isinstance(out.get("default", ""), str | bool | int | list):
        del out["default"]
    if out.get("type") != "object" and isinstance(out.get("title"), str):
        del out["title"]
    return out
