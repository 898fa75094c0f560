"""How much air a shut cylinder loses, cold and, where taken, warm: the worst counts."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="leak_down",
    name="leak-down",
    dimension="percent",
    unit="%",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="leak_down", statistic="largest"),),
    rule="guard",
    places=0,
    renewed_by=surfaces(),
    formula="largest of cold and warm",
    example="24 %",
)
