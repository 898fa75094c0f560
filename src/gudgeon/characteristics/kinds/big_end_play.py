"""A bad bottom end eats a good top end, so its play is felt before money is spent above it."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="big_end_play",
    name="big end up-and-down play",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="big_end_play", statistic="largest"),),
    rule="guard",
    places=2,
    formula="as read",
    example="0.01 mm",
)
