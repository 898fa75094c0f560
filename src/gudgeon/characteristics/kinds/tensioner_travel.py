"""What the plunger has left is what the chain may still grow."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="tensioner_travel",
    name="tensioner travel",
    dimension="length",
    unit="mm",
    where=lambda a: ("engine",) if a.has("engine/chain") else (),
    wants=(Wants(measurand="tensioner_travel", statistic="mean"),),
    places=1,
    renewed_by=surfaces(),
    formula="as read",
    example="6.2 mm",
)
