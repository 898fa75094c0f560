"""One place that refuses what is not a usable number, so that no formula here ever returns a silent NaN."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from gudgeon.problem import refuse

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]


def finite(where: str, value: float) -> float:
    """`value` as a float, or a refusal that names the argument `where`."""
    try:
        number = float(value)
    except (TypeError, ValueError, OverflowError):
        raise refuse(where, "{given} is not a number.", "Give a number.", given=repr(value)) from None
    if not math.isfinite(number):
        raise refuse(where, "{given} is not a finite number.", "Give a finite number.", given=str(value))
    return number


def at_least(where: str, value: float, least: float = 0.0) -> float:
    """A finite number that is not below `least`."""
    number = finite(where, value)
    if number < least:
        raise refuse(where, "{given} is too small.", "Give {least} or more.", given=number, least=least)
    return number


def above(where: str, value: float, bound: float = 0.0) -> float:
    """A finite number that is greater than `bound`."""
    number = finite(where, value)
    if number <= bound:
        raise refuse(where, "{given} is too small.", "Give more than {bound}.", given=number, bound=bound)
    return number


def share(where: str, value: float) -> float:
    """A probability strictly between 0 and 1."""
    number = finite(where, value)
    if not 0.0 < number < 1.0:
        raise refuse(where, "{given} is not between 0 and 1.", "Give a share such as 0.05.", given=number)
    return number


def risk_share(where: str, value: float) -> float:
    """A risk one may run on purpose: more than 0 and at most one half."""
    number = share(where, value)
    if number > 0.5:
        raise refuse(where, "{given} is more than one half.", "Give a risk such as 0.05.", given=number)
    return number


def freedom(where: str, value: float) -> float:
    """Degrees of freedom: positive, and infinity is allowed (exactly known)."""
    if value == math.inf:
        return math.inf
    return above(where, value)


def limits(lower: float | None, upper: float | None) -> tuple[float, float]:
    """Limits with −inf and +inf for an open side; at least one side is given and they are in order."""
    if lower is None and upper is None:
        raise refuse("lower, upper", "No limit is given.", "Give lower, upper or both.")
    low = -math.inf if lower is None else finite("lower", lower)
    high = math.inf if upper is None else finite("upper", upper)
    if low >= high:
        raise refuse("lower", "{low} is not below {high}.", "Give lower below upper.", low=low, high=high)
    return low, high


def table(where: str, values: ArrayLike, columns: int, least: int) -> Floats:
    """A float array of at least `least` rows and exactly `columns` columns, all finite."""
    import numpy as np

    try:
        array: np.ndarray[Any, np.dtype[np.float64]] = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise refuse(where, "Not a table of numbers.", "Give rows of {n} numbers.", n=columns) from None
    if array.ndim != 2 or array.shape[1] != columns:
        shape = "x".join(str(n) for n in array.shape) or "single number"
        raise refuse(where, "The shape is {shape}.", "Give rows of {n} numbers.", shape=shape, n=columns)
    if len(array) < least:
        raise refuse(where, "{n} points are too few.", "Give {least} or more.", n=len(array), least=least)
    if not np.isfinite(array).all():
        row = int(np.flatnonzero(~np.isfinite(array).all(axis=1))[0]) + 1
        raise refuse(where, "Row {row} holds a value that is not finite.", "Give finite numbers.", row=row)
    return array


def row(where: str, values: ArrayLike, least: int) -> Floats:
    """A one-dimensional float array of at least `least` finite values."""
    import numpy as np

    try:
        array = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise refuse(where, "Not a list of numbers.", "Give a list of numbers.") from None
    if array.ndim != 1:
        raise refuse(where, "Not a plain list of numbers.", "Give one number after another.")
    return table(where, array.reshape(-1, 1), 1, least)[:, 0]
