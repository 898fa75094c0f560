"""A follower shaft wears on its load side, so the smallest diameter counts."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="shaft_diameter",
    name="follower shaft diameter",
    dimension="length",
    unit="mm",
    where=lambda a: tuple(c for c in a.cams if a.has(f"{c}/follower shaft")),
    wants=(Wants(measurand="shaft_diameter", statistic="smallest"),),
    formula="smallest place",
    example="9.975 mm",
)
