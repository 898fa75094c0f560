"""A long chain retards the cams and runs its tensioner out of travel."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot="engine/chain", name="length"),)


KIND = Measurand(
    key="chain_length",
    name="cam chain length",
    dimension="length",
    unit="mm",
    gauges=("caliper",),
    where=lambda a: ("engine",) if a.has("engine/chain") else (),
    observes=_observes,
    needs=("clean",),
    plausible=(50.0, 400.0),
    drawing="gauge",
    ask="Twenty links, pulled taut, longest of several places.",
    example="101.30 mm",
)
