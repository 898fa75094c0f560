"""Washing what is already clean changes no reading, but takes the oil off: oil before fitting falls due."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="wash",
    name="wash parts",
    did="parts washed",
    where=lambda a: ("engine",),
    caution="Solvents flammable: ventilate, no sparks.",
    example="engine",
)
