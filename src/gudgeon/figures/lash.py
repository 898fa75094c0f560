"""The valve trains with the one gap that is measured: fingers, buckets, rockers and push-rods, each with its shim or screw."""

from __future__ import annotations

from typing import assert_never

from gudgeon.figures.lobe import cam
from gudgeon.figures.marks import arc, curve, hatch, section, seen
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption
from gudgeon.figures.svg import GREY, THIN, Element, Point, box, centre_line, circle, group, line

GAP = 12.0
VALVE_X, TIP_Y = 400.0, 350.0
#: How thick a shim in the crown of a bucket is drawn, and how far a screw stands out of its arm.
OVER, PROUD = 14.0, 40.0


def outline(spec: DrawingSpec) -> Element:
    """The train that the layout names, with its gap where the book reads it."""
    match spec.train:
        case "finger":
            return _finger(spec.lash_at)
        case "bucket":
            return _bucket(spec.lash_at)
        case "bucket over":
            return _bucket_over()
        case "rocker":
            return _rocker()
        case "rocker screw":
            return _rocker_screw()
        case "rocker screw at cam":
            return _rocker_screw_at_cam()
        case "push-rod":
            return _push_rod()
        case _:
            assert_never(spec.train)


def _cam(x: float, y: float, turned_deg: float) -> Element:
    return group(
        seen(cam(x, y, 62, 52, 34, turned_deg)),
        circle(x, y, 22, GREY, THIN),
        centre_line(x - 84, y, x + 84, y),
        centre_line(x, y - 84, x, y + 84),
    )


def _valve(x: float, tip_y: float, *, shim: bool) -> Element:
    """Stem, retainer and a piece of spring; a shim on the tip where the train has one."""
    stem = seen(box(x - 11, tip_y, 22, 570 - tip_y))
    retainer = ((x - 50, tip_y + 34), (x + 50, tip_y + 34), (x + 50, tip_y + 46), (x + 24, tip_y + 46), (x + 20, tip_y + 62),
                (x - 20, tip_y + 62), (x - 24, tip_y + 46), (x - 50, tip_y + 46))  # fmt: skip
    coils = (line(x + s * 18, tip_y + 66 + 24 * i, x + s * 46, tip_y + 58 + 24 * i) for i in range(5) for s in (-1, 1))
    plate = (section(box(x - 18, tip_y - 14, 36, 14), 5, 45),) if shim else ()
    seat = (section(box(x - 90, 536, 76, 14), 7), section(box(x + 14, 536, 76, 14), 7))
    return group(stem, *coils, *seat, seen(retainer), *plate, centre_line(x, tip_y - 40, x, 584))


def _finger(lash_at: str) -> Element:
    at_cam, at_tip = (GAP, 0.0) if lash_at == "cam" else (0.0, GAP)
    top = TIP_Y - 14 - at_tip
    back = curve((70, top - 44), (150, top - 96), (330, top - 60), (436, top - 26))
    under = curve((436, top), (360, top), (300, top - 46), (200, top - 40))
    arm: tuple[Point, ...] = (*back, *under, *curve((200, top - 40), (150, top - 36), (110, top - 2), (70, top - 4)))
    pad_y = min(y for _, y in back)
    pad_x = next(x for x, y in back if y == pad_y)
    return group(
        _valve(VALVE_X, TIP_Y, shim=True),
        seen(arm),
        circle(96, top - 22, 14),
        caption(24, top + 28, "pivot"),
        _cam(pad_x, pad_y - at_cam - 62, 0),
    )


def _bucket(lash_at: str) -> Element:
    x, top = 290.0, 300.0
    at_cam, at_tip = (GAP, 0.0) if lash_at == "cam" else (0.0, GAP)
    cup = ((x - 92, top), (x + 92, top), (x + 92, top + 150), (x + 78, top + 150), (x + 78, top + 24), (x + 26, top + 24),
           (x + 26, top + 34), (x - 26, top + 34), (x - 26, top + 24), (x - 78, top + 24), (x - 78, top + 150),
           (x - 92, top + 150))  # fmt: skip
    walls = (hatch(box(x - 136, top + 30, 44, 170)), hatch(box(x + 92, top + 30, 44, 170)))
    sides = (line(x + s * 93, top + 30, x + s * 93, top + 200) for s in (-1, 1))
    return group(
        *walls,
        *sides,
        _valve(x, top + 48 + at_tip, shim=True),
        section(cup, 7),
        _cam(x, top - at_cam - 62, 0),
    )


def _bucket_over() -> Element:
    """The shim lies in the crown of the bucket, under the cam."""
    x, top = 290.0, 300.0
    cup = ((x - 92, top - 16), (x - 76, top - 16), (x - 76, top), (x + 76, top), (x + 76, top - 16), (x + 92, top - 16),
           (x + 92, top + 150), (x + 78, top + 150), (x + 78, top + 24), (x + 26, top + 24), (x + 26, top + 48), (x - 26, top + 48),
           (x - 26, top + 24), (x - 78, top + 24), (x - 78, top + 150), (x - 92, top + 150))  # fmt: skip
    walls = (hatch(box(x - 136, top + 30, 44, 170)), hatch(box(x + 92, top + 30, 44, 170)))
    sides = (line(x + s * 93, top + 30, x + s * 93, top + 200) for s in (-1, 1))
    return group(
        *walls,
        *sides,
        _valve(x, top + 48, shim=False),
        section(cup, 7),
        section(box(x - 74, top - OVER, 148, OVER), 5, 45),
        _cam(x, top - OVER - GAP - 62, 0),
    )


