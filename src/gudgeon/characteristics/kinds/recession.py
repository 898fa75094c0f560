"""How deep the valve has sunk bounds what a skim may take."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="recession",
    name="valve recession",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="recession", statistic="largest"),),
    places=2,
    renewed_by=surfaces(),
    formula="as read",
    example="0.62 mm",
)
