"""The shape of a paper: one file in ``kinds/`` with these names."""

from __future__ import annotations

from typing import Protocol, TypeVar

from gudgeon.papers.blocks import Block

View = TypeVar("View", contravariant=True)


class Paper(Protocol[View]):
    """A kind of paper: its key, its name on the sheet, whom it is for, and its blocks from what the job shows."""

    KEY: str
    NAME: str
    FOR: str

    def blocks(self, view: View) -> tuple[Block, ...]:
        """The paper's blocks, its title block among them."""
        ...
