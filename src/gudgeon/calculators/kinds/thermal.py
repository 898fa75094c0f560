"""How much a part grows: a warm barrel measured is not the barrel at 20 °C, and a seat goes in hot for this reason."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import thermal as m
from gudgeon.problem import refuse


def work(*, length: float, from_: float, to: float, expansion: float | None, material: str | None) -> Answer:
    if (expansion is None) == (material is None):
        raise refuse(
            "expansion",
            "{given} given.",
            "Give expansion (23.1e-6 /K) or material (aluminium), one of them.",
            given="Neither expansion nor material was" if expansion is None else "Expansion and material were",
        )
    rate, source = (expansion, "as typed") if expansion is not None else _listed(material or "")
    change = m.growth_mm(length, rate, from_, to)
    return Answer(
        results=(
            Result(name="change", value=change, unit="mm"),
            Result(name="length after", value=length + change, unit="mm"),
            Result(name="expansion", value=rate, unit="1/K"),
        ),
        method="change = length × expansion × (to − from)",
        source=f"ISO 1 for 20 °C; expansion: {source}",
        validity="one temperature in the whole part; handbook values between 20 °C and 100 °C, good to a tenth",
        notes=("A hole grows as the metal around it would.",),
    )


def _listed(name: str) -> tuple[float, str]:
    found = m.material(name)
    return found.expansion_per_k, found.source


KIND = Calculator(
    key="thermal",
    line="change of a length between two temperatures",
    keys=(
        Key(name="length", dimension="length", help="length at the first temperature"),
        Key(name="from", dimension="temperature", help="first temperature", default="20 °C"),
        Key(name="to", dimension="temperature", help="second temperature"),
        Key(name="expansion", dimension="expansion", help="coefficient of expansion", optional=True),
        Key(name="material", dimension=WORDS, help="aluminium, steel, grey iron, an alloy's number …", optional=True),
    ),
    work=work,
    example="length=52mm from=20°C to=28°C material=aluminium",
)
