"""What a torque does to a bolt: 38 N·m or 38 lbf·ft is told apart by the preload that the thread can stand."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import bolts as m
from gudgeon.mechanics.threads import GRADES, Grade, Thread
from gudgeon.mechanics.threads import grade as grade_of
from gudgeon.mechanics.threads import thread as thread_of

MUCH, LITTLE = 0.9, 0.3


def work(
    *,
    thread: str,
    grade: str,
    friction: float,
    head_friction: float | None,
    utilisation: float,
    torque: float | None,
    prevailing: float,
    angle: float | None,
    clamped: float | None,
    joint: float,
) -> Answer:
    size, strength = thread_of(thread), grade_of(grade)
    under_head = friction if head_friction is None else head_friction
    preload = m.assembly_preload_kn(size, strength, friction, utilisation)
    needed = m.torque_nm(preload, size, friction, under_head)
    results = _assembled(size, strength, preload, needed, prevailing)
    notes: list[str] = []
    if torque is not None:
        own, notes = _typed(torque - prevailing, size, strength, friction, under_head)
        results += own
    if angle is not None and clamped is not None:
        stiff = m.bolt_stiffness_kn_mm(clamped, size.stress_area_mm2)
        results += [
            Result(
                name="preload by the angle",
                value=m.angle_preload_kn(angle, size, strength, stiff, joint * stiff),
                unit="kN",
            )
        ]
    return Answer(
        results=tuple(results),
        method="T = F·(0.16·P + 0.58·d₂·μ + D_Km/2·μ_head); preload at the share of yield in tension and twist together",
        source="VDI 2230 part 1 (from memory, checked against its tables), ISO 898-1, ISO 4014 heads in ISO 273 holes",
        validity="metric 60° threads M3 to M16, hexagon head, plain shank, friction 0.02 to 0.5; preload scatters by ±25 %",
        notes=(
            *notes,
            "The maker's torque comes first: this tells whether it is plausible. An angle is never turned twice.",
        ),
    )


def _assembled(size: Thread, strength: Grade, preload: float, needed: float, prevailing: float) -> list[Result]:
    return [
        Result(name="preload", value=preload, unit="kN"),
        Result(name="torque", value=m.with_prevailing_nm(needed, prevailing), unit="N·m"),
        Result(name="stress area", value=size.stress_area_mm2, unit="mm²"),
        Result(name="proof load", value=m.proof_load_kn(size, strength), unit="kN"),
        Result(name="yield load", value=strength.yield_mpa * size.stress_area_mm2 / 1000, unit="kN"),
        Result(name="tensile load", value=strength.tensile_mpa * size.stress_area_mm2 / 1000, unit="kN"),
        Result(name="share of proof load", value=m.proof_fraction(preload, size, strength)),
        Result(name="share of yield load", value=m.yield_fraction(preload, size, strength)),
        Result(name="torque factor K", value=needed / (size.diameter_mm * preload)),
    ]


def _typed(
    torque: float, size: Thread, strength: Grade, friction: float, under_head: float
) -> tuple[list[Result], list[str]]:
    force = m.preload_kn(torque, size, friction, under_head)
    share = m.yield_fraction(force, size, strength)
    notes = []
    if share > MUCH:
        notes.append(
            "This torque takes the bolt beyond nine tenths of yield: look at the unit, the thread and the state."
        )
    if share < LITTLE:
        notes.append("This torque leaves the bolt below three tenths of yield: right for soft joints only.")
    return [
        Result(name="preload from the torque typed", value=force, unit="kN"),
        Result(name="its share of proof load", value=m.proof_fraction(force, size, strength)),
        Result(name="its share of yield load", value=share),
    ], notes


KIND = Calculator(
    key="bolt",
    line="preload and torque of a bolt, and whether a typed torque is plausible for it",
    keys=(
        Key(name="thread", dimension=WORDS, help="M8, or M10x1.25 where the pitch is fine"),
        Key(name="grade", dimension=WORDS, help="property class", choices=tuple(g.name for g in GRADES)),
        Key(name="friction", dimension="number", help="coefficient of friction in the thread", default="0.12"),
        Key(
            name="head-friction",
            dimension="number",
            help="the same under the head, else as in the thread",
            optional=True,
        ),
        Key(name="utilisation", dimension="number", help="share of yield to use", default="0.9"),
        Key(name="torque", dimension="torque", help="a torque to judge", optional=True),
        Key(name="prevailing", dimension="torque", help="torque of a locking nut turned freely", default="0 N·m"),
        Key(name="angle", dimension="angle", help="angle turned after the snug torque", optional=True),
        Key(name="clamped", dimension="length", help="clamped length, for the angle", optional=True),
        Key(
            name="joint", dimension="number", help="stiffness of the joint over the bolt's, for the angle", default="3"
        ),
    ),
    work=work,
    example="thread=M8 grade=8.8 friction=0.12 torque=23Nm",
)
