"""A plugged mouth keeps grit and keepers out, and is counted like any part."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="rag_in",
    name="plug mouth",
    did="mouth plugged",
    where=lambda a: ("engine",),
    details=("count",),
    example="engine",
)
