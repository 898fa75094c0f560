"""A long chain retards its cams and uses up its tensioner."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="chain_length",
    name="cam chain length",
    dimension="length",
    unit="mm",
    where=lambda a: ("engine",) if a.has("engine/chain") else (),
    wants=(Wants(measurand="chain_length", statistic="largest"),),
    places=2,
    formula="longest of several places",
    example="101.30 mm",
)
