"""A seat out of true with its guide cannot seal."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="seat_runout",
    name="seat run-out",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="seat_runout", statistic="largest"),),
    renewed_by=surfaces(("seat", "face")),
    formula="full swing of the dial",
    example="0.02 mm",
)
