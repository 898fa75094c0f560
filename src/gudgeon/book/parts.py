"""Parts: number, where they belong, when they must be new, and what they are mistaken for."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from gudgeon.shelf.typed import Length, Money, Row


class PartRow(Row):
    """One part number; `slots` may hold a star for every place alike: ``c*.in.*/valve``.

    `count` pieces are used at once; a `set` fills all its slots with one number.
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
    whole_set: bool = Field(default=False, alias="set")
    note: str = ""
