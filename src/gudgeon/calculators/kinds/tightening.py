"""In which order: a head drawn down from one end leaks at the other, and a warped one is scrap."""

from __future__ import annotations

from gudgeon.calculators.points import lengths
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.mechanics import tightening as m
from gudgeon.problem import refuse


def work(*, bolts: float | None, points: str | None, torque: float | None) -> Answer:
    if (bolts is None) == (points is None):
        raise refuse(
            "bolts",
            "{given} given.",
            "Give bolts (their number on a circle) or points (a file of positions), one of them.",
            given="Neither bolts nor points was" if bolts is None else "Both bolts and points were",
        )
    order = m.star_order(round(bolts or 0)) if points is None else _from_file(points)
    results = [
        Result(name="order", value=_listed(order)),
        Result(name="loosening order", value=_listed(m.loosening(order))),
        Result(name="bolts", value=float(len(order))),
    ]
    if torque is not None:
        results += [
            Result(name=f"round {nth}", value=stage, unit="N·m") for nth, stage in enumerate(m.stages_nm(torque), 1)
        ]
    return Answer(
        results=tuple(results),
        method="circle: star, groups of four across; rows: from the centre outwards, across; numbered as they stand",
        source="ASME PCC-1 star pattern (from memory); rows from the centre: common practice, no source",
        validity="2 to 64 bolts of one joint; published for 4, 8, 12, 16, 20 and 24 on a circle",
        notes=(
            "A maker's order always goes first.",
            "After the last round, go round again at full torque until no nut moves.",
            "Loosen in the reverse order, a quarter turn each on the first round.",
        ),
    )


def _from_file(points: str) -> tuple[int, ...]:
    return m.order_from_positions([(x, y) for x, y in lengths(points, ("x", "y"))])


def _listed(order: tuple[int, ...]) -> str:
    return ", ".join(str(number) for number in order)


KIND = Calculator(
    key="tightening",
    line="order and rounds of tightening, from the number of bolts or their positions",
    keys=(
        Key(name="bolts", dimension="count", help="number of bolts on a circle", optional=True),
        Key(
            name="points",
            dimension=FILE,
            help="positions, header x_mm,y_mm, in the order of their numbers",
            optional=True,
        ),
        Key(name="torque", dimension="torque", help="final torque, for the rounds", optional=True),
    ),
    work=work,
    example="bolts=8 torque=62Nm",
)
