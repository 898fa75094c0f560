"""Duration follows from opening and closing: intake opens before top and closes after bottom, half a turn between."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "cam_duration"
NAME = "duration follows from the events"
WHY = "A cam event with a swapped digit places the piston wrongly under an open valve."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """180° plus both angles against the printed duration, and intake closing against the geometry's."""
    for cam in rows.cam_events:
        made = 180.0 + cam.opens.value + cam.closes.value
        where = f"cam {cam.side}"
        if cam.duration is not None and abs(made - cam.duration.value) > 0.5:
            yield found("error", cam.line, where, "The events make {made}, the book says {printed}.",
                        "Opening, closing or duration is a misprint.",
                        f"180 + {cam.opens.value:g} + {cam.closes.value:g} = {made:g}°",
                        made=f"{made:g}°", printed=str(cam.duration))  # fmt: skip
        if not 120.0 <= made <= 400.0:
            yield found("warning", cam.line, where, "A cam of {made} is not one of these engines.",
                        "Look at before and after.", f"180 + {cam.opens.value:g} + {cam.closes.value:g}",
                        made=f"{made:g}°")  # fmt: skip
        closes = rows.geometry.intake_closes
        if cam.side == "in" and closes is not None and closes.exact != cam.closes.exact:
            yield found("error", cam.line, where, "Intake closes at {one} here and at {other} under geometry.",
                        "One of the two is a misprint.", one=str(cam.closes), other=str(closes))  # fmt: skip
