"""Parts: number, where they belong, when they must be new, and what they are mistaken for."""

from __future__ import annotations

import re
from typing import Literal, assert_never

from pydantic import Field

from gudgeon.shelf.typed import Length, Money, Row


class PartRow(Row):
    """One part number; `slots` may hold a star for every place alike: ``c*.in.*/valve``.

    `count` pieces are used at once. A ring set fills the slots of a whole cylinder, a block those of the engine.
    """

    number: str = Field(min_length=1)
    name: str = Field(min_length=1)
    slots: tuple[str, ...] = ()
    consumable: bool = False
    price: Money | None = None
    renew: Literal["always", "once", "wear"] = "wear"
    kit: str = ""
    look_alike: str = ""
    mark: str = ""
    engine_numbers: str = ""
    delivery: str = ""
    thickness: Length | None = None
    count: int = Field(default=1, ge=1)
    fills: Literal["slot", "cylinder", "engine"] = "slot"
    note: str = ""

    def groups(self) -> tuple[tuple[str, ...], ...]:
        """The slots that one piece fills, for each piece the engine holds."""
        match self.fills:
            case "slot":
                return tuple((slot,) for slot in self.slots)
            case "engine":
                return (self.slots,) if self.slots else ()
            case "cylinder":
                cylinders = dict.fromkeys(re.split(r"[./]", slot)[0] for slot in self.slots)
                return tuple(tuple(s for s in self.slots if re.split(r"[./]", s)[0] == c) for c in cylinders)
            case _:
                assert_never(self.fills)
