"""The engine's own numbers: geometry, cam events, seats, springs, shims, aims, materials."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field, field_validator, model_validator

from gudgeon.shelf.typed import Angle, Force, Length, Number, Row, Stress, Volume, wrong

Side = Literal["", "in", "ex"]


class Geometry(Row):
    """Bore, crank and volumes; what the book does not print stays empty."""

    bore: Length | None = None
    stroke: Length | None = None
    rod: Length | None = None
    displacement: Volume | None = None
    chamber: Volume | None = None
    gasket_bore: Length | None = None
    gasket_thickness: Length | None = None
    deck: Length | None = None
    dome: Volume | None = None
    recess: Length | None = None
    compression_ratio: Number | None = None
    intake_closes: Angle | None = None
    chain_pitch: Length | None = None
    cam_teeth: int | None = Field(default=None, ge=6, le=200)

    @field_validator("bore", "stroke", "rod", "chamber", "gasket_bore", "gasket_thickness", "compression_ratio")
    @classmethod
    def _above_zero(cls, size: Length | None) -> Length | None:
        if size is not None and size.number <= 0:
            raise wrong("{given} is not above zero.", "Look at the page again.", given=size.text)
        return size


class CamEvent(Row):
    """When the valves of one side open and close, in crank degrees: intake opens before top, closes after bottom;
    exhaust opens before bottom, closes after top."""

    side: Literal["in", "ex"]
    opens: Angle
    closes: Angle
    duration: Angle | None = None
    lift: Length | None = None
    at_lift: Length | None = None


class Seat(Row):
    """How a seat is cut: contact angle, the two that narrow it, and the valve head that stands in it."""

    side: Side = ""
    contact: Angle
    top: Angle | None = None
    throat: Angle | None = None
    valve_head: Length | None = None


class Spring(Row):
    """A valve spring as drawn and as loaded."""

    side: Side = ""
    wire: Length | None = None
    mean_diameter: Length | None = None
    active: Number | None = None
    total: Number | None = None
    shear_modulus: Stress | None = None
    free: Length | None = None
    at_length: Length | None = None
    load: Force | None = None
    solid: Length | None = None
    lift: Length | None = None
    spacer: Length | None = None


class ShimSystem(Row):
    """The shims on sale: sizes from smallest to largest by one step, how they are marked, how many the book claims."""

    side: Side = ""
    diameter: Length | None = None
    smallest: Length
    largest: Length
    step: Length
    count: int | None = None
    mark: Literal["three digits", "two digits", "none"] = "three digits"
    part: str = ""
    price: Number | None = None

    @model_validator(mode="after")
    def _has_sizes(self) -> ShimSystem:
        if self.step.exact <= 0 or self.smallest.exact > self.largest.exact or self.smallest.exact <= 0:
            raise wrong("Shims from {low} to {high} by {step} are none.", "Smallest first, then largest, then the step.",
                        low=self.smallest.text, high=self.largest.text, step=self.step.text)  # fmt: skip
        if (self.largest.exact - self.smallest.exact) / self.step.exact > 500:
            raise wrong("Shims by {step} would be over five hundred sizes.", "Look at the step.",
                        step=self.step.text)  # fmt: skip
        return self

    def sizes(self) -> tuple[float, ...]:
        """Every size on sale, in mm."""
        steps = (self.largest.exact - self.smallest.exact) // self.step.exact
        return tuple(float(self.smallest.exact + n * self.step.exact) for n in range(steps + 1))

    def marked(self, size_mm: float) -> str:
        """What is etched on a size: hundredths in three digits, or the last two of them."""
        hundredths = int((Decimal(repr(size_mm)) * 100).to_integral_value())
        match self.mark:
            case "three digits":
                return f"{hundredths:03d}"
            case "two digits":
                return f"{hundredths % 100:02d}"
            case _:
                return ""


class Aims(Row):
    """Where in its window the lash of each side is aimed."""

    intake: Length | None = Field(default=None, alias="in")
    exhaust: Length | None = Field(default=None, alias="ex")


class Materials(Row):
    """What the materials forbid beyond what layout and coating say."""

    deglaze: Literal["no", "soft brush", "hone"] = "no"
    sodium_exhaust: bool = False
    beryllium: bool = False
    note: str = ""


class Caution(Row):
    """A warning of the maker, at an operation or a measurand."""

    at: str
    words: str = Field(min_length=1)
