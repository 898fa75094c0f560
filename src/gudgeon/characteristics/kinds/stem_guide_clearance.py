"""Stem and guide may each pass and their fit fail: it is always judged for itself."""

from gudgeon.characteristics.shape import Characteristic, Wants, difference, surfaces

KIND = Characteristic(
    key="stem_guide_clearance",
    name="stem-to-guide clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(
        Wants(measurand="guide_bore", statistic="largest"),
        Wants(measurand="stem_diameter", statistic="smallest"),
    ),
    renewed_by=surfaces(("valve", "stem"), ("guide", "bore")),
    combine=difference,
    formula="largest guide − smallest stem",
    example="0.047 mm",
)
