"""A torque makes a preload: one that strains the bolt past its yield, or hardly at all, was read in another unit."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.book.fasteners import FastenerRow
from gudgeon.mechanics.bolts import assembly_preload_kn, preload_kn, torque_nm, yield_fraction
from gudgeon.mechanics.threads import Grade, Thread, grade, thread
from gudgeon.problem import Refused
from gudgeon.shelf.parse import Shelf
from gudgeon.units import convert

KEY = "torque"
NAME = "torque makes a plausible preload"
WHY = "38 N·m or 38 lbf·ft: a third more, and the stud is gone with the head."

SMOOTH, ROUGH = 0.10, 0.14  # friction of oiled and of dry threads: the usual band of VDI 2230 class B
LOW = 0.2  # under a fifth of what the bolt can take nothing is clamped: common practice, no source


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Every final torque of a bolt whose thread and grade are known."""
    for row in rows.fasteners:
        if row.final_nm is None or not row.thread or row.hollow or row.shouldered or row.angle:
            continue
        try:
            bolt = thread(row.thread)
            steel = grade(row.grade) if row.grade else None
        except Refused as refused:
            yield found("warning", row.line, row.name, "{words}", "It is not checked; look at thread and grade.",
                        words=str(refused.problems[0]))  # fmt: skip
            continue
        if steel is not None:
            yield from _judged(row, row.final_nm, bolt, steel)


def _judged(row: FastenerRow, torque: float, bolt: Thread, steel: Grade) -> Iterable[Finding]:
    friction = SMOOTH if row.thread_state in ("oil", "paste") else ROUGH
    most = torque_nm(assembly_preload_kn(bolt, steel, friction), bolt, friction, friction)
    shares = " and ".join(
        f"{preload_kn(torque, bolt, mu, mu):.1f} kN, {yield_fraction(preload_kn(torque, bolt, mu, mu), bolt, steel):.0%} "
        f"of yield at friction {mu:.2f}"
        for mu in (SMOOTH, ROUGH)
    )
    sums = f"{torque:.1f} N·m makes {shares}; 90 % of yield with twist is at {most:.1f} N·m"
    if torque > most * 1.005:
        yield found("warning", row.line, row.name, "{torque} is too much for {thread} {grade}, {state}.",
                    "Look at the unit{likely}, the thread and the grade.", sums, torque=str(row.torque[-1]),
                    thread=row.thread, grade=row.grade, state=row.thread_state or "dry",
                    likely=_likely(row, torque, most))  # fmt: skip
    elif torque < LOW * most:
        yield found("warning", row.line, row.name, "{torque} hardly tightens {thread} {grade}.",
                    "Look at the unit, the thread and the grade.", sums, torque=str(row.torque[-1]), thread=row.thread,
                    grade=row.grade)  # fmt: skip


def _likely(row: FastenerRow, torque: float, most: float) -> str:
    """The unit in which the same figure would be plausible."""
    figure = float(row.torque[-1].number)
    for unit in ("N·m", "lbf·ft", "lbf·in", "kgf·cm"):
        if unit != row.torque[-1].unit and LOW * most <= convert(figure, unit, "N·m") <= most:
            return f" (as {unit} it would be {convert(figure, unit, 'N·m'):.1f} N·m)"
    in_feet = convert(torque, "N·m", "lbf·ft")
    return f" (it is {in_feet:.1f} lbf·ft: a figure in N·m taken for lbf·ft?)" if in_feet <= most else ""
