"""The count closes only when what fell in, or the rag, lies on the bench."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="found",
    name="found and counted",
    did="found and counted",
    where=lambda a: ("engine",),
    details=("what",),
    example="engine",
)
