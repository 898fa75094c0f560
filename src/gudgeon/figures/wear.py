"""Wear against hours: every part's readings, the line through this one's, where its next readings may lie, and when to look."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.figures.chart import ChartSpec, Series, chart
from gudgeon.figures.svg import Point, figure


@dataclass(frozen=True, slots=True, kw_only=True)
class WearSpec:
    """Readings of the part that is in it, with the reach of each; of the others; line and edges to the hours it is due."""

    title: str
    unit: str
    places: int
    now: tuple[Point, ...]
    reach: tuple[float, ...]
    others: tuple[tuple[Point, ...], ...]
    line: tuple[Point, ...]
    edge: tuple[Point, ...]
    low: float | None
    high: float | None
    due: float
    names: tuple[str, str, str, str] = ("this part", "other parts", "may be read", "as it wears")


def wear(spec: WearSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing as SVG text; what is told apart by form alone reads in black and white."""
    this, before, may, wears = spec.names
    rows = [Series(name=this, points=spec.now, joined=False, whiskers=spec.reach)]
    rows += [Series(name=before, points=points, mark="hollow") for points in spec.others]
    rows += [Series(name=wears, points=spec.line, mark="none")] if spec.line else []
    rows += [Series(name=may, points=spec.edge, mark="dotted")] if spec.edge else []
    return chart(ChartSpec(title=spec.title, across="h", up=spec.unit, series=tuple(rows), low=spec.low, high=spec.high,
                           places=spec.places, stop=(spec.due, f"{figure(spec.due, 0)} h")), translate)  # fmt: skip
