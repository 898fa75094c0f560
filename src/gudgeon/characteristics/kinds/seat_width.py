"""A wide seat leaks because it presses too little, a narrow one burns because it sheds no heat."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="seat_width",
    name="seat width",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="seat_width", statistic="largest"),),
    places=2,
    renewed_by=surfaces(("seat", "face")),
    formula="widest place",
    example="1.04 mm",
)
