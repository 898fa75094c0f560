"""No oil, no cams: it is seen at the cams before the cover goes on."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="oil_at_cams",
    name="oil at the cams",
    dimension="words",
    unit="",
    where=lambda a: a.heads,
    wants=(Wants(measurand="oil_at_cams", statistic="mean"),),
    rule="test",
    good=("seen",),
    good_word="holds",
    bad_word="not seen",
    renewed_by=surfaces(),
    formula="as seen while cranking",
    example="seen",
)
