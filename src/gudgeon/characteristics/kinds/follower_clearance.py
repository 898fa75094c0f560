"""Bore and shaft may each pass and their fit fail."""

from gudgeon.characteristics.shape import Characteristic, Wants, difference

KIND = Characteristic(
    key="follower_clearance",
    name="follower-to-shaft clearance",
    dimension="length",
    unit="mm",
    where=lambda a: tuple(v for v in a.valves if a.has(f"{a.cam(v)}/follower shaft")),
    wants=(
        Wants(measurand="follower_bore", statistic="largest"),
        Wants(measurand="shaft_diameter", statistic="smallest", at=lambda a, w: a.cam(w)),
    ),
    combine=difference,
    formula="follower bore − shaft",
    example="0.043 mm",
)
