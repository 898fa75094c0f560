"""An oil way blocked by sealant or a turned gasket kills the cams in a minute: oil is seen before the starter stays on."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/head", name="oil ways"),
        Joint(place=w, name="head"),
        *(Joint(place=c, name="base") for c in a.cylinders if a.head(c) == w),
    )


KIND = Measurand(
    key="oil_at_cams",
    name="oil at the cams",
    dimension="words",
    unit="",
    gauges=("eye",),
    where=lambda a: a.heads,
    observes=_observes,
    needs=(),
    words=("seen", "not seen"),
    drawing="gauge",
    ask="Plug out, ignition and fuel off, cranked in short bursts: oil at every cam?",
    caution="Stop at ten seconds without oil.",
    example="seen",
)
