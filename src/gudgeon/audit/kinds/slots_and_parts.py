"""A place without a part number cannot be ordered for; a part without a place is on no list when it is needed."""

from collections.abc import Iterable

from gudgeon.anatomy import expand, say
from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "slots_and_parts"
NAME = "slots with parts, parts with slots"
WHY = "The order list is complete only if every place knows its number."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Slots that no part names, once the book has parts at all, and parts that name none and are no consumable."""
    if rows.layout is None or not rows.parts:
        return
    filled = {slot for part in rows.parts for slot in part.slots}
    empty = [slot for slot in expand(rows.layout).slots if slot not in filled]
    if empty:
        single = rows.layout.cylinders == 1
        names = [say(slot, single=single) for slot in empty]
        yield found("warning", rows.parts[0].line, "parts", "{count} places have no part number: {names}.",
                    "Add the parts, or order them by name.", ", ".join(empty[:12]),
                    count=len(empty), names=", ".join(names[:6]) + (", …" if len(names) > 6 else ""))  # fmt: skip
    for part in rows.parts:
        if not part.slots and not part.consumable:
            yield found("warning", part.line, part.number, "{name} has no place in the engine.",
                        "Give its slots, or consumable = true.", name=part.name)  # fmt: skip
