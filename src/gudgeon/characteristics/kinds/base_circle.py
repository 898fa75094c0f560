"""Lash is read on the base circle: worn uneven, no shim is right all the way round."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="base_circle",
    name="base circle",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="base_circle", statistic="smallest"),),
    formula="smallest across the back",
    example="28.98 mm",
)
