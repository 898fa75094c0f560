"""A seat out of true with its guide cannot seal."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="seat_runout",
    name="seat run-out",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="seat_runout", statistic="largest"),),
    formula="full swing of the dial",
    example="0.02 mm",
)
