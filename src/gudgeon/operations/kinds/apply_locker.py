"""Locker holds on degreased threads only and cures before the start."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="apply_locker",
    name="apply locker",
    did="locker applied",
    where=lambda a: ("engine",),
    details=("joint",),
    caution="Skin and eyes; not near oil ways; not in a blind hole full of oil.",
    example="engine",
)
