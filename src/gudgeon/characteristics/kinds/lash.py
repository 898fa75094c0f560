"""A tight valve burns, a loose one ticks: the window is judged by the book's own method."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="lash",
    name="lash",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="lash", statistic="mean"),),
    rule="setting",
    renewed_by=surfaces(),
    formula="as read, cold",
    example="0.12/0.13",
)
