"""The seat ring after the cutters: how wide it gets and where it sits must be known before metal is gone for good."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import seat as m
from gudgeon.problem import refuse


def work(
    *,
    seat_angle: float,
    top_angle: float,
    throat_angle: float,
    outer: float,
    inner: float,
    top_feed: float,
    throat_feed: float,
    seat_feed: float,
    wanted_width: float | None,
    wanted_mean: float | None,
) -> Answer:
    found = m.Ring(outer_mm=outer, inner_mm=inner)
    angles = m.Angles(seat_deg=seat_angle, top_deg=top_angle, throat_deg=throat_angle)
    after = m.after_cuts(found, angles, m.Feeds(seat_mm=seat_feed, top_mm=top_feed, throat_mm=throat_feed))
    width = m.width_mm(after, seat_angle)
    before = m.width_mm(found, seat_angle)
    results = [
        Result(name="outer edge", value=after.outer_mm, unit="mm"),
        Result(name="inner edge", value=after.inner_mm, unit="mm"),
        Result(name="width", value=width, unit="mm"),
        Result(name="mean diameter", value=after.mean_mm, unit="mm"),
        Result(name="width before", value=before, unit="mm"),
        Result(name="change of outer edge", value=after.outer_mm - outer, unit="mm"),
        Result(name="change of inner edge", value=after.inner_mm - inner, unit="mm"),
        Result(name="change of width", value=width - before, unit="mm"),
        Result(name="valve sinks", value=seat_feed, unit="mm"),
    ]
    results += _wanted(after, angles, wanted_width, wanted_mean)
    return Answer(
        results=tuple(results),
        method="edges are where the cones meet: outer +2·(seat feed − top feed)/(tan seat − tan top), "
        "inner +2·(throat feed − seat feed)/(tan throat − tan seat), width = (outer − inner)/(2·cos seat)",
        source="geometry of cones, derived",
        validity="angles from the plane square to the stem (a 45° seat is 45); each cutter already touches the ring; "
        "feeds along the stem; the insert is wide enough",
        notes=(
            "A guide is replaced and reamed first: a seat cut before its guide must be cut again.",
            "After cutting: contact with blue, then tip height, lash and seal anew.",
            "Copper-beryllium seats exist: no dry cutting, lapping or blasting dust, ask the maker first. "
            "The maker's manual, local codes and licensed practice come first.",
        ),
    )


def _wanted(ring: m.Ring, angles: m.Angles, width: float | None, mean: float | None) -> list[Result]:
    if width is None and mean is None:
        return []
    if width is None:
        raise refuse("wanted-width", "A wanted mean diameter came without a width.", "Give wanted-width too.")
    wanted = m.ring_of(width, ring.mean_mm if mean is None else mean, angles.seat_deg)
    feeds = m.feeds_for(ring, angles, wanted)
    return [
        Result(name="seat feed for the wanted ring", value=feeds.seat_mm, unit="mm"),
        Result(name="top feed for the wanted ring", value=feeds.top_mm, unit="mm"),
        Result(name="throat feed for the wanted ring", value=feeds.throat_mm, unit="mm"),
        Result(name="wanted outer edge", value=wanted.outer_mm, unit="mm"),
        Result(name="wanted inner edge", value=wanted.inner_mm, unit="mm"),
    ]


KIND = Calculator(
    key="seat",
    line="the ring that seat, top and throat cuts leave, and the feeds for a wanted ring",
    keys=(
        Key(name="seat-angle", dimension="angle", help="seat angle from the plane square to the stem", default="45°"),
        Key(name="top-angle", dimension="angle", help="angle of the top cutter, flatter than the seat", default="30°"),
        Key(name="throat-angle", dimension="angle", help="angle of the throat cutter, steeper", default="60°"),
        Key(name="outer", dimension="length", help="outer edge of the ring, diameter"),
        Key(name="inner", dimension="length", help="inner edge of the ring, diameter"),
        Key(name="top-feed", dimension="length", help="how deep the top cutter goes after touching", default="0 mm"),
        Key(name="throat-feed", dimension="length", help="how deep the throat cutter goes", default="0 mm"),
        Key(name="seat-feed", dimension="length", help="how deep the seat cutter goes", default="0 mm"),
        Key(name="wanted-width", dimension="length", help="width wanted along the face", optional=True),
        Key(name="wanted-mean", dimension="length", help="mean diameter wanted, else as it is", optional=True),
    ),
    work=work,
    example="seat-angle=45 top-angle=30 throat-angle=60 outer=27.0mm inner=24.6mm seat-feed=0.05mm "
    "wanted-width=1.2mm wanted-mean=25.6mm",
)
