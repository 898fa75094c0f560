"""As many rags out as in, before the barrel goes on."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="rag_out",
    name="take plugs out",
    did="plugs counted out",
    where=lambda a: ("engine",),
    details=("count",),
    example="engine",
)
