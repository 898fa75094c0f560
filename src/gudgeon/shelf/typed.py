"""Typed values as fields of a model, and what a model finds wrong as problems with lines.

A field such as :data:`Length` holds the exact quantity and the text as typed. What one field alone can get wrong is
found here; what several fields contradict is the business of whoever knows them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from difflib import get_close_matches
from math import isfinite
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, PlainValidator, PrivateAttr, ValidationError, WithJsonSchema
from pydantic_core import ErrorDetails, PydanticCustomError

from gudgeon import units
from gudgeon.lines import Path, line_of
from gudgeon.problem import Problem, Refused, said
from gudgeon.units import Quantity
from gudgeon.units.number import quoted

_Model = TypeVar("_Model", bound=BaseModel)


class Typed(BaseModel):
    """A model whose fields are what was typed: frozen, and no key is taken that it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, str_strip_whitespace=True,
                              allow_inf_nan=False)  # fmt: skip


class Row(Typed):
    """A model that remembers the line it was read from."""

    _line: int = PrivateAttr(default=0)

    @property
    def line(self) -> int:
        """The line in its file, 0 if it has none."""
        return self._line


def keys_of(model: type[BaseModel]) -> tuple[str, ...]:
    """The keys a person may type for a model."""
    return tuple(field.alias or name for name, field in model.model_fields.items())


def wrong(what: str, remedy: str, **values: str | int | float) -> PydanticCustomError:
    """What a validator raises: a sentence and its remedy, worded later."""
    problem = Problem(where="", what=said(what, **values), remedy=said(remedy, **values))
    return PydanticCustomError("refused", "{words}", {"words": str(problem.what), "problem": problem})


def quantity(given: object, dimension: str, unit: str | None = None, within: units.Span | None = None) -> Quantity:
    """The quantity a field holds; called from validators only. `within` settles what a comma means."""
    if isinstance(given, Quantity):
        return given
    if not isinstance(given, str):
        digits = f"{given}" if isinstance(given, int | float) and isfinite(given) and given is not True else "12.5"
        raise wrong("{given} is not text.", 'Write it in quotes, with its unit: "{example}".',
                    given=quoted(str(given)), example=f"{digits} {units.INSIDE.get(dimension, '')}".strip())  # fmt: skip
    try:
        return units.read(given, dimension, unit=unit, within=within)
    except Refused as refused:
        first = refused.problems[0]
        raise PydanticCustomError("refused", "{words}", {"words": str(first.what), "problem": first}) from refused


def _short(given: object) -> str:
    return str(given)[:40]


def reader(dimension: str) -> Callable[[object], Quantity]:
    """A validator that reads one dimension."""
    return lambda given: quantity(given, dimension)


def _schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [example]})


Length = Annotated[Quantity, PlainValidator(reader("length")), _schema("4.975 mm")]
Force = Annotated[Quantity, PlainValidator(reader("force")), _schema("160 N")]
Torque = Annotated[Quantity, PlainValidator(reader("torque")), _schema("10 N·m")]
Pressure = Annotated[Quantity, PlainValidator(reader("pressure")), _schema("1200 kPa")]
Angle = Annotated[Quantity, PlainValidator(reader("angle")), _schema("45 °")]
Volume = Annotated[Quantity, PlainValidator(reader("volume")), _schema("36.0 cm³")]
Stress = Annotated[Quantity, PlainValidator(reader("stress")), _schema("81.5 GPa")]
Percent = Annotated[Quantity, PlainValidator(reader("percent")), _schema("10 %")]
Time = Annotated[Quantity, PlainValidator(reader("time")), _schema("24 h")]
Money = Annotated[Quantity, PlainValidator(reader("money")), _schema("48.00")]
Number = Annotated[Quantity, PlainValidator(reader("number")), _schema("1.5")]


def _day(given: object) -> str:
    """A day as a calendar has it, or nothing: days are compared as text."""
    text = str(given).strip() if isinstance(given, str | date) else "?"
    try:
        return date.fromisoformat(text).isoformat() if text else ""
    except ValueError:
        raise wrong("{given} is no day.", "Write it as 2026-11-25.", given=quoted(_short(given))) from None


Day = Annotated[str, PlainValidator(_day), _schema("2026-11-25")]


def sentence_list(words: Iterable[str]) -> str:
    """Words as a person lists them."""
    return ", ".join(words)


