"""Torque wrenches: a setting counts only where this wrench was ever proved."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from gudgeon.shelf.typed import Length, Percent, Torque, Typed, wrong


class Wrench(Typed):
    """One wrench: its scale, its error, and how long it is from the middle of the grip to the square."""

    id: str = Field(min_length=1)
    name: str = ""
    low: Torque
    high: Torque
    error: Percent
    length: Length | None = None

    @model_validator(mode="after")
    def _has_a_scale(self) -> Self:
        if not 0 < self.low.exact < self.high.exact:
            raise wrong("The scale {low} to {high} has no width.", "Low end first.",
                        low=self.low.text, high=self.high.text)  # fmt: skip
        if not 0 < self.error.value <= 50:
            raise wrong("An error of {given} is not one of a wrench.", "It is usually 4 % or 6 %.",
                        given=self.error.text)  # fmt: skip
        if self.length is not None and self.length.number <= 0:
            raise wrong("A wrench of {given} has no grip.", "Measure from the middle of the grip to the square.",
                        given=self.length.text)  # fmt: skip
        return self

    @property
    def proved_from(self) -> float:
        """The lowest torque at which it was ever proved, in N·m.

        Setting wrenches are tested at 20, 60 and 100 % of their scale (ISO 6789, read in a summary).
        """
        return max(self.low.value, 0.2 * self.high.value)

    def covers(self, torque_nm: float) -> bool:
        """Whether a torque lies where the wrench is proved."""
        return self.proved_from <= torque_nm <= self.high.value
