"""How this workshop decides: one page of settings, each with a safe default that says where it comes from.

The rules are pinned into every job, so that a record can be read years later with the rules of its day.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field, field_validator

from gudgeon.problem import Refused
from gudgeon.shelf.gauges import flat
from gudgeon.shelf.typed import Length, Money, Percent, Time, Typed, check, quantity, wrong
from gudgeon.units import Quantity

_PRACTICE = "common practice, no source"


def _length(text: str) -> Length:
    return quantity(text, "length")


class Rules(Typed):
    """The decision rules, aims, guards and prices of one workshop."""

    measuring: Literal["full", "quick", "sample"] = Field(
        default="full",
        description="full reads every place; quick the worst places of each part first, the rest only near a limit or in "
        "disagreement; sample leaves whole parts too where the worst of their kind is far from its limit",
    )
    risk: float = Field(default=0.05, description="5 % one-sided, 1.645 u: the usual choice under ISO 14253-1")
    wear: Literal["guarded", "face value"] = Field(
        default="guarded", description="wear limits: proven inside or past, ISO 14253-1"
    )
    tight_wall: Literal["guarded", "face value"] = Field(
        default="guarded", description=f"too tight burns valves: {_PRACTICE}"
    )
    loose_wall: Literal["guarded", "face value"] = Field(
        default="face value", description=f"too loose only ticks: {_PRACTICE}"
    )
    leak_down_most: Percent = Field(
        default=quantity("10 %", "percent"), description=f"street engines at most 10 %: {_PRACTICE}"
    )
    seal_test_time: Time = Field(default=quantity("3 min", "time"), description=f"dry for 1 to 5 minutes: {_PRACTICE}")
    shim_aim: Literal["middle", "loose third", "loose edge"] = Field(
        default="loose third", description=f"lash mostly closes as valves sink: {_PRACTICE}"
    )
    squish_least: Length = Field(
        default=_length("0.70 mm"), description=f"where the book gives none: {_PRACTICE}, cautious"
    )
    valve_to_piston_in: Length = Field(
        default=_length("1.00 mm"), description=f"intake, where the book gives none: {_PRACTICE}, cautious"
    )
    valve_to_piston_ex: Length = Field(
        default=_length("1.50 mm"), description=f"exhaust, hotter and longer: {_PRACTICE}, cautious"
    )
    springs: Literal["side", "one"] = Field(
        default="side", description=f"a weak spring is renewed with all of its side: {_PRACTICE}"
    )
    hour_price: Money = Field(default=quantity("0.00", "money"), description="none set")
    currency: str = Field(default="", max_length=12, description="none set")
    tax_rate: Percent = Field(default=quantity("0 %", "percent"), description="none set: ask who keeps the books")
    tax_name: str = Field(default="", max_length=40, description="none set")
    overrun: Percent = Field(
        default=quantity("10 %", "percent"),
        description="more than this over the approved price needs a new yes; several consumer laws",
    )
    paper_header: str = Field(default="", max_length=120, description="none set")
    paper_address: str = Field(default="", max_length=400, description="none set")
    decimal_mark: Literal["point", "comma"] = Field(default="point", description="as this program writes everywhere")

    @field_validator("risk")
    @classmethod
    def _is_a_risk(cls, risk: float) -> float:
        if not 0.0001 <= risk <= 0.5:
            raise wrong("A risk of {given} is none.", "Give a share between 0.0001 and 0.5; usual is 0.05.", given=risk)
        return risk

    @field_validator("tax_rate", "overrun", "leak_down_most")
    @classmethod
    def _is_a_share(cls, share: Quantity) -> Quantity:
        if not 0.0 <= share.value <= 100.0:
            raise wrong("{given} is no such share.", "Give 0 to 100 %.", given=share.text)
        return share

    @field_validator("squish_least", "valve_to_piston_in", "valve_to_piston_ex", "seal_test_time", "hour_price")
    @classmethod
    def _is_not_below_nothing(cls, size: Quantity) -> Quantity:
        if size.number < 0:
            raise wrong("{given} is below nothing.", "Type it without its sign.", given=size.text)
        return size

    def aim(self, low: float, high: float) -> float:
        """Where in a window lash is aimed, where the book names no aim: "loose third" begins two thirds up."""
        share = {"middle": 0.5, "loose third": 2.0 / 3.0, "loose edge": 1.0}[self.shim_aim]
        return low + share * (high - low)

    @classmethod
    def source_of(cls, name: str) -> str:
        """Where the default of a rule comes from."""
        return cls.model_fields[name].description or ""

    def pinned(self) -> dict[str, str]:
        """The rules as flat text, for the ledger: every one, so that a later default changes nothing."""
        return {name: flat(self).get(name) or _text(getattr(self, name)) for name in type(self).model_fields}

    @classmethod
    def from_pinned(cls, rules: Mapping[str, str]) -> Rules:
        """The rules that were pinned, exactly as they were; an empty mapping is the safe defaults."""
        found, problems = check(cls, dict(rules), path=(), lines={}, name="rules")
        if found is None:
            raise Refused(problems)
        return found


def _text(value: object) -> str:
    return str(getattr(value, "text", value))
