"""A wobble limit is compared with a wobble reading and nothing else."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="wobble",
    name="stem wobble",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="wobble", statistic="largest"),),
    formula="full side-to-side reading",
    example="0.146 mm",
)
