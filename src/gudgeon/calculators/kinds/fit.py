"""A fit when it is warm: why a guide drops into a hot head, and which way a piston's clearance goes."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import thermal as m

CAUTION = (
    "Oven, never a torch; gloves to the elbow, mark it HOT, chilled parts burn skin; the maker's manual, local codes and "
    "licensed practice come first."
)


def work(
    *,
    hole: float,
    shaft: float,
    hole_material: str,
    shaft_material: str,
    hole_at: float,
    shaft_at: float,
    room: float | None,
) -> Answer:
    outer, inner = m.material(hole_material), m.material(shaft_material)
    hot = m.hot_clearance_mm(hole, outer.expansion_per_k, hole_at, shaft, inner.expansion_per_k, shaft_at)
    results = [
        Result(name="clearance", value=hot, unit="mm"),
        Result(name="cold clearance", value=hole - shaft, unit="mm"),
        Result(name="change", value=hot - (hole - shaft), unit="mm"),
    ]
    if room is not None:
        rates = (outer.expansion_per_k, inner.expansion_per_k)
        warm = m.temperature_to_fit_c(hole, rates[0], shaft, shaft_at, rates[1], room)
        results.append(Result(name="temperature of the housing to fit", value=warm, unit="°C"))
    return Answer(
        results=tuple(results),
        method="clearance = hole × (1 + α·(t − 20)) − shaft × (1 + α·(t − 20)), each with its own α and t",
        source=f"hole: {outer.source}; shaft: {inner.source}",
        validity="one temperature in each part; too crude for a piston, whose skirt is cooler, barrelled and oval",
        notes=("Negative is interference. Never a limit: it says which way and about how far.", CAUTION),
    )


KIND = Calculator(
    key="fit",
    line="clearance of a fit with warm parts, and how hot a housing must be",
    keys=(
        Key(name="hole", dimension="length", help="hole at 20 °C"),
        Key(name="shaft", dimension="length", help="shaft at 20 °C"),
        Key(name="hole-material", dimension=WORDS, help="material around the hole", default="aluminium"),
        Key(name="shaft-material", dimension=WORDS, help="material of the shaft", default="steel"),
        Key(name="hole-at", dimension="temperature", help="temperature around the hole", default="20 °C"),
        Key(name="shaft-at", dimension="temperature", help="temperature of the shaft", default="20 °C"),
        Key(name="room", dimension="length", help="clearance wanted for fitting", optional=True),
    ),
    work=work,
    example="hole=10.000mm shaft=10.030mm hole-at=200°C room=0.01mm",
)