def _arm(y: float, left: Point) -> tuple[Element, ...]:
    """A centre-pivot rocker from its left end to the valve's tip."""
    back = curve((left[0] - 20, left[1] - 26), (200, y - 120), (300, y - 110), (VALVE_X + 20, y - 26))
    under = curve((VALVE_X + 20, y), (330, y), (300, y - 26), (250, y - 22))
    rest = curve((250, y - 22), (210, y - 18), (160, left[1]), (left[0] - 20, left[1]))
    shaft = (circle(246, y - 60, 24), circle(246, y - 60, 14, GREY, THIN))
    return (seen((*back, *under, *rest)), *shaft, caption(222, y + 34, "shaft"))


def _rocker() -> Element:
    return group(
        _valve(VALVE_X, TIP_Y, shim=True),
        *_arm(TIP_Y - 14 - GAP, (110, TIP_Y - 20)),
        _cam(110, TIP_Y - 20 + 62, 180),
    )


def _screw(x: float, foot: float, nut: float) -> tuple[Element, ...]:
    """A set screw that stands on something at `foot`, held by its locknut above the arm at `nut`."""
    return seen(box(x - 8, nut - 44, 16, foot - nut + 44)), seen(box(x - 19, nut - 18, 38, 18))


def _rocker_screw() -> Element:
    """The screw stands over the valve's tip: lash is under its foot."""
    arm = TIP_Y - GAP - PROUD
    return group(
        _valve(VALVE_X, TIP_Y, shim=False),
        *_arm(arm, (110, arm + 6)),
        *_screw(VALVE_X, TIP_Y - GAP, arm - 30),
        _cam(110, arm + 6 + 62, 180),
        caption(VALVE_X + 20, arm - 92, "screw, locknut", "end"),
    )


def _rocker_screw_at_cam() -> Element:
    """The screw stands over the cam's end; lash is read at the valve's tip all the same."""
    arm = TIP_Y - GAP
    return group(
        _valve(VALVE_X, TIP_Y, shim=False),
        *_arm(arm, (110, arm - 40)),
        *_screw(110, arm - 10, arm - 72),
        _cam(110, arm - 10 + 62, 180),
        caption(24, arm - 132, "screw, locknut"),
    )


def _push_rod() -> Element:
    rod = seen(box(101, TIP_Y + 24, 18, 210))
    ball = seen(arc(110, TIP_Y + 20, 13, 0, 360))
    screw = (seen(box(102, TIP_Y - 96, 16, 106)), seen(box(92, TIP_Y - 66, 36, 18)))
    return group(
        _valve(VALVE_X, TIP_Y, shim=False),
        rod,
        *_arm(TIP_Y - GAP, (110, TIP_Y - 20)),
        *screw,
        ball,
        caption(24, TIP_Y - 128, "screw, locknut"),
        caption(132, TIP_Y + 190, "push-rod"),
    )


def _gap(spec: DrawingSpec) -> tuple[Point, Point]:
    """The two ends of the gap that is read."""
    match spec.train:
        case "finger":
            if spec.lash_at == "tip":
                return (VALVE_X, TIP_Y - 14 - GAP), (VALVE_X, TIP_Y - 14)
            top = TIP_Y - 14
            back = curve((70, top - 44), (150, top - 96), (330, top - 60), (436, top - 26))
            x, y = min(back, key=lambda p: p[1])
            return (x, y - GAP), (x, y)
        case "bucket":
            return ((290, 334), (290, 334 + GAP)) if spec.lash_at == "tip" else ((290, 300 - GAP), (290, 300))
        case "bucket over":
            return (290, 300 - OVER - GAP), (290, 300 - OVER)
        case "rocker":
            return (VALVE_X, TIP_Y - 14 - GAP), (VALVE_X, TIP_Y - 14)
        case "rocker screw" | "rocker screw at cam" | "push-rod":
            return (VALVE_X, TIP_Y - GAP), (VALVE_X, TIP_Y)
        case _:
            assert_never(spec.train)


def spots(spec: DrawingSpec) -> tuple[Spot, ...]:
    """The gap, the shim, and the tip's height over the spring seat."""
    over = spec.train == "bucket over"
    x = 290.0 if over or spec.train == "bucket" else VALVE_X
    tip = TIP_Y if x == VALVE_X else 348.0 + (GAP if spec.lash_at == "tip" and not over else 0.0)
    start, end = _gap(spec)
    shim = (x + 40, 300 - OVER / 2) if over else (x + 14, tip - 7)
    return (
        beside(("lash|gap|clearance",), 200, start, end),
        beside(("shim",), 330, None, shim),
        beside(("tip|height",), 460, (x + 100, tip), (x + 100, 536)),
    )
