"""A skim lowers everything above the gasket and, through the chain, turns the cams back."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    head = f"{w}/head"
    return (
        *(Surface(slot=head, name=name) for name in ("face", "height", "chamber")),
        *(Joint(place=v, name="seal") for v in a.valves if a.head(v) == w),
    )


KIND = Operation(
    key="skim_head",
    name="skim head",
    did="head skimmed",
    where=lambda a: a.heads,
    disturbs=_disturbs,
    renews=True,
    calls_for=("head_flatness", "squish", "recession"),
    details=("removed",),
    caution="Clamp the work, guards shut, no gloves near turning tools. Magnesium and titanium chips burn.",
    example="head",
)
