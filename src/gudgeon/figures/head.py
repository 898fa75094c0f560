"""The head from below and the barrel from above: valves, plug, bolts, and the lines along which a face is checked."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

from gudgeon.figures.marks import arc, hatch
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption, sides
from gudgeon.figures.svg import GREY, HATCH, THIN, Element, Point, box, centre_line, circle, group, poly, stroke

X, Y, HALF, CHAMBER = 270.0, 310.0, 226.0, 180.0
BORE = 150.0
EDGE = HALF - 26
BOLTS = HALF - 22
LINES: tuple[tuple[str, Point, Point], ...] = (
    ("1|a", (X - EDGE, Y - EDGE), (X + EDGE, Y + EDGE)),
    ("2|b", (X - EDGE, Y + EDGE), (X + EDGE, Y - EDGE)),
    ("3|c", (X - EDGE, Y - EDGE), (X + EDGE, Y - EDGE)),
    ("4|d", (X - EDGE, Y + EDGE), (X + EDGE, Y + EDGE)),
    ("5|e", (X - EDGE, Y - EDGE), (X - EDGE, Y + EDGE)),
    ("6|f", (X + EDGE, Y - EDGE), (X + EDGE, Y + EDGE)),
)


def bolt_places(count: int) -> tuple[Point, ...]:
    """Spread around the plate's edge, four of them in its corners."""
    first = 45.0 if count == 4 else -90.0 + 180.0 / max(count, 1)
    turn = (radians(first + 360.0 * i / count) for i in range(count))
    rays = tuple((cos(a), sin(a)) for a in turn)
    return tuple((X + BOLTS * c / max(abs(c), abs(s)), Y + BOLTS * s / max(abs(c), abs(s))) for c, s in rays)


def valve_places(count: int, x: float) -> tuple[Point, ...]:
    """The valves of one side, spread over the chamber."""
    gap = 2 * 74.0 / max(count - 1, 1) if count > 1 else 0.0
    return tuple((x, Y + gap * (i - (count - 1) / 2)) for i in range(count))


def _radius(count: int, large: bool) -> float:
    base = 92.0 if count == 1 else 68.0 if count == 2 else 42.0
    return base if large else base - 6.0


def _plate(spec: DrawingSpec) -> tuple[Element, ...]:
    corners = stroke(poly(box(X - HALF, Y - HALF, 2 * HALF, 2 * HALF)))
    bolts = (group(circle(x, y, 12), centre_line(x - 20, y, x + 20, y), centre_line(x, y - 20, x, y + 20))
             for x, y in bolt_places(spec.bolts))  # fmt: skip
    return (sides(spec, X - 130, X + 130, Y - HALF - 22), corners, *bolts)


def _centre() -> tuple[Element, ...]:
    return (centre_line(X, Y - HALF - 14, X, Y + HALF + 14), centre_line(X - HALF - 14, Y, X + HALF + 14, Y))


def outline(spec: DrawingSpec) -> Element:
    """Chamber, valves and plug; the intake valves are the larger ones."""
    sizes = ((spec.intake_valves, X - 80, True), (spec.exhaust_valves, X + 82, False))
    valves = (circle(vx, vy, _radius(n, large)) for n, x, large in sizes for vx, vy in valve_places(n, x))
    plug = (X, Y) if spec.intake_valves > 1 else (X, Y - 146)
    return group(
        *_plate(spec),
        circle(X, Y, CHAMBER),
        *_centre(),
        *valves,
        circle(*plug, 17),
        circle(*plug, 11, GREY, THIN),
        caption(X, Y + HALF + 34, "seen from below", "middle"),
    )


def face_outline(spec: DrawingSpec) -> Element:
    """The gasket face around the bore, hatched lightly as the surface that is meant."""
    around = (*arc(X, Y, BORE + 16, 0, 360, 72), *reversed(arc(X, Y, BORE, 0, 360, 72)))
    return group(
        *_plate(spec),
        hatch(around, 8, pen=HATCH),
        circle(X, Y, BORE),
        circle(X, Y, BORE + 16, width=THIN),
        *_centre(),
        caption(X, Y + HALF + 34, "seen from above", "middle"),
    )


def face_spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Both diagonals and four edges; one reading for all lines goes to the first diagonal."""
    on_line = ((-0.72, -0.72), (0.72, -0.72), (0, -1), (0, 1), (-1, 0), (1, 0))
    rows = tuple(
        Spot(
            words=(names,),
            start=start,
            end=end,
            figure=(X + EDGE * dx, Y + EDGE * dy),
            label=(X + EDGE * dx, Y + EDGE * dy + (42 if dy < 1 else -30)),
            anchor="middle",
            room=120,
        )
        for (names, start, end), (dx, dy) in zip(LINES, on_line, strict=True)
    )
    whole = replace(rows[0], words=("face|flat|flatness|warp",))
    return (*rows, whole)


def spots(spec: DrawingSpec) -> tuple[Spot, ...]:
    """A place per valve, the plug, and the face as a whole."""
    names = (("left|l|1", "right|r|2") if n == 2 else tuple(f"{i + 1}" for i in range(n))
             for n in (spec.intake_valves, spec.exhaust_valves))  # fmt: skip
    found: list[Spot] = []
    groups = (("in|intake", spec.intake_valves, X - 80), ("ex|exhaust", spec.exhaust_valves, X + 82))
    for (side, count, x), which in zip(groups, names, strict=True):
        for (vx, vy), name in zip(valve_places(count, x), which, strict=True):
            words = (side,) if count == 1 else (side, name)
            found.append(Spot(words=words, figure=(vx, vy + 18), label=(vx, vy - 18), anchor="middle", room=140))
    plug = beside(("plug",), Y, None, (X + 10, Y))
    face = beside(("face|flat|flatness|warp",), 98, None, (X + HALF - 12, Y - 140))
    return (*found, plug, face)
