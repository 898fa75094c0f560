"""Heat settles gaskets and train: the lash is read once more when all is cold."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return tuple(Joint(place=h, name="settled") for h in a.heads)


KIND = Operation(
    key="heat_cycle",
    name="first start and heat cycle",
    did="heat cycle run",
    where=lambda a: ("engine",),
    disturbs=_disturbs,
    calls_for=("lash",),
    caution=(
        "Tag off by the one who fitted it. Outdoors: open doors and a fan do not protect from carbon "
        "monoxide. Stop switch in hand, extinguisher, no loose sleeve."
    ),
    example="engine",
)
