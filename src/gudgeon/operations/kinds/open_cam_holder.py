"""The cam lifts off its followers: no lash under this holder says anything any more."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return tuple(Joint(place=c, name="holder") for c in a.lifted_with(w))


KIND = Operation(
    key="open_cam_holder",
    name="open cam holder",
    did="cam holder opened",
    where=lambda a: a.cams,
    disturbs=_disturbs,
    caution=(
        "Valve springs push the cam: even stages, crank where the lift is least; a cracked holder is "
        "scrap and may throw bits."
    ),
    example="cam.in",
)
