"""How a gauge that collects its readings writes its files: asked once, then remembered with the gauge."""

from __future__ import annotations

from pydantic import Field, field_validator

from gudgeon.shelf.typed import Typed, wrong

DECIMALS = ("", ".", ",")
SEPARATORS = ("", ",", ";", "tab")


class Columns(Typed):
    """The columns of a gauge's file: each by its heading, or counted from 1. Without a place, rows go in order."""

    gauge: str = Field(min_length=1)
    value: str = Field(min_length=1)
    where: str = ""
    point: str = ""
    unit: str = ""
    decimal: str = ""
    separator: str = ""

    @field_validator("decimal")
    @classmethod
    def _sign(cls, decimal: str) -> str:
        if decimal not in DECIMALS:
            raise wrong("{given} is no decimal sign.", "Use a point or a comma.", given=decimal)
        return decimal

    @field_validator("separator")
    @classmethod
    def _split(cls, separator: str) -> str:
        if separator not in SEPARATORS:
            raise wrong("{given} splits no rows.", "Use a comma, a semicolon, or tab.", given=separator)
        return separator
