"""A floating cam wears its thrust faces, and what they lose goes through the oil."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="cam_axial_play",
    name="cam axial play",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="cam_axial_play", statistic="largest"),),
    places=2,
    formula="as read",
    example="0.12 mm",
)
