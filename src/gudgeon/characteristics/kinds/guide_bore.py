"""Wear opens the guide at its ends first, so the largest of its places counts."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="guide_bore",
    name="guide bore",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="guide_bore", statistic="largest"),),
    formula="largest of six places",
    example="5.021 mm",
)
