"""A gauge as a cause of doubt: what it gets wrong every time is one label, what it gets wrong each time is another."""

from __future__ import annotations

import math
from dataclasses import dataclass

from gudgeon.metrology.budget import certificate, rectangular, resolution
from gudgeon.metrology.given import at_least, freedom
from gudgeon.metrology.known import Known
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """One gauge, in the unit of its readings.

    Parameters
    ----------
    label : str
        Names this very gauge; two readings with it share its bias.
    source : str
        Where the numbers are from: a certificate, a maker's sheet, a study on this bench.
    permissible_error : float, optional
        Half-width of the maximum permissible error, taken as rectangular.
    expanded, k : float, optional
        U and k of a certificate, instead of a permissible error.
    step : float
        Resolution.
    repeatability, repeatability_nu : float
        Standard deviation of single readings and its degrees of freedom.
    master_u, master : float, str
        Standard uncertainty and label of the setting master of a gauge that shows a deviation.

    Notes
    -----
    Common part: a/√3 or U/k, and the master under the master's own label (two gauges set on one ring share it). Part of each
    reading: √((d/√12)² + s²). Source: GUM (JCGM 100:2008) 4.3.3, 4.3.7, F.1.2.3, F.2.2.1. That resolution and repeatability
    are both counted is on the safe side: common practice, no source.
    """

    label: str
    source: str
    permissible_error: float | None = None
    expanded: float | None = None
    k: float = 2.0
    step: float = 0.0
    repeatability: float = 0.0
    repeatability_nu: float = math.inf
    master: str = ""
    master_u: float = 0.0

    def __post_init__(self) -> None:
        if (self.permissible_error is None) == (self.expanded is None):
            raise refuse(
                self.label or "instrument",
                "Exactly one of permissible error and certificate is needed.",
                "Give permissible_error, or expanded with its k.",
            )
        for name in ("step", "repeatability", "master_u"):
            at_least(name, getattr(self, name))
        freedom("repeatability_nu", self.repeatability_nu)
        _ = self.u_bias

    @property
    def u_bias(self) -> float:
        """Standard uncertainty of what this gauge gets wrong every time, without its master."""
        if self.permissible_error is not None:
            return rectangular(self.permissible_error)
        return certificate(self.expanded or 0.0, self.k)

    @property
    def u_reading(self) -> float:
        """Standard uncertainty of what it gets wrong anew at each reading."""
        return math.hypot(resolution(self.step), self.repeatability)

    @property
    def u(self) -> float:
        """Standard uncertainty of a single reading, everything together."""
        return math.hypot(self.u_bias, self.u_reading, self.master_u)

    def reading(self, value: float, mark: str) -> Known:
        """One reading with its labelled parts; `mark` tells it from every other reading of the gauge.

        Examples
        --------
        >>> dial = Instrument(label="bore gauge 2", source="certificate 118", expanded=0.003, step=0.001, repeatability=0.001)
        >>> top, middle = dial.reading(88.021, "top x"), dial.reading(88.012, "middle x")
        >>> round(top.u, 6), round(top.plus(middle, -1.0).u, 6)
        (0.001826, 0.001472)
        """
        each = Known(value=value).with_part(f"{self.label}, reading {mark}", self.u_reading, self._reading_nu)
        common = each.with_part(f"{self.label}, error", self.u_bias)
        return common.with_part(self.master or f"{self.label}, master", self.master_u) if self.master_u else common

    @property
    def _reading_nu(self) -> float:
        if self.repeatability == 0.0 or math.isinf(self.repeatability_nu):
            return math.inf
        return self.repeatability_nu * (self.u_reading / self.repeatability) ** 4
