"""Is the gauge good enough for the parts: several people measure the same parts again, and the spread tells."""

from __future__ import annotations

from gudgeon.calculators.points import number, words
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key, Result
from gudgeon.metrology import repeatability as m

EXAMPLE = (
    "part,appraiser,trial,value\n1,A,1,0.29\n1,A,2,0.41\n1,B,1,0.08\n1,B,2,0.25\n2,A,1,-0.56\n2,A,2,-0.68\n"
    "2,B,1,-0.47\n2,B,2,-1.22\n3,A,1,1.34\n3,A,2,1.17\n3,B,1,1.19\n3,B,2,0.94\n"
)
SPREADS = ("repeatability", "reproducibility", "repeatability and reproducibility", "part variation")


def work(*, points: str) -> Answer:
    rows = words(points, ("part", "appraiser", "trial", "value"))
    study = m.study([(p, a, t, number(v, nth, "column value", "points")) for nth, (p, a, t, v) in enumerate(rows, 2)])
    ranges, variances = m.average_and_range(study), m.analysis_of_variance(study)
    outside = ", ".join(f"part {part} {person}" for part, person in ranges.out_of_control)
    limits = variances.ev_limits
    return Answer(
        results=(
            *_spreads("", ranges),
            Result(name="ranges out of control", value=outside or "none"),
            *_spreads("variances ", variances.spreads),
            Result(name="variances interaction F", value=variances.f[2]),
            Result(name="variances interaction significance", value=variances.interaction_p),
            Result(name="variances interaction pooled", value="yes" if variances.pooled else "no"),
            Result(name="variances repeatability from", value=limits[0]),
            Result(name="variances repeatability to", value=limits[1]),
        ),
        method="average and range; beside it (variances) two-way analysis of variance, interaction pooled above 0.25",
        source="AIAG Measurement Systems Analysis, 4th ed., chapter III section B and appendix A (read in public files)",
        validity="the same parts, people and number of trials throughout, two of each or more; spreads are standard deviations",
        notes=(
            "Both methods are right and differ: 5 and 4 classes on the manual's own data.",
            "Unit: that of the readings.",
        ),
    )


def _spreads(prefix: str, found: m.Spreads) -> tuple[Result, ...]:
    own = (found.ev, found.av, found.grr, found.pv)
    return (
        *(Result(name=prefix + name, value=value) for name, value in zip(SPREADS, own, strict=True)),
        Result(name=prefix + "total variation", value=found.tv),
        *(
            Result(name=f"{prefix}{name} percent", value=value, unit="%")
            for name, value in zip(SPREADS, found.percent, strict=True)
        ),
        Result(name=prefix + "classes told apart", value=float(found.ndc)),
    )


KIND = Calculator(
    key="repeatability",
    line="repeatability and reproducibility of a gauge from a study file",
    keys=(Key(name="points", dimension=FILE, help="one reading a row, header part,appraiser,trial,value"),),
    work=work,
    example="points=study.csv",
    example_file=EXAMPLE,
)
