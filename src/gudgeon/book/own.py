"""Rows by which a workshop adds a part, something to measure, a step or a check to an engine, without any code.

What one row alone can get wrong is found here; whether its places, slots and steps exist, where they are worked out.
"""

from __future__ import annotations

import re
from typing import Annotated, Literal, cast, get_args

from pydantic import AfterValidator, Field, ValidationInfo, field_validator, model_validator

from gudgeon import units
from gudgeon.anatomy import SURFACES
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.own import OwnDimension
from gudgeon.problem import Refused
from gudgeon.routes.holds import HOLDS
from gudgeon.routes.scopes import SCOPES
from gudgeon.shelf.gauges import GAUGE_KINDS
from gudgeon.shelf.typed import Money, Row, nearest, quantity, sentence_list, wrong
from gudgeon.units import Quantity

Range = tuple[Quantity, Quantity]
#: What an own check that is looked at, not measured, is answered with.
ANSWERS = ("yes", "no")
LONGEST_NAME = 60
_TAKEN = frozenset((*MEASURANDS, *CHARACTERISTICS, *OPERATIONS, *(key.casefold() for key in HOLDS)))


def key_of(name: str) -> str:
    """The key by which the ledger calls an own thing: "reed petal gap" is ``reed_petal_gap``."""
    return re.sub(r"\W+", "_", name.casefold()).strip("_")


def _name(name: str) -> str:
    if not key_of(name) or len(name) > LONGEST_NAME or re.search(r"[/*.#@\n\t]", name):
        raise wrong("{name} is no name.", "Use words, up to {most} characters, without / * . # and @.",
                    name=name[:LONGEST_NAME] or "–", most=LONGEST_NAME)  # fmt: skip
    return " ".join(name.split())


def _new_name(name: str) -> str:
    name = _name(name)
    if key_of(name) in _TAKEN:
        raise wrong("{name} is there already.", "Use it as it is, or give yours another name.", name=name)
    return name


def _new_part(name: str) -> str:
    name = _name(name)
    if name.casefold() in SURFACES:
        raise wrong("Every engine knows the part {name}.", "Give yours another name.", name=name)
    return name


def _scopes(scopes: tuple[str, ...]) -> tuple[str, ...]:
    for scope in scopes:
        if scope not in SCOPES:
            raise wrong("There is no scope {scope}.", "Use: {known}.", scope=scope, known=sentence_list(SCOPES))
    return scopes


Name = Annotated[str, AfterValidator(_new_name)]
Scopes = Annotated[tuple[str, ...], AfterValidator(_scopes)]


class OwnPartRow(Row):
    """A part that the layout does not have, at a place or at every place alike: ``c*``."""

    name: Annotated[str, AfterValidator(_new_part)]
    at: str = "engine"
    opened_with: str = ""
    number: str = ""
    price: Money | None = None
    renew: Literal["always", "once", "wear"] = "wear"
    count: int = Field(default=1, ge=1)
    look_alike: str = ""
    mark: str = ""
    delivery: str = ""
    note: str = ""


