"""A thin margin runs hot, glows and burns."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="valve_margin",
    name="valve margin",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="valve_margin", statistic="smallest"),),
    places=2,
    formula="smallest all round",
    example="0.74 mm",
)
