"""Fasteners: torque means nothing without thread, grade and the state of the thread and of what turns on it."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from pydantic import Field, field_validator

from gudgeon.shelf.typed import Angle, Row, Time, Torque, wrong

State = Literal["dry", "oil", "paste", "degreased", ""]
Renew = Literal["always", "once", "by length", "no"]


class FastenerRow(Row):
    """One kind of fastener: `joint` is a joint of the anatomy (``head``, ``holder``, …) or empty.

    `count`, `order` and `positions_mm` are those of one place: four bolts of each cam holder are 4.
    """

    name: str = Field(min_length=1)
    joint: str = ""
    place: str = ""
    thread: str = ""
    grade: str = ""
    count: int = Field(default=1, ge=1, le=200)
    torque: tuple[Torque, ...] = ()
    also_torque: tuple[Torque, ...] = ()
    angle: Angle | None = None
    thread_state: State = ""
    under_head: State = ""
    locker: str = ""
    cure: Time | None = None
    washer: str = ""
    washer_side: str = ""
    renew: Renew = "no"
    retighten: Literal["never", "after heat cycle", "at hours"] = "never"
    order: tuple[int, ...] = ()
    loosen: tuple[int, ...] = ()
    positions_mm: tuple[tuple[float, float], ...] = ()
    shouldered: bool = False
    hollow: bool = False
    page: str = ""
    note: str = ""

    @field_validator("torque", "also_torque")
    @classmethod
    def _rising(cls, stages: tuple[Torque, ...]) -> tuple[Torque, ...]:
        for before, after in pairwise(stages):
            if before.exact >= after.exact:
                raise wrong("The stages {before} and {after} do not rise.", "Lowest stage first.",
                            before=before.text, after=after.text)  # fmt: skip
        if stages and stages[0].number <= 0:
            raise wrong("{given} tightens nothing.", "Look at the page again.", given=stages[0].text)
        return stages

    @property
    def stages_nm(self) -> tuple[float, ...]:
        """The torque of every stage, in N·m."""
        return tuple(stage.value for stage in self.torque)

    @property
    def final_nm(self) -> float | None:
        """The torque of the last stage, in N·m; none where only an angle or a hand counts."""
        return self.torque[-1].value if self.torque else None

    @property
    def loosening(self) -> tuple[int, ...]:
        """The order of loosening: the book's, or tightening backwards (common practice, no source)."""
        return self.loosen or tuple(reversed(self.order))

    def holds(self, place: str, joint: str) -> bool:
        """Whether it is a fastener of this joint at this place."""
        return bool(self.joint) and self.joint == joint and self.place in ("", place)
