"""A worn lobe lifts its valve less, and the engine breathes less."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="lobe_height",
    name="lobe height",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="lobe_height", statistic="smallest"),),
    formula="smallest of its lobes",
    example="35.206 mm",
)
