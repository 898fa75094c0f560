"""How far a valve sinks for metal taken off its seat: lash, spring load and tip height follow, and none is seen at the cutter."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import seat as m


def work(
    *,
    seat_angle: float,
    removed: float,
    valve_removed: float,
    ratio: float,
    rate: float | None,
    valve_diameter: float | None,
) -> Answer:
    sink = m.sink_mm(removed + valve_removed, seat_angle)
    moves = m.sink_moves(sink, ratio=ratio, spring_rate_n_per_mm=rate or 0.0, valve_diameter_mm=valve_diameter or 0.0)
    results = [
        Result(name="sink", value=sink, unit="mm"),
        Result(name="sink per metal removed", value=m.sink_mm(1.0, seat_angle), unit=""),
        Result(name="change of lash at the valve", value=moves.lash_at_valve_mm, unit="mm"),
        Result(name="change of lash at the cam", value=moves.lash_at_cam_mm, unit="mm"),
        Result(name="change of tip height", value=moves.tip_height_mm, unit="mm"),
        Result(name="change of recession", value=moves.recession_mm, unit="mm"),
        Result(name="change of installed height", value=moves.installed_height_mm, unit="mm"),
        Result(name="change of bind margin", value=moves.bind_margin_mm, unit="mm"),
        Result(name="change of valve-to-piston clearance", value=moves.valve_to_piston_mm, unit="mm"),
    ]
    if rate is not None:
        results.append(Result(name="change of spring load", value=moves.spring_load_n, unit="N"))
    if valve_diameter is not None:
        results.append(Result(name="change of chamber volume", value=moves.chamber_cm3, unit="cm³"))
    return Answer(
        results=tuple(results),
        method="sink = metal removed square to the face / cos(seat angle)",
        source="geometry, derived",
        validity="seat angle from the plane square to the stem; seat and valve face add; same tip, shim and retainer",
        notes=("Not divided by the sine: both agree at 45° only.",),
    )


KIND = Calculator(
    key="seat-sink",
    line="how far the valve sinks when its seat is cut, and what moves with it",
    keys=(
        Key(name="seat-angle", dimension="angle", help="seat angle from the plane square to the stem"),
        Key(name="removed", dimension="length", help="metal removed square to the seat face"),
        Key(name="valve-removed", dimension="length", help="metal removed square to the valve face", default="0 mm"),
        Key(
            name="ratio", dimension="number", help="lever ratio, valve side over cam side; 1 for a bucket", default="1"
        ),
        Key(name="rate", dimension="stiffness", help="spring rate, for the loss of load", optional=True),
        Key(name="valve-diameter", dimension="length", help="valve head, for the chamber", optional=True),
    ),
    work=work,
    example="seat-angle=45 removed=0.10mm rate=18.24N/mm valve-diameter=30mm",
)
