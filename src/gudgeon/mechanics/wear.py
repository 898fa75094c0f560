"""How often and how fast things wear out, over several engines or one: to say when to look again, not to overrule a reading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log

from gudgeon.mechanics._given import not_negative, positive
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerLaw:
    """Repairs of one system as they come faster (shape over 1) or more slowly: M(t) = (t/scale)^shape."""

    shape: float
    scale: float


def mean_cumulative(histories: Mapping[str, tuple[Sequence[float], float]]) -> tuple[tuple[float, float], ...]:
    """Mean number of repairs a unit has had by a given age, from units seen for different times.

    M(t) = Σ d_j/n_j over the repair ages t_j ≤ t, d_j repairs, n_j units seen at least until t_j

    Parameters
    ----------
    histories : unit -> (ages at its repairs, age at which watching it ended)

    Notes
    -----
    A unit that ends at t_j still counts. No distribution is assumed. Valid where the end does not depend on the repairs.

    Source
    ------
    Nelson, Graphical analysis of system repair data, J. Quality Technology 20 (1988) 24 (from memory).

    Examples
    --------
    >>> mean_cumulative({"a": ((10.0,), 20.0), "b": ((), 15.0)})
    ((10.0, 0.5),)
    """
    ends = [positive(f"{unit} end", end) for unit, (_, end) in histories.items()]
    counts: dict[float, int] = {}
    for unit, (ages, end) in histories.items():
        for age in ages:
            if not_negative(f"{unit} age", age) > end:
                raise refuse(
                    f"{unit} age", "{age} comes after the end, {end}.", "Give the end of watching.", age=age, end=end
                )
            counts[age] = counts.get(age, 0) + 1
    mean, steps = 0.0, []
    for age in sorted(counts):
        mean += counts[age] / sum(end >= age for end in ends)
        steps.append((age, mean))
    return tuple(steps)


def power_law(ages: Sequence[float], end: float | None = None) -> PowerLaw:
    """Power law of one system's repairs, by greatest likelihood.

    β = n/Σ ln(T/t_i), η = T/n^(1/β); T the end of watching, or the last repair (whose own term is zero)

    Parameters
    ----------
    ages : t_i, age at each repair
    end : T where watching ended at a time; None where it ended with the last repair

    Notes
    -----
    At least two repairs, all after zero, at least one before T. Both cases give different answers on the same data.

    Source
    ------
    Crow, Reliability analysis for complex repairable systems (1974); Rigdon and Basu (2000) (both from memory).

    Examples
    --------
    >>> fit = power_law([1.0, 2.0, 4.0], end=8.0)
    >>> round(fit.shape, 4), round(fit.scale, 4)
    (0.7213, 1.7445)
    """
    times = sorted(positive("age", age) for age in ages)
    if len(times) < 2 or times[0] == times[-1]:
        raise refuse("ages", "{n} different repairs are too few.", "Give at least two.", n=len(set(times)))
    last = times[-1] if end is None else positive("end", end)
    if last < times[-1]:
        raise refuse("end", "{end} is before the last repair, {last}.", "Give a later end.", end=last, last=times[-1])
    shape = len(times) / sum(log(last / age) for age in times)
    return PowerLaw(shape=shape, scale=float(last / len(times) ** (1 / shape)))
