"""What lies in the drawers: shims by size, parts left over from other jobs, what things cost here."""

from __future__ import annotations

from pydantic import Field

from gudgeon.shelf.typed import Length, Money, Time, Typed


class ShimStock(Typed):
    """Shims of one nominal size; `measured` is what the micrometer said where the mark is not to be trusted."""

    size: Length
    count: int = Field(default=1, ge=0)
    measured: Length | None = None
    diameter: Length | None = None
    where: str = ""

    @property
    def thickness_mm(self) -> float:
        """What it is worth in a plan: measured beats mark."""
        return (self.measured or self.size).value


class Leftover(Typed):
    """A part left over, new or used, by its number; `job` is the one that left it."""

    number: str = Field(min_length=1)
    name: str = ""
    count: int = Field(default=1, ge=0)
    state: str = "new"
    job: str = ""


class Price(Typed):
    """What a part or a job outside costs this workshop; it beats the book's price."""

    number: str = Field(min_length=1)
    price: Money


class Work(Typed):
    """What work costs: an operation done outside by its price, or a whole scope here by its usual hours."""

    of: str = Field(min_length=1)
    price: Money | None = None
    hours: Time | None = None
