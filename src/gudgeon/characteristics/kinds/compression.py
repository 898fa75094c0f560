"""Cranking pressure at this altitude; the lowest of cold and warm counts."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="compression",
    name="compression",
    dimension="pressure",
    unit="kPa",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="compression", statistic="smallest"),),
    places=0,
    renewed_by=surfaces(),
    formula="smallest of cold and warm",
    example="1090 kPa",
)
