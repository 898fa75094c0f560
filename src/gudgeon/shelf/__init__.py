"""What the workshop owns and how it decides: gauges, wrenches, shims, leftover parts, prices and rules."""

from gudgeon.shelf.defaults import EYE, USUAL_GAUGES
from gudgeon.shelf.gauges import GAUGE_KINDS, GaugeCard
from gudgeon.shelf.parse import Shelf, parse_shelf, usual_shelf
from gudgeon.shelf.rules import Rules
from gudgeon.shelf.stock import Leftover, ShimStock
from gudgeon.shelf.wrenches import Wrench

__all__ = [
    "EYE",
    "GAUGE_KINDS",
    "USUAL_GAUGES",
    "GaugeCard",
    "Leftover",
    "Rules",
    "Shelf",
    "ShimStock",
    "Wrench",
    "parse_shelf",
    "usual_shelf",
]
