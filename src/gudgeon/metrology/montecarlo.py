"""Propagation by drawing, for what no formula reaches: seeded, as long as the answer needs, in little memory."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gudgeon.metrology.given import above, at_least, finite, freedom, share
from gudgeon.problem import refuse

if TYPE_CHECKING:
    import numpy as np

    from gudgeon.metrology.given import Floats

Shape = Literal["normal", "rectangular", "triangular", "arcsine"]

BLOCK = 10_000
MOST_TRIALS = 1_000_000
"""8 MB of results: what the shortest interval needs to see at once. A fixed number may be twice as many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input quantity: its value, and how it may differ from it.

    `width` is the standard uncertainty of a normal shape (with `nu` degrees of freedom: of Student's t, scaled), the half-width of the
    others. `blur` makes a rectangle's ends themselves uncertain by ± `blur` (curvilinear trapezoid).
    """

    value: float
    width: float
    shape: Shape = "normal"
    nu: float = math.inf
    blur: float = 0.0

    def __post_init__(self) -> None:
        finite("value", self.value)
        at_least("width", self.width)
        freedom("nu", self.nu)
        if not 0.0 <= finite("blur", self.blur) <= self.width:
            raise refuse(
                "blur", "{given} is outside 0 to the half-width.", "Give less than the width.", given=self.blur
            )

    def draw(self, rng: np.random.Generator, n: int) -> Floats:
        """`n` values. Source: JCGM 101:2008, 6.4 and table 1."""
        import numpy as np

        match self.shape:
            case "normal":
                drawn = rng.standard_normal(n) if math.isinf(self.nu) else rng.standard_t(self.nu, n)
                drawn *= self.width
            case "rectangular":
                half = self.width if self.blur == 0.0 else self.width + self.blur * (2.0 * rng.random(n) - 1.0)
                drawn = (2.0 * rng.random(n) - 1.0) * half
            case "triangular":
                drawn = (rng.random(n) - rng.random(n)) * self.width
            case "arcsine":
                drawn = np.sin(2.0 * math.pi * rng.random(n)) * self.width
        drawn += self.value
        return drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What the draws say: mean, standard uncertainty, the interval with equal tails and the shortest one.

    `settled` says whether all four numbers stood still to the digits that were asked for.
    """

    mean: float
    u: float
    interval: tuple[float, float]
    shortest: tuple[float, float]
    trials: int
    settled: bool


def monte_carlo(
    model: Callable[..., Floats],
    inputs: Sequence[Input],
    *,
    seed: int,
    p: float = 0.95,
    digits: int = 2,
    trials: int | None = None,
) -> Outcome:
    """Distribution of a model of independent inputs.

    Parameters
    ----------
    model : callable
        Takes one array for each input, returns an array.
    inputs : sequence of Input
    seed : int
        The same seed gives the same answer to the last digit.
    p : float
        Coverage probability.
    digits : int
        Significant digits of u that have to stand still.
    trials : int, optional
        A fixed number of trials, instead of stopping by itself.

    Notes
    -----
    Blocks of 10⁴ trials (or 100/(1 - p), if more), until twice the standard deviation of the block averages of mean, u and both end points
    is within half a unit of the last asked digit of u. At most 10⁶ trials. Source: JCGM 101:2008, 7.7, 7.9 and 5.3.4.

    Examples
    --------
    >>> four = [Input(value=0.0, width=1.0)] * 4
    >>> out = monte_carlo(lambda a, b, c, d: a + b + c + d, four, seed=1)
    >>> round(out.u, 1), out.settled
    (2.0, True)
    """
    import numpy as np

    if not inputs:
        raise refuse("inputs", "There is no input.", "Give one input or more.")
    share("p", p)
    size = max(BLOCK, math.ceil(100.0 / (1.0 - p)))
    most = _most(trials, size)
    rng = np.random.default_rng(seed)
    results = np.empty(most)
    watch, done, settled = _Watch(p, size, digits), 0, False
    while done < most and not settled:
        n = min(size, most - done)
        block = _evaluated(model, [each.draw(rng, n) for each in inputs], n)
        results[done : done + n] = block
        done += n
        if trials is None:
            settled = n == size and watch.stands_still(block)
    return _outcome(results[:done], p, settled or trials is not None)


def _most(trials: int | None, size: int) -> int:
    if trials is None:
        return max(MOST_TRIALS, 2 * size)
    if not size // 100 <= trials <= 2 * MOST_TRIALS:
        raise refuse(
            "trials",
            "{given} is not allowed.",
            "Give {low} to {high}.",
            given=trials,
            low=size // 100,
            high=2 * MOST_TRIALS,
        )
    return int(trials)


def _evaluated(model: Callable[..., Floats], drawn: list[Floats], n: int) -> Floats:
    import numpy as np

    result = np.asarray(model(*drawn), dtype=np.float64)
    if result.shape != (n,):
        raise refuse("model", "It does not return one number a draw.", "Give a model of arrays.")
    if not np.isfinite(result).all():
        bad = int(n - np.isfinite(result).sum())
        raise refuse("model", "{bad} of {n} draws give no finite number.", "Narrow the inputs.", bad=bad, n=n)
    return result


class _Watch:
    """Running means and squares of mean, u and end points over the blocks: nothing is looked at twice."""

    def __init__(self, p: float, size: int, digits: int) -> None:
        self.inside = int(p * size + 0.5)
        self.low = (size - self.inside) // 2
        self.digits = above("digits", digits)
        self.fence = (math.inf, -math.inf)
        self.blocks = 0
        self.means = [0.0] * 4
        self.squares = [0.0] * 4

    def stands_still(self, block: Floats) -> bool:
        """Twice each standard error is within half a unit of the last digit of u (JCGM 101:2008, 7.9.2 and 7.9.4)."""
        self.blocks = h = self.blocks + 1
        mean = float(block.mean())
        rest = block - mean
        u = math.sqrt(float(rest @ rest) / (len(block) - 1))
        for k, value in enumerate((mean, u, *self._ends(block))):
            step = value - self.means[k]
            self.means[k] += step / h
            self.squares[k] += step * (value - self.means[k])
        if h < 2 or self.means[1] == 0.0:
            return h >= 2
        tolerance = 0.5 * math.pow(10.0, math.floor(math.log10(self.means[1])) - self.digits + 1)
        return max(self.squares) <= 0.25 * tolerance**2 * h * (h - 1)

    def _ends(self, block: Floats) -> tuple[float, float]:
        """Both end points of one block; only what lies beyond a fence, put up with the first block, is sorted."""
        import numpy as np

        left, right = block[block < self.fence[0]], block[block > self.fence[1]]
        from_top = len(block) - self.low - self.inside
        if len(left) <= self.low or len(right) < from_top or self.blocks == 1:
            left = right = np.sort(block)
            self.fence = float(left[2 * self.low + 1]), float(left[-2 * from_top - 1])
            return float(left[self.low]), float(right[-from_top])
        return float(np.sort(left)[self.low]), float(np.sort(right)[-from_top])


def _outcome(results: Floats, p: float, settled: bool) -> Outcome:
    n = len(results)
    mean = float(results.mean())
    inside = min(int(p * n + 0.5), n - 1)
    low, high = _tails(results, n - inside)
    widths = high - low
    narrow = int(widths.argmin())
    equal = (n - inside) // 2
    results -= mean
    u = math.sqrt(float(results @ results) / (n - 1))
    return Outcome(
        mean=mean,
        u=u,
        interval=(float(low[equal]), float(high[equal])),
        shortest=(float(low[narrow]), float(high[narrow])),
        trials=n,
        settled=settled,
    )


def _tails(results: Floats, count: int) -> tuple[Floats, Floats]:
    """The `count` smallest and the `count` largest results in order, found without sorting what lies between."""
    import numpy as np

    sample = np.sort(results[:BLOCK])
    part = count / len(results)
    place = min(len(sample) - 1, int(len(sample) * (part + 4.0 * math.sqrt(part / len(sample)))) + 1)
    low, high = np.sort(results[results <= sample[place]]), np.sort(results[results >= sample[-1 - place]])
    if len(low) < count or len(high) < count:
        ordered = np.sort(results)
        return ordered[:count], ordered[-count:]
    return low[:count], high[len(high) - count :]
