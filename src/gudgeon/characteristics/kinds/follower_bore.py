"""A loose follower hides in the lash: it tilts under the feeler."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="follower_bore",
    name="follower bore",
    dimension="length",
    unit="mm",
    where=lambda a: tuple(v for v in a.valves if a.has(f"{a.cam(v)}/follower shaft")),
    wants=(Wants(measurand="follower_bore", statistic="largest"),),
    formula="as read",
    example="10.018 mm",
)
