"""Lash counts only under a holder at its final torque; a loose holder reads loose and passes unsafely."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return tuple(Joint(place=c, name="holder") for c in a.lifted_with(w))


KIND = Operation(
    key="tighten_cam_holder",
    name="tighten cam holder",
    did="cam holder tightened",
    where=lambda a: a.cams,
    closes=_closes,
    calls_for=("lash",),
    caution="Even stages, crank where the lift is least; pull the wrench, do not push.",
    example="cam.in",
)
