"""Amount and kind filled stand on the hand-over page."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="fill_fluids",
    name="fill oil and coolant",
    did="oil and coolant filled",
    where=lambda a: ("engine",),
    details=("oil", "coolant", "filter", "air filter", "plug"),
    caution="Coolant is poisonous and sweet to animals: catch it; bleed it; no cap off hot.",
    example="engine",
)
