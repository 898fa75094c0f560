"""Washed parts start dry: oil before fitting is a step, not a habit."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="oil_before_fitting",
    name="oil before fitting",
    did="oiled",
    where=lambda a: ("engine",),
    example="engine",
)
