"""What leaves the house is out of our hands: the order says what may be done to it."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="sent_out",
    name="send part out",
    did="sent out",
    where=lambda a: tuple(a.slots),
    details=("order",),
    example="head/head",
)
