"""Blank forms of a job's scope: what can be read, where, with which gauge, and what the book says of it."""

from __future__ import annotations

from gudgeon.anatomy import Follower, Side, say
from gudgeon.book.limits import LimitRow
from gudgeon.characteristics.own import characteristics
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import NEEDS, Measurand
from gudgeon.plans.shape import Given
from gudgeon.problem import caution
from gudgeon.routes.own import asks_for
from gudgeon.view.record import BlankRow, BlankView
from gudgeon.workbench.asks import always_asked, point_words

TRAINS: dict[Follower, str] = {
    "bucket_over": "bucket over",
    "bucket_under": "bucket",
    "finger": "finger",
    "rocker": "rocker",
    "rocker_screw": "rocker screw",
    "pushrod_screw": "push-rod",
}


def train_of(side: Side) -> str:
    """How the train of a side is drawn; a screw stands at either end of its rocker."""
    at_cam = side.follower == "rocker_screw" and side.screw_end == "cam"
    return "rocker screw at cam" if at_cam else TRAINS[side.follower]


def blanks_of(given: Given) -> tuple[BlankView, ...]:
    """Every measurand that the scope asks for and the book judges, in the order in which a technician meets them."""
    return tuple(
        blank for kind in measurands(given.state.anatomy).values() if (blank := _blank(given, kind)) is not None
    )


def _blank(given: Given, kind: Measurand) -> BlankView | None:
    anatomy = given.state.anatomy
    rows = tuple(_row(given, kind, place) for place in kind.where(anatomy) if _asked(given, kind.key, place))
    if not rows:
        return None
    first = rows[0].place
    side = anatomy.layout.side(first)
    held = [k for k in kind.gauges if given.shelf.of_kind(k)]
    return BlankView(
        measurand=kind.key,
        name=kind.name,
        unit=kind.unit,
        gauge=(held or list(kind.gauges))[0],
        gauges=tuple(card.name for k in held for card in given.shelf.of_kind(k)),
        drawing=kind.drawing,
        train=train_of(side),
        lash_at="cam" if side.lash_read == "cam" else "tip",
        ask=kind.ask,
        words=kind.words,
        needs=tuple(NEEDS[n] for n in kind.needs if n != "decompressor" or anatomy.layout.decompressor),
        caution=caution(kind.caution),
        points=tuple(point_words(p) for p in kind.points(anatomy, first)),
        point_keys=kind.points(anatomy, first),
        rows=rows,
    )


def _asked(given: Given, measurand: str, place: str) -> bool:
    """Whether the scope asks for a characteristic that rests on this, and the book has something to hold it against."""
    asked = asks_for(given.state.scope, given.state.anatomy)
    if measurand == "shim_thickness":
        return "lash" in asked
    for key in asked:
        kind = characteristics(given.state.anatomy)[key]
        for at in kind.where(given.state.anatomy):
            if any(w.measurand == measurand and w.at(given.state.anatomy, at) == place for w in kind.wants) and (
                always_asked(key) or given.book.limit_for(key, at) is not None
            ):
                return True
    return False


def _row(given: Given, kind: Measurand, place: str) -> BlankRow:
    row = given.book.limit_for(kind.key, place) if kind.key in characteristics(given.state.anatomy) else None
    return BlankRow(
        place=place,
        where=say(place, single=given.state.anatomy.layout.cylinders == 1),
        points=tuple(point_words(p) for p in kind.points(given.state.anatomy, place)),
        new=_range(row),
        limit=_limit(row),
        page=row.page if row else "",
    )


def _range(row: LimitRow | None) -> str:
    if row is None or not row.new:
        return ""
    return f"{str(row.new[0]).removesuffix(f' {row.new[1].unit}')} – {row.new[1]}"


def _limit(row: LimitRow | None) -> str:
    if row is None:
        return ""
    if row.typed_least is not None and row.typed_most is not None:
        return f"{str(row.typed_least).removesuffix(f' {row.typed_most.unit}')} – {row.typed_most}"
    least = f"≥ {row.typed_least}" if row.typed_least is not None else ""
    most = f"≤ {row.typed_most}" if row.typed_most is not None else ""
    return " ".join(w for w in (least, most) if w) or row.expect or row.words
