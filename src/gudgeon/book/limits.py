"""A limit row: what the book prints for one characteristic, as typed and as numbers.

A feature renewed or machined in this job is judged against the new range, one reused against the wear limit.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field, PrivateAttr, ValidationInfo, field_validator, model_validator

from gudgeon import units
from gudgeon.book import judged
from gudgeon.shelf.typed import Row, nearest, quantity, sentence_list, wrong
from gudgeon.units import Quantity

Range = tuple[Quantity, Quantity]


class LimitRow(Row):
    """One row of a limits table; `also_…` is what the book prints beside it in another unit."""

    of: str = Field(json_schema_extra={"enum": list(judged.KEYS)})
    side: str = ""
    new: Range | None = None
    typed_least: Quantity | None = Field(default=None, alias="least")
    typed_most: Quantity | None = Field(default=None, alias="most")
    expect: str = ""
    also_new: Range | None = None
    also_least: Quantity | None = None
    also_most: Quantity | None = None
    page: str = ""
    method: str = ""
    place_words: str = Field(default="", alias="place")
    statistic: Literal["", "smallest", "largest", "mean", "spread"] = ""
    remedies: tuple[str, ...] = ()
    words: str = ""
    note: str = ""
    #: The dimension of what is the workshop's own.
    _own: str = PrivateAttr(default="")

    @field_validator("of")
    @classmethod
    def _known(cls, of: str) -> str:
        if of not in judged.KEYS:
            meant = nearest(of, judged.KEYS)
            remedy = "Did you mean {meant}?" if meant else "Use one of: {known}."
            raise wrong("{of} is nothing that is judged.", remedy, of=of, meant=meant, known=sentence_list(judged.KEYS))
        return of

    @field_validator("new", "also_new", mode="plain", json_schema_input_type=tuple[str, str])
    @classmethod
    def _range(cls, given: object, info: ValidationInfo) -> Range | None:
        dimension = judged.dimension(str(info.data.get("of")))
        if given is None or not dimension:
            return None
        _number(dimension, info)
        if not isinstance(given, list | tuple) or len(given) != 2:
            raise wrong("A range has two ends.", 'Write it as ["{low}", "{high}"].', low="0.10 mm", high="0.15 mm")
        span = judged.span(str(info.data.get("of")))
        low, high = quantity(given[0], dimension, within=span), quantity(given[1], dimension, within=span)
        if low.exact > high.exact:
            raise wrong("The ends {low} and {high} are swapped, or a digit is lost.",
                        "Low end first; look at the page again.", low=low.text, high=high.text)  # fmt: skip
        return low, high

    @field_validator("typed_least", "typed_most", "also_least", "also_most", mode="plain", json_schema_input_type=str)
    @classmethod
    def _one(cls, given: object, info: ValidationInfo) -> Quantity | None:
        dimension = judged.dimension(str(info.data.get("of")))
        if given is None or not dimension:
            return None
        _number(dimension, info)
        limit = quantity(given, dimension, within=judged.span(str(info.data.get("of"))))
        least = info.data.get("typed_least")
        if info.field_name == "typed_most" and isinstance(least, Quantity) and least.exact > limit.exact:
            raise wrong("The ends {low} and {high} are swapped, or a digit is lost.",
                        "The least is the lower end; look at the page again.",
                        low=least.text, high=limit.text)  # fmt: skip
        return limit

    @field_validator("expect")
    @classmethod
    def _said(cls, expect: str, info: ValidationInfo) -> str:
        of = str(info.data.get("of"))
        allowed = judged.words(of)
        if expect and of in judged.KEYS and expect not in allowed:
            raise wrong("{of} is not judged by the word {expect}.", "Use one of: {known}." if allowed else "Give sizes.",
                        of=of, expect=expect, known=sentence_list(allowed))  # fmt: skip
        return expect

    @model_validator(mode="after")
    def _says_something(self) -> LimitRow:
        if not (self.new or self.typed_least or self.typed_most or self.expect or self.words):
            raise wrong("{of} has neither a range nor a limit.", "Give new, least, most, expect, or the book's words.",
                        of=self.of)  # fmt: skip
        return self

    @property
    def dimension(self) -> str:
        """What the limit is in: "length", … or "words"."""
        return self._own or judged.dimension(self.of)

    @property
    def own(self) -> bool:
        """Whether it limits something that the workshop added itself."""
        return bool(self._own)

    @property
    def unit(self) -> str:
        """The inside unit of its numbers."""
        return units.INSIDE.get(self.dimension, "")

    @property
    def new_low(self) -> float | None:
        """The low end of the new range, in the inside unit."""
        return self.new[0].value if self.new else None

    @property
    def new_high(self) -> float | None:
        """The high end of the new range, in the inside unit."""
        return self.new[1].value if self.new else None

    @property
    def least(self) -> float | None:
        """The lower limit: of wear, or the tight wall of a setting; in the inside unit."""
        return self.typed_least.value if self.typed_least else None

    @property
    def most(self) -> float | None:
        """The upper limit: of wear, or the loose wall of a setting; in the inside unit."""
        return self.typed_most.value if self.typed_most else None

    @property
    def address(self) -> str:
        """The row by name: ``stem_diameter in``."""
        return f"{self.of} {self.side}".strip()

    def rank(self, place: str) -> int:
        """How closely the row speaks of a place: 3 the place itself, 2 its side or ring, 1 any, 0 another."""
        if not self.side:
            return 1
        if self.side == place:
            return 3
        return 2 if self.side in place.split(".")[1:] else 0


def _number(dimension: str, info: ValidationInfo) -> None:
    if dimension == "words":
        raise wrong("{of} is judged in words.", "Use expect.", of=str(info.data.get("of")))