class OwnMeasureRow(Row):
    """Something to measure: where it is read, in which unit, with which gauge, and what it may be."""

    name: Name
    at: str = Field(min_length=1)
    unit: str = Field(min_length=1)
    gauge: str
    read: Literal["in place", "on the part"] = "in place"
    points: tuple[str, ...] = ()
    setting: bool = False
    new: Range | None = None
    least: Quantity | None = None
    most: Quantity | None = None
    page: str = ""
    remedies: tuple[str, ...] = ()
    scopes: Scopes = ()
    ask: str = ""
    caution: str = ""
    note: str = ""

    @field_validator("unit")
    @classmethod
    def _measured_in(cls, unit: str) -> str:
        try:
            dimension = units.dimension_of(unit)
        except Refused:
            dimension = ""
        if dimension not in GAUGE_KINDS.values():
            kinds = (d for d in get_args(OwnDimension) if d in GAUGE_KINDS.values() and d != "words")
            raise wrong("No gauge reads {unit}.", "Use a unit of: {known}.", unit=unit, known=sentence_list(kinds))
        return unit

    @field_validator("gauge")
    @classmethod
    def _reads_it(cls, gauge: str, info: ValidationInfo) -> str:
        if "unit" not in info.data:
            return gauge
        fit = [kind for kind, dimension in GAUGE_KINDS.items() if dimension == units.dimension_of(info.data["unit"])]
        if gauge not in fit:
            meant = nearest(gauge, fit)
            raise wrong("A {gauge} does not read {unit}.", "Did you mean {meant}?" if meant else "Use one of: {known}.",
                        gauge=gauge, unit=info.data["unit"], meant=meant, known=sentence_list(fit))  # fmt: skip
        return gauge

    @field_validator("points")
    @classmethod
    def _told_apart(cls, points: tuple[str, ...]) -> tuple[str, ...]:
        if len(set(points)) < len(points) or not all(points):
            raise wrong("The points {points} are not told apart.", "Give each a name of its own.",
                        points=sentence_list(points))  # fmt: skip
        return points

    @field_validator("new", mode="plain", json_schema_input_type=tuple[str, str])
    @classmethod
    def _range(cls, given: object, info: ValidationInfo) -> Range | None:
        unit = info.data.get("unit")
        if given is None or unit is None:
            return None
        if not isinstance(given, list | tuple) or len(given) != 2:
            raise wrong("A range has two ends.", 'Write it as ["{low}", "{high}"].', low="0.10", high="0.15")
        low, high = (quantity(end, units.dimension_of(unit), unit) for end in given)
        return _in_order(low, high)

    @field_validator("least", "most", mode="plain", json_schema_input_type=str)
    @classmethod
    def _one(cls, given: object, info: ValidationInfo) -> Quantity | None:
        unit = info.data.get("unit")
        if given is None or unit is None:
            return None
        limit = quantity(given, units.dimension_of(unit), unit)
        least = info.data.get("least")
        return limit if least is None else _in_order(least, limit)[1]

    @model_validator(mode="after")
    def _has_walls(self) -> OwnMeasureRow:
        if self.setting and (self.least is None or self.most is None):
            raise wrong("A setting has two walls.", "Give least and most.")
        return self

    @property
    def dimension(self) -> OwnDimension:
        """What it is measured in."""
        return cast(OwnDimension, units.dimension_of(self.unit))


def _in_order(low: Quantity, high: Quantity) -> Range:
    if low.exact > high.exact:
        raise wrong("The ends {low} and {high} are swapped, or a digit is lost.", "Low end first; look again.",
                    low=low.text, high=high.text)  # fmt: skip
    return low, high


class OwnStepRow(Row):
    """Something to do: at which places, on which parts, and after which step of the route."""

    name: Name
    at: str = "engine"
    did: str = ""
    works_on: tuple[str, ...] = ()
    after: str = ""
    scopes: Scopes = ()
    caution: str = ""
    note: str = ""


class OwnCheckRow(Row):
    """A check: a question at a part answered with yes or no, or a measure that must be good; it may hold the job."""

    name: Name
    at: str = ""
    measure: str = ""
    good: Literal["yes", "no"] = "yes"
    holds: bool = True
    before: str = ""
    hides: str = ""
    scopes: Scopes = ()
    ask: str = ""
    caution: str = ""
    note: str = ""

    @model_validator(mode="after")
    def _one_of_two(self) -> OwnCheckRow:
        if bool(self.at) == bool(self.measure):
            raise wrong("A check looks at a part or holds a measure.", "Give either at or measure.")
        if self.measure and not self.holds:
            raise wrong("A measure is judged anyway.", "Leave the check out, or let it hold.")
        return self


#: The rows of own things by their table: the word a job uses for the kind, and the model.
OWN_ROWS: dict[str, tuple[str, type[Row]]] = {
    "own_part": ("part", OwnPartRow),
    "own_measure": ("measure", OwnMeasureRow),
    "own_step": ("step", OwnStepRow),
    "own_check": ("check", OwnCheckRow),
}
