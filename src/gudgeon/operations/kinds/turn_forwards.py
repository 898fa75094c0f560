"""Two turns by hand settle the train: a lash is proved only after them."""

from gudgeon.operations.shape import Operation

KIND = Operation(
    key="turn_forwards",
    name="turn forwards by hand",
    did="turned forwards",
    where=lambda a: ("engine",),
    details=("turns",),
    caution=(
        "Forwards only; fingers out of chain and sprockets; hard stop: stop, go back to nothing by force, find out."
    ),
    example="engine",
)
