"""No oil, no cams."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="oil_at_cams",
    name="oil at the cams",
    dimension="words",
    unit="",
    where=lambda a: a.heads,
    wants=(Wants(measurand="oil_at_cams", statistic="mean"),),
    rule="test",
    good=("seen",),
    bad_word="not seen",
    formula="as seen while cranking",
    example="seen",
)
