"""Many values at once that share a few causes of doubt: a thousand clearances measured with two gauges in one room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.metrology.given import finite, row
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from gudgeon.metrology.given import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Many:
    """What `Known` is for one value, for a row of them.

    `own` is the variance of each that it shares with none, `shared` one row of signed contributions for each label.

    Notes
    -----
    uᵢ² = ownᵢ + Σ cᵢₗ², Cov(i, j) = Σ cᵢₗcⱼₗ for i ≠ j. Source: GUM (JCGM 100:2008) 5.2.2 and F.1.2.3.

    Examples
    --------
    >>> guide = many([5.01, 5.02], u=0.001, shared={"bore gauge": 0.002})
    >>> stem = many([4.97, 4.97], u=0.001, shared={"micrometer": 0.002})
    >>> gap = guide.plus(stem, -1.0)
    >>> [round(float(u), 6) for u in gap.us], round(float(gap.covariance()[0, 1]), 9)
    ([0.003162, 0.003162], 8e-06)
    """

    values: Floats
    own: Floats
    labels: tuple[str, ...]
    shared: Floats

    def plus(self, other: Many, factor: float = 1.0) -> Many:
        """These values plus `factor` times others, one by one; equal labels are one cause."""
        import numpy as np

        finite("factor", factor)
        if len(self.values) != len(other.values):
            raise refuse(
                "other", "{n} values do not match {m}.", "Give as many.", n=len(other.values), m=len(self.values)
            )
        labels = self.labels + tuple(label for label in other.labels if label not in self.labels)
        shared = np.zeros((len(labels), len(self.values)))
        shared[: len(self.labels)] = self.shared
        for label, part in zip(other.labels, other.shared, strict=True):
            shared[labels.index(label)] += factor * part
        return Many(self.values + factor * other.values, self.own + factor * factor * other.own, labels, shared)

    @property
    def us(self) -> Floats:
        """Standard uncertainty of each."""
        import numpy as np

        us: Floats = np.sqrt(self.own + np.einsum("ij,ij->j", self.shared, self.shared))
        return us

    def covariance(self) -> Floats:
        """Covariance matrix of all."""
        import numpy as np

        matrix: Floats = self.shared.T @ self.shared
        matrix[np.diag_indices_from(matrix)] += self.own
        return matrix


def many(values: ArrayLike, u: ArrayLike = 0.0, shared: Mapping[str, ArrayLike] | None = None) -> Many:
    """A row of values, the standard uncertainty each has alone (one number or one each), and contributions by label.

    Source: GUM (JCGM 100:2008) F.1.2.3, correlation by common causes.

    Examples
    --------
    >>> many([1.0, 2.0], u=3.0, shared={"gauge": 4.0}).us.tolist()
    [5.0, 5.0]
    """
    import numpy as np

    array = row("values", values, least=1)
    own = _spread("u", u, len(array)) ** 2
    causes = shared or {}
    parts = np.array([_spread(label, part, len(array)) for label, part in causes.items()]).reshape(
        len(causes), len(array)
    )
    return Many(array, own, tuple(causes), parts)


def _spread(where: str, part: ArrayLike, n: int) -> Floats:
    import numpy as np

    array = np.asarray(part, dtype=np.float64)
    given = row(where, array.reshape(-1), least=1)
    if len(given) not in (1, n):
        raise refuse(where, "{given} numbers do not match {n} values.", "Give one, or one each.", given=len(given), n=n)
    full: Floats = np.broadcast_to(given, (n,)).astype(np.float64)
    return full
