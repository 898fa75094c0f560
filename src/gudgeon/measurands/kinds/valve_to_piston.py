"""The nearest a valve comes to the piston decides whether a slipped tooth or a skim costs the engine."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    cylinder, head = a.cylinder(w), f"{a.head(w)}/head"
    return (
        Surface(slot=f"{w}/seat", name="depth"),
        Surface(slot=f"{w}/valve", name="margin"),
        Surface(slot=f"{cylinder}/piston", name="crown"),
        Surface(slot=f"{cylinder}/barrel", name="height"),
        Surface(slot=head, name="height"),
        Surface(slot=f"{a.cam(w)}/cam", name="lobes"),
        Surface(slot=f"{cylinder}/base gasket", name="thickness"),
        Surface(slot=f"{a.head(w)}/head gasket", name="thickness"),
    )


KIND = Measurand(
    key="valve_to_piston",
    name="valve-to-piston clearance",
    dimension="length",
    unit="mm",
    gauges=("clay and caliper", "dial indicator"),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean", "turned"),
    plausible=(0.1, 12.0),
    drawing="piston",
    ask="Clay on the crown or dial on the retainer, around top dead centre of overlap.",
    caution="Turn by hand, forwards only.",
    example="1.90 mm",
)
