"""Look-alikes are told apart by a mark, or they are not told apart at all."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "look_alikes"
NAME = "look-alikes with their mark; kits that exist"
WHY = "The wrong gasket of two fits by its holes and closes the oil way."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """A look-alike without mark or engine numbers, and numbers that no part has."""
    known, looped = {part.number for part in rows.parts}, rows.looped_kits()
    for part in rows.parts:
        if part.look_alike and not part.mark:
            yield found("warning", part.line, part.number, "{name} looks like {other}; nothing tells them apart.",
                        "Write its mark: a groove, a notch, a colour.", name=part.name, other=part.look_alike)  # fmt: skip
        if part.number in looped:
            yield found("error", part.line, part.number, "The kit {name} holds itself.",
                        "Look at the kit column: a kit is no piece of what it holds.", name=part.name)  # fmt: skip
        for what, number in (("look-alike", part.look_alike), ("kit", part.kit)):
            if number and number not in known:
                yield found("error", part.line, part.number, "Its {kind} {number} is no part of this book.",
                            "Look at the number, or add the part.", kind=what, number=number)  # fmt: skip
