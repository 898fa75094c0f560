"""The small sections from which a layout is picked, at intake and for a new book."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.figures.part import part_drawing
from gudgeon.figures.places import DrawingSpec
from gudgeon.workbench.starting import FOLLOWERS


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A kind of follower to pick, and its small section."""

    key: str
    name: str
    svg: str


def pictures() -> tuple[Picture, ...]:
    """Every kind of follower, drawn."""
    return tuple(
        Picture(
            key=f.key,
            name=f.name,
            svg=part_drawing("lash", DrawingSpec(title=f.name, train=f.train)),
        )
        for f in FOLLOWERS
    )