def nearest(given: str, known: Iterable[str]) -> str:
    """The known word that was likely meant, or nothing."""
    close = get_close_matches(given.casefold(), list(known), n=1, cutoff=0.6)
    return close[0] if close else ""


def at_line(name: str, lines: Mapping[Path, int], path: Path) -> str:
    """Where a problem is: ``file:12``, or the name alone for what has no lines."""
    return f"{name}:{line_of(lines, path)}" if lines else name


def check(
    model: type[_Model], raw: object, *, path: Path, lines: Mapping[Path, int], name: str
) -> tuple[_Model | None, tuple[Problem, ...]]:
    """The model, or every problem that its fields have, each with its line."""
    if not isinstance(raw, dict):
        where = at_line(name, lines, path)
        remedy = said("Write it as a table: [{table}] and its keys below.", table=".".join(str(p) for p in path))
        return None, (Problem(where=where, what=said("{given} is not a table.", given=_short(raw)), remedy=remedy),)
    try:
        found = model.model_validate(raw)
    except ValidationError as error:
        errors = error.errors(include_url=False)
        return None, tuple(_problem(model, details, path, lines, name) for details in errors)
    if isinstance(found, Row) and lines:
        found._line = line_of(lines, path)
    return found, ()


def by_field(model: type[BaseModel], raw: Mapping[str, object], name: str) -> dict[str, Problem]:
    """What each field of a form has wrong, the first of each; "" is what several fields contradict. Empty when it fits."""
    try:
        model.model_validate(dict(raw))
    except ValidationError as error:
        found: dict[str, Problem] = {}
        for details in error.errors(include_url=False):
            problem = _problem(model, details, (), {}, name)
            found.setdefault(str(details["loc"][0]) if details["loc"] else "", problem)
        return found
    return {}


def _problem(
    model: type[BaseModel], details: ErrorDetails, path: Path, lines: Mapping[Path, int], name: str
) -> Problem:
    at = tuple(piece for piece in details["loc"] if isinstance(piece, str | int))
    where = at_line(name, lines, (*path, *at))
    key = ".".join(str(piece) for piece in at) or ".".join(str(piece) for piece in path)
    problem = details.get("ctx", {}).get("problem")
    if isinstance(problem, Problem):
        what = said("{key}: {problem}", key=key, problem=str(problem.what))
        return Problem(where=where, what=what if at else problem.what, remedy=problem.remedy)
    what_text, remedy_text, values = _worded(model, details, key)
    return Problem(where=where, what=said(what_text, key=key, **values), remedy=said(remedy_text, key=key, **values))


def _worded(model: type[BaseModel], details: ErrorDetails, key: str) -> tuple[str, str, dict[str, str]]:
    """A library's finding in the words of the bench."""
    given = _short(details["input"])
    ctx: Mapping[str, Any] = details.get("ctx", {})
    match details["type"]:
        case "extra_forbidden":
            meant = nearest(str(details["loc"][-1]), keys_of(model))
            remedy = "Did you mean {meant}?" if meant else "Use one of: {known}."
            return "{key} is not known here.", remedy, {"meant": meant, "known": sentence_list(keys_of(model))}
        case "missing":
            return "{key} is missing.", "Add it.", {}
        case "literal_error":
            return "{key}: {given} is not one of {known}.", "Use one of them.", {
                "given": quoted(given), "known": str(ctx.get("expected", ""))}  # fmt: skip
        case "string_type":
            return "{key}: {given} is not text.", 'Write it in quotes: {key} = "…".', {"given": quoted(given)}
        case "bool_type" | "bool_parsing":
            return "{key}: {given} is neither true nor false.", "Write true or false.", {"given": quoted(given)}
        case "int_type" | "int_parsing" | "int_from_float":
            return "{key}: {given} is not a whole number.", "Write a whole number.", {"given": quoted(given)}
        case "tuple_type" | "list_type":
            return "{key}: {given} is not a list.", "Write it in brackets: [ …, … ].", {"given": quoted(given)}
        case "too_short" | "too_long":
            return "{key} has {given} entries.", "It takes {wanted}.", {
                "given": str(ctx.get("actual_length", "")),
                "wanted": str(ctx.get("min_length", ctx.get("max_length", "")))}  # fmt: skip
        case _:
            return "{key}: {given} does not fit: {why}.", "Look at the value.", {
                "given": quoted(given), "why": details["msg"]}  # fmt: skip
