"""Whatever fell in comes out again before anything turns."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="dropped_in",
    name="dropped into the engine",
    did="something dropped into the engine",
    where=lambda a: ("engine",),
    details=("what",),
    caution="No turning until it is found and counted.",
    example="engine",
)
