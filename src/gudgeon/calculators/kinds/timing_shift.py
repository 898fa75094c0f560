"""How far the cams move when metal, gasket or chain changes: milling is paid for with valve timing, unseen at the machine."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import cam_timing as m


def work(
    *, milled: float, pitch: float, cam_teeth: float, crank_teeth: float, centre_distance: float, wear: float
) -> Answer:
    chain = (pitch, cam_teeth, crank_teeth, centre_distance)
    milling = m.shift_by_milling_deg(milled, *chain)
    worn = m.shift_by_chain_wear_deg(wear, *chain)
    total = milling + worn
    results = [
        Result(name="shift at the crank", value=total, unit="°"),
        Result(name="shift at the cam", value=total / 2, unit="°"),
        Result(name="direction", value="late" if total > 0 else "early" if total < 0 else "none"),
        Result(name="shift by milling, exact", value=m.shift_by_milling_exact_deg(milled, *chain), unit="°"),
        Result(name="share of one tooth", value=abs(total) / m.tooth_step_deg(cam_teeth) * 100, unit="%"),
        Result(name="cam sprocket pitch radius", value=m.pitch_radius_mm(pitch, cam_teeth), unit="mm"),
        Result(name="crank sprocket pitch radius", value=m.pitch_radius_mm(pitch, crank_teeth), unit="mm"),
    ]
    if wear:
        results.append(Result(name="shift by chain wear", value=worn, unit="°"))
    return Answer(
        results=tuple(results),
        method="cam angle = milled · cos β / cam pitch radius, β = arcsin((cam − crank pitch radius)/centre distance); "
        "crank = twice that; wear: elongation · free strand / cam pitch radius",
        source="length of the driven strand held constant, derived",
        validity="tensioner on the slack strand, straight driven strand along the milling direction, no bowed guide; "
        "positive is late; a thicker gasket is a negative milled",
        notes=(
            "Milling takes valve-to-piston clearance too: a late exhaust loses it twice, the intake partly regains it.",
        ),
    )


KIND = Calculator(
    key="timing-shift",
    line="how far the cam timing moves by milling, gasket or chain wear",
    keys=(
        Key(name="milled", dimension="length", help="taken off head, cylinder or gasket; negative if thicker"),
        Key(name="pitch", dimension="length", help="chain pitch"),
        Key(name="cam-teeth", dimension="count", help="teeth of the cam sprocket"),
        Key(name="crank-teeth", dimension="count", help="teeth of the crank sprocket"),
        Key(name="centre-distance", dimension="length", help="crank axis to cam axis"),
        Key(name="wear", dimension="percent", help="chain elongation", default="0 %"),
    ),
    work=work,
    example="milled=0.30mm pitch=6.35mm cam-teeth=34 crank-teeth=17 centre-distance=250mm",
)
