"""What pieces cost at the least when some come singly, some in kits and some lie here already.

Two pieces that are cheap alone may be dearer than a kit that holds both, so that no part can be priced by itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

Demand = tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """Pieces sold together: a single one, or a kit; `cost` is once for all of them."""

    number: str
    cost: int
    holds: tuple[tuple[str, int], ...]
    days: int | None = None


@dataclass(frozen=True, kw_only=True)
class Supply:
    """What can be bought and what lies here, for the numbers that are asked for, in their order."""

    numbers: tuple[str, ...]
    packs: tuple[Pack, ...]
    stock: Demand
    _known: dict[tuple[Demand, int], tuple[int, tuple[int, ...]] | None] = field(
        default_factory=dict, repr=False, compare=False
    )

    def cost(self, demand: Demand) -> int | None:
        """The least cost of a demand; nothing where no pack holds a piece that is missing."""
        found = self._best(demand)
        return None if found is None else found[0]

    def bought(self, demand: Demand) -> dict[str, int]:
        """How many of each pack that least cost buys."""
        found = self._best(demand)
        return {} if found is None else {p.number: n for p, n in zip(self.packs, found[1], strict=True) if n}

    def worths(self) -> tuple[Demand, ...]:
        """Prices that no pack undercuts, a few sets of them: what a demand costs at the least is never less than by these.

        λ ≥ 0 with Σ held·λ ≤ cost for every pack, by weak duality of the covering problem. Each set starts from what the
        pieces cost alone and takes what a kit saves off one of its pieces first.
        """
        alone = [min((p.cost for p, h in zip(self.packs, self._held, strict=True) if h[n]), default=0)
                 for n in range(len(self.numbers))]  # fmt: skip
        kits = [(p, h) for p, h in zip(self.packs, self._held, strict=True) if sum(h) > 1]
        if not kits:
            return (tuple(alone),)
        turns = range(len(self.numbers))
        orders = [[*turns[n:], *turns[:n]] for n in turns] + [[*turns[n::-1], *turns[:n:-1]] for n in turns]
        return tuple(dict.fromkeys(_under(kits, alone, order) for order in orders))

    def _best(self, demand: Demand) -> tuple[int, tuple[int, ...]] | None:
        return self._cover(tuple([max(0, d - s) for d, s in zip(demand, self.stock, strict=True)]), 0)

    def _cover(self, missing: Demand, at: int) -> tuple[int, tuple[int, ...]] | None:
        """Kits first, each as often as it may still help; what is left must come from the packs behind."""
        if not any(missing):
            return 0, (0,) * (len(self.packs) - at)
        if at == len(self.packs):
            return None
        if (missing, at) not in self._known:
            self._known[missing, at] = self._tried(missing, at)
        return self._known[missing, at]

    def _tried(self, missing: Demand, at: int) -> tuple[int, tuple[int, ...]] | None:
        pack, held = self.packs[at], self._held[at]
        most = max([-(-m // h) for m, h in zip(missing, held, strict=True) if h and m], default=0)
        alone = sum(held) == 1 and most  # kits come first: of a piece alone as many as are missing, or none
        found: tuple[int, tuple[int, ...]] | None = None
        for count in (0, most) if alone else range(most + 1):
            left = tuple([max(0, m - count * h) for m, h in zip(missing, held, strict=True)]) if count else missing
            rest = self._cover(left, at + 1)
            if rest is not None and (found is None or rest[0] + count * pack.cost < found[0]):
                found = rest[0] + count * pack.cost, (count, *rest[1])
        return found

    @cached_property
    def _held(self) -> tuple[Demand, ...]:
        return tuple(tuple(dict(p.holds).get(n, 0) for n in self.numbers) for p in self.packs)


def _under(kits: Sequence[tuple[Pack, Demand]], alone: Sequence[int], order: Sequence[int]) -> Demand:
    """Prices brought under every kit, in the order in which pieces give way."""
    worth = list(alone)
    for pack, held in kits:
        over = sum(h * w for h, w in zip(held, worth, strict=True)) - pack.cost
        for n in order:
            if over > 0 and held[n]:
                less = min(worth[n], -(-over // held[n]))
                worth[n] -= less
                over -= less * held[n]
    return tuple(worth)


def supply_of(packs: Sequence[Pack], stock: Mapping[str, int], numbers: Sequence[str]) -> Supply:
    """The supply of these numbers, kits before singles."""
    wanted = set(numbers)
    useful = [p for p in packs if wanted & {n for n, _c in p.holds}]
    ordered = sorted(useful, key=lambda p: (-sum(c for n, c in p.holds if n in wanted), p.cost, p.number))
    return Supply(numbers=tuple(numbers), packs=tuple(ordered), stock=tuple(stock.get(n, 0) for n in numbers))
