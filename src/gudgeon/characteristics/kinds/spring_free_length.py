"""A short spring is tired, though only its load proves it."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="spring_free_length",
    name="spring free length",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="spring_free_length", statistic="smallest"),),
    places=2,
    formula="shortest place",
    example="42.82 mm",
)
