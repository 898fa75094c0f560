"""The first page of a book: the layout, from which every place, slot and route follows."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, field_validator, model_validator

from gudgeon import anatomy
from gudgeon.shelf.typed import Number, Typed, quantity, wrong


class SideTyped(Typed):
    """One side of the head as typed; the lever ratio may be given as two arms, "33.0 / 22.0"."""

    valves: int = Field(ge=1, le=3)
    follower: anatomy.Follower
    lash_read: Literal["valve", "cam"] = "valve"
    ratio: Number = quantity("1", "number")
    lift_cam: bool = True
    coated: bool = False
    screw_end: Literal["valve", "cam"] = "valve"

    @field_validator("ratio", mode="before")
    @classmethod
    def _from_arms(cls, given: object) -> object:
        if not isinstance(given, str) or "/" not in given:
            return given
        longer, _, shorter = given.partition("/")
        below = quantity(shorter.strip(), "number")
        if below.value <= 0:
            raise wrong("An arm of {given} is none.", "Give both arms in the same unit.", given=shorter.strip())
        return quantity(f"{quantity(longer.strip(), 'number').value / below.value:.6f}", "number")

    @field_validator("ratio", mode="after")
    @classmethod
    def _is_a_ratio(cls, ratio: Number) -> Number:
        if not 0.5 <= ratio.value <= 3.0:
            raise wrong("A lever ratio of {given} is none.", "It is valve lift by cam lift, usually 1 to 2.",
                        given=ratio.text)  # fmt: skip
        return ratio

    def side(self) -> anatomy.Side:
        """The side as the anatomy knows it."""
        return anatomy.Side(
            valves=self.valves,
            follower=self.follower,
            lash_read=self.lash_read,
            ratio=self.ratio.value,
            lift_cam=self.lift_cam,
            coated=self.coated,
            screw_end=self.screw_end,
        )


class LayoutTyped(Typed):
    """The layout as typed, its two sides as [layout.in] and [layout.ex]."""

    cylinders: int = Field(ge=1, le=8)
    arrangement: anatomy.Arrangement = "single"
    intake: SideTyped = Field(alias="in")
    exhaust: SideTyped = Field(alias="ex")
    cams: Literal["one", "two"] = "two"
    cam_drive: anatomy.CamDrive = "chain"
    holders: Literal["per cam", "per engine"] = "per cam"
    liquid: bool = True
    bore: Literal["iron", "plated"] = "iron"
    decompressor: tuple[str, ...] = ()
    rings: tuple[str, ...] = ("top", "second")

    @model_validator(mode="after")
    def _cylinders_stand_somehow(self) -> LayoutTyped:
        if (self.cylinders == 1) != (self.arrangement == "single"):
            raise wrong("{count} cylinders do not make a {arrangement}.", "One is single; more are inline or vee.",
                        count=self.cylinders, arrangement=self.arrangement)  # fmt: skip
        places = anatomy.expand(self.layout()).valves
        for place in self.decompressor:
            if place not in places:
                raise wrong("There is no valve {place} for the decompressor.", "Use one of: {known}.",
                            place=place, known=", ".join(places))  # fmt: skip
        return self

    def layout(self) -> anatomy.Layout:
        """The layout as the anatomy knows it."""
        return anatomy.Layout(
            cylinders=self.cylinders,
            arrangement=self.arrangement,
            intake=self.intake.side(),
            exhaust=self.exhaust.side(),
            cams=self.cams,
            cam_drive=self.cam_drive,
            holders=self.holders,
            liquid=self.liquid,
            bore=self.bore,
            decompressor=self.decompressor,
            rings=self.rings,
        )
