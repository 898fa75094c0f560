"""Of what was out of our hands only what the shop signs as untouched still counts; the rest is confirmed."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface, surfaces_of
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    kept = {name.strip() for name in detail.get("untouched", "").split(",") if name.strip()}
    slots = (w, *(s.name for s in a.slots.values() if s.parent == w))
    surfaces: list[Feature] = [
        Surface(slot=slot, name=name) for slot in slots for name in surfaces_of(a.slots[slot].kind)
    ]
    inside: list[Feature] = [
        Joint(place=a.slots[slot].place, name="guide axis") for slot in slots if a.slots[slot].kind == "guide"
    ]
    axes = {f"{name.split('/')[0]} guide axis" for name in kept if name.endswith(("/guide", "/guide bore"))}
    whole = {str(f) for f in surfaces if isinstance(f, Surface) and f.slot in kept}
    return tuple(f for f in (*surfaces, *inside) if str(f) not in kept | axes | whole)


KIND = Operation(
    key="came_back",
    name="take part back",
    did="came back",
    where=lambda a: tuple(a.slots),
    disturbs=_disturbs,
    details=("order", "untouched"),
    example="head/head",
)
