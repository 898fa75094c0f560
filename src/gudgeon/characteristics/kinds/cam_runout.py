"""A bent cam moves lash from lobe to lobe."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="cam_runout",
    name="cam run-out",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="cam_runout", statistic="largest"),),
    formula="full swing of the dial",
    example="0.015 mm",
)
