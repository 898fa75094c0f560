"""The valve guide in section in its head: bore at three depths, one direction drawn, the other beside it."""

from __future__ import annotations

from gudgeon.figures.marks import section
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption
from gudgeon.figures.svg import Element, box, centre_line, group, line, mirrored

LEFT, RIGHT, AXIS = 196.0, 436.0, 316.0
ROWS = (("top", 152.0), ("middle|mid", 304.0), ("bottom|low", 456.0))


def outline(_: DrawingSpec) -> Element:
    """Guide and head are hatched against each other, as neighbours in a section are."""
    tube = ((150, 64), (LEFT, 64), (LEFT, 548), (150, 548), (150, 150), (144, 150), (144, 132), (150, 132))
    head = box(98, 150, 52, 350)
    return group(
        caption(AXIS + 16, 40, "spring side"),
        caption(AXIS + 16, 588, "port side"),
        section(head),
        section(mirrored(head, AXIS)),
        section(tube, 7, 45),
        section(mirrored(tube, AXIS), 7, 45),
        line(LEFT, 64, RIGHT, 64),
        line(LEFT, 548, RIGHT, 548),
        centre_line(AXIS, 24, AXIS, 592),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Two directions at three depths, and the play by a rocked stem."""
    across = tuple(
        Spot(
            words=(depth,),
            start=(LEFT, y),
            end=(RIGHT, y),
            figure=(AXIS, y),
            label=(88, y + 6),
            anchor="end",
            room=100,
            says="before",
        )
        for depth, y in ROWS
    )
    along = tuple(
        Spot(words=(depth, "y|along"), figure=(FIGURE, y + 30), label=(LABEL, y), says="after") for depth, y in ROWS
    )
    whole = Spot(words=("guide",), start=(LEFT, 304), end=(RIGHT, 304), figure=(AXIS, 304), label=(LABEL, 310))
    return (*across, *along, beside(("wobble|rock|play",), 72, None, (AXIS, 64)), whole)


FIGURE, LABEL = 606.0, 562.0
