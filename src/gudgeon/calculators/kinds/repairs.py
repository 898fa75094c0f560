"""How often a repair comes back over a workshop's engines: the mean number by age, and whether it comes faster."""

from __future__ import annotations

from gudgeon.calculators.points import number, words
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.mechanics import wear as m
from gudgeon.problem import refuse

EXAMPLE = "unit,age,end\n1,98,667\n2,326,667\n2,653,667\n3,,665\n4,84,667\n"


def work(*, points: str, at: float | None) -> Answer:
    histories: dict[str, tuple[list[float], float]] = {}
    for line, (unit, age, end) in enumerate(words(points, ("unit", "age", "end")), 2):
        last = number(end, line, "column end", "points")
        ages = histories.setdefault(unit, ([], last))
        if ages[1] != last:
            raise refuse(f"points row {line - 1}", "{unit} ends twice.", "Give each unit one end.", unit=unit[:40])
        if age:
            ages[0].append(number(age, line, "column age", "points"))
    steps = m.mean_cumulative(histories)
    results = [
        Result(name="units", value=float(len(histories))),
        Result(name="repairs", value=float(sum(len(ages) for ages, _ in histories.values()))),
    ]
    if steps:
        results.append(Result(name="mean repairs at the last age", value=steps[-1][1]))
    if at is not None:
        results.append(
            Result(name="mean repairs at", value=max([mean for age, mean in steps if age <= at], default=0.0))
        )
    if len(histories) == 1:
        results += _trend(*next(iter(histories.values())))
    return Answer(
        results=tuple(results),
        method="sum of repairs over units still watched at each age; one unit: power law (t/scale)^shape, greatest likelihood",
        source="Nelson, J. Quality Technology 20 (1988) 24; Crow (1974) for the power law (both from memory)",
        validity="how long a unit was watched must not depend on its repairs; one row a repair, age empty where there was none",
        notes=("A shape above 1 means that repairs come faster. A fit never overrules a measured breach.",),
    )


def _trend(ages: list[float], end: float) -> list[Result]:
    if len(set(ages)) < 2:
        return []
    fit = m.power_law(ages, end)
    return [Result(name="shape", value=fit.shape), Result(name="scale", value=fit.scale)]


KIND = Calculator(
    key="repairs",
    line="mean number of repairs by age over several units, and whether they come faster",
    keys=(
        Key(name="points", dimension=FILE, help="one row a repair, header unit,age,end"),
        Key(name="at", dimension="number", help="age to read the mean at", optional=True),
    ),
    work=work,
    example="points=repairs.csv at=400",
    example_file=EXAMPLE,
)
