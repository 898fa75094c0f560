"""The tip stands clear of the retainer, or the valve is dropped."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="tip_projection",
    name="tip projection",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="tip_projection", statistic="smallest"),),
    rule="guard",
    places=2,
    renewed_by=surfaces(),
    formula="as read",
    example="2.35 mm",
)
