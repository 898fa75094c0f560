"""Under its guard a valve meets the piston."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="valve_to_piston",
    name="valve-to-piston clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="valve_to_piston", statistic="smallest"),),
    rule="guard",
    places=2,
    renewed_by=surfaces(),
    formula="as read",
    example="1.90 mm",
)
