"""Is the gauge good enough for the parts? Ten parts, three people, three trials: average and range first, variances beside it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from gudgeon.metrology.extremes import spread_between
from gudgeon.metrology.given import finite
from gudgeon.metrology.known import known
from gudgeon.problem import refuse

Reading = tuple[str, str, str, float]
POOL_ABOVE = 0.25
"""The interaction is pooled with the repeatability if its significance is above this (AIAG MSA 4th ed., from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """A full table: `values[part][appraiser]` are the trials."""

    parts: tuple[str, ...]
    appraisers: tuple[str, ...]
    trials: int
    values: tuple[tuple[tuple[float, ...], ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreads:
    """Standard deviations, in the unit of the readings: what the gauge (ev), the people (av), both (grr), the parts (pv) and all (tv) do.

    `ndc` is the number of classes of parts that can be told apart, truncated; `out_of_control` the (part, appraiser) cells whose range
    is too large.
    """

    ev: float
    av: float
    grr: float
    pv: float
    tv: float
    ndc: int
    out_of_control: tuple[tuple[str, str], ...] = ()

    @property
    def percent(self) -> tuple[float, float, float, float]:
        """ev, av, grr and pv in per cent of tv."""
        whole = self.tv / 100.0 or math.inf
        return self.ev / whole, self.av / whole, self.grr / whole, self.pv / whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Variances:
    """The table of the analysis of variance, and the spreads that follow.

    Sums of squares, degrees of freedom and mean squares are in the order part, appraiser, interaction, equipment; `f` are the first
    three over the equipment. `ev_limits` are 90 % limits of ev.
    """

    squares: tuple[float, float, float, float]
    freedoms: tuple[int, int, int, int]
    means: tuple[float, float, float, float]
    f: tuple[float, float, float]
    interaction_p: float
    pooled: bool
    spreads: Spreads
    ev_limits: tuple[float, float]


def study(readings: Sequence[Reading]) -> Study:
    """A balanced study from rows of part, appraiser, trial, value; refuses gaps and repeats, naming the first.

    Source: the layout of AIAG Measurement Systems Analysis, 4th ed., chapter III section B.

    Examples
    --------
    >>> study([(p, a, t, 1.0) for p in "12" for a in "AB" for t in "123"]).trials
    3
    """
    cells: dict[tuple[str, str], dict[str, float]] = {}
    for number, (part, appraiser, trial, value) in enumerate(readings, 1):
        cell = cells.setdefault((str(part), str(appraiser)), {})
        if str(trial) in cell:
            where = f"row {number}"
            raise refuse(
                where, "Trial {t} of part {p} is there twice.", "Give each trial once.", t=str(trial), p=str(part)
            )
        cell[str(trial)] = finite(f"row {number}", value)
    parts, appraisers = tuple(dict.fromkeys(p for p, _ in cells)), tuple(dict.fromkeys(a for _, a in cells))
    trials = max((len(cell) for cell in cells.values()), default=0)
    if len(parts) < 2 or len(appraisers) < 2 or trials < 2:
        what = "{p} parts, {a} appraisers, {t} trials are too few."
        raise refuse("readings", what, "Give two of each or more.", p=len(parts), a=len(appraisers), t=trials)
    for part in parts:
        for appraiser in appraisers:
            n = len(cells.get((part, appraiser), {}))
            if n != trials:
                what = "Part {p}, appraiser {a} has {n} trials, others have {t}."
                raise refuse("readings", what, "Give as many everywhere.", p=part, a=appraiser, n=n, t=trials)
    values = tuple(tuple(tuple(cells[part, who].values()) for who in appraisers) for part in parts)
    return Study(parts=parts, appraisers=appraisers, trials=trials, values=values)


def average_and_range(given: Study) -> Spreads:
    """Repeatability and reproducibility by averages and ranges.

    Notes
    -----
    EV = R̄K₁, AV = √((X̄_diff K₂)² - EV²/(nr)), GRR = √(EV² + AV²), PV = R_p K₃, TV = √(GRR² + PV²), ndc = 1.41 PV/GRR truncated;
    K₁ = 1/d₂, K₂ and K₃ = 1/d₂* for one range, to the four digits that the manual prints. Ranges above (1 + 3 d₃/d₂)·R̄ are out of
    control. Source: AIAG Measurement Systems Analysis, 4th ed., chapter III section B (worked example read in several public files).

    Examples
    --------
    >>> rows = [(p, a, t, v + w) for p, v in (("1", 1.0), ("2", 2.0)) for a, w in (("A", 0.0), ("B", 0.1)) for t in "12"]
    >>> round(average_and_range(study(rows)).av, 5)
    0.07071
    """
    k, r, n = len(given.appraisers), given.trials, len(given.parts)
    ranges = [[max(cell) - min(cell) for cell in row] for row in given.values]
    mean_range = math.fsum(math.fsum(row) for row in ranges) / (n * k)
    by_person = [_mean([x for row in given.values for x in row[j]]) for j in range(k)]
    by_part = [_mean([x for cell in row for x in cell]) for row in given.values]
    ev = mean_range * round(1.0 / _range_moments(r)[0], 4)
    spread = (max(by_person) - min(by_person)) * _k_one_range(k)
    av = math.sqrt(max(0.0, spread**2 - ev**2 / (n * r)))
    pv = (max(by_part) - min(by_part)) * _k_one_range(n)
    d2, d3 = _range_moments(r)
    limit = (1.0 + 3.0 * d3 / d2) * mean_range
    out = tuple(
        (given.parts[i], given.appraisers[j])
        for i, row in enumerate(ranges)
        for j, one in enumerate(row)
        if one > limit
    )
    return _spreads(ev, av, pv, out)


def analysis_of_variance(given: Study) -> Variances:
    """The same study by a two-way analysis of variance with interaction.

    Notes
    -----
    Crossed random effects; the interaction is pooled with the equipment if its significance is above 0.25. Negative variances count as
    zero. The F ratios are over the equipment, as the manual prints them. Source: AIAG Measurement Systems Analysis, 4th ed., appendix A
    (results read in public files); limits of EV by chi-square.

    Examples
    --------
    >>> rows = [(p, a, t, v + (0.1 if t == "1" else 0)) for p, v in (("1", 1.0), ("2", 2.0)) for a in "AB" for t in "12"]
    >>> round(analysis_of_variance(study(rows)).spreads.ev, 5)
    0.06325
    """
    from scipy.special import chdtri, fdtrc

    k, r, n = len(given.appraisers), given.trials, len(given.parts)
    squares = _squares(given)
    freedoms = (n - 1, k - 1, (n - 1) * (k - 1), n * k * (r - 1))
    means = tuple(square / free for square, free in zip(squares, freedoms, strict=True))
    part, person, cross, equipment = means
    f = tuple(each / equipment if equipment else math.inf for each in (part, person, cross))
    significance = float(fdtrc(freedoms[2], freedoms[3], f[2])) if equipment else 0.0
    pooled = significance > POOL_ABOVE
    if pooled:
        freedom = freedoms[2] + freedoms[3]
        repeat, between, base = (squares[2] + squares[3]) / freedom, 0.0, (squares[2] + squares[3]) / freedom
    else:
        freedom = freedoms[3]
        repeat, between, base = equipment, max(0.0, (cross - equipment) / r), cross
    av = math.sqrt(max(0.0, (person - base) / (n * r)) + between)
    pv = math.sqrt(max(0.0, (part - base) / (k * r)))
    ends = tuple(math.sqrt(freedom * repeat / float(chdtri(freedom, p))) for p in (0.05, 0.95))
    return Variances(
        squares=squares,
        freedoms=freedoms,
        means=(part, person, cross, equipment),
        f=(f[0], f[1], f[2]),
        interaction_p=significance,
        pooled=pooled,
        spreads=_spreads(math.sqrt(repeat), av, pv),
        ev_limits=(ends[0], ends[1]),
    )


def _spreads(ev: float, av: float, pv: float, out: tuple[tuple[str, str], ...] = ()) -> Spreads:
    grr = math.hypot(ev, av)
    ndc = int(1.41 * pv / grr) if grr > 0.0 else 0
    return Spreads(ev=ev, av=av, grr=grr, pv=pv, tv=math.hypot(grr, pv), ndc=ndc, out_of_control=out)


def _squares(given: Study) -> tuple[float, float, float, float]:
    k, r, n = len(given.appraisers), given.trials, len(given.parts)
    every = [x for row in given.values for cell in row for x in cell]
    middle = _mean(every)
    parts = [_mean([x for cell in row for x in cell]) - middle for row in given.values]
    people = [_mean([x for row in given.values for x in row[j]]) - middle for j in range(k)]
    cells = [[_mean(list(cell)) - middle for cell in row] for row in given.values]
    part = k * r * math.fsum(x * x for x in parts)
    person = n * r * math.fsum(x * x for x in people)
    cross = r * math.fsum((cells[i][j] - parts[i] - people[j]) ** 2 for i in range(n) for j in range(k))
    left = math.fsum(
        (x - middle - cells[i][j]) ** 2
        for i, row in enumerate(given.values)
        for j, cell in enumerate(row)
        for x in cell
    )
    return part, person, cross, left


def _mean(values: list[float]) -> float:
    return math.fsum(values) / len(values)


@cache
def _range_moments(n: int) -> tuple[float, float]:
    """d₂ and d₃: mean and standard deviation of the range of `n` standard normal values."""
    law = spread_between([known(0.0, str(each), 1.0) for each in range(n)], "range")
    return law.value, law.u


def _k_one_range(n: int) -> float:
    """1/d₂* for a single range, d₂*² = d₂² + d₃² (A. J. Duncan's constants, from memory; AIAG prints them to four digits)."""
    return round(1.0 / math.hypot(*_range_moments(n)), 4)
