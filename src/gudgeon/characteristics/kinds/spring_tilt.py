"""A leaning spring pushes its valve sideways and wears the guide."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="spring_tilt",
    name="spring tilt",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="spring_tilt", statistic="largest"),),
    places=1,
    formula="largest gap at the top",
    example="0.5 mm",
)
