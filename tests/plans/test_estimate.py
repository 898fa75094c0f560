"""What a job costs: a range before it is apart, one exact sum after, and a word taken back stops it again."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Disposition, EstimateApproved, Ordered, Retraction, RulesPinned
from gudgeon.plans.kinds.estimate import delivery_days
from gudgeon.plans.money import cents, exact
from gudgeon.shelf.rules import Rules
from gudgeon.view.job import PlanView


def sums(plan: PlanView, name: str = "amount") -> dict[str, object]:
    return {str(line.numbers["of"]): line.numbers.get(name) for line in plan.lines}


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_before_it_is_apart_it_is_a_range_and_after_one_sum(layout: str) -> None:
    job = Job(layout)
    least, most = sums(job.plan("estimate")), sums(job.plan("estimate"), "most")
    assert float(str(most["total"])) > float(str(least["total"])) > 0
    assert any("until it is apart" in why for why in job.plan("estimate").reasons)
    assert any("not in it: head, crankcase, rod" in why for why in job.plan("estimate").reasons)
    job.cams_out()
    job.do("loosen_head", "head")
    assert set(sums(job.plan("estimate"), "most").values()) == {None}
    assert sums(job.plan("estimate"))["total"] == least["total"]


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_whatever_is_decided_stays_inside_the_range(layout: str) -> None:
    """All that the upper end counts is renewed and cut: the sum comes up to it, and no further."""
    job = Job(layout)
    most = float(str(sums(job.plan("estimate"), "most")["total"]))
    for valve in (IN, "c1.ex"):
        for part in ("valve", "guide", "spring"):
            job.write(Disposition(part=f"orig:{valve}/{part}", what="renew", reason="worn"))
    job.cams_out()
    job.do("loosen_head", "head")
    assert float(str(sums(job.plan("estimate"))["total"])) <= most


def test_tax_is_a_line_of_its_own_on_the_exact_sum() -> None:
    job = Job("bucket")
    net = Decimal(str(sums(job.plan("estimate"))["total"]))
    rules = Rules(tax_rate="7.7 %", tax_name="VAT", hour_price="50.00", currency="EUR")  # type: ignore[arg-type]
    job.write(RulesPinned(rules=rules.pinned()))
    found = sums(job.plan("estimate"))
    assert Decimal(str(found["tax"])) == cents(net * Decimal("0.077"))
    assert Decimal(str(found["total"])) == net + cents(net * Decimal("0.077"))
    assert any("VAT 7.7 %" in line.what for line in job.plan("estimate").lines)


def test_cents_are_exact_where_floats_are_not() -> None:
    assert sum((exact(0.1) * 3, exact(0.7)), Decimal(0)) == Decimal("1.0")
    assert (cents(Decimal("0.125")), cents(Decimal("2.675"))) == (Decimal("0.13"), Decimal("2.68"))
    assert Fraction(exact(58.8)) == Fraction(588, 10)


def test_a_word_taken_back_stops_the_job_again() -> None:
    job = Job("bucket")
    yes = job.write(EstimateApproved(amount="900.00", currency="EUR", by="owner"))
    assert job.plan("estimate").state == "nothing to do"
    job.write(Ordered(order="O-1", kind="parts", lines={"P-SEAL": 2}))
    job.write(Retraction(entry=yes, reason="said on the telephone by somebody else"))
    plan = job.plan("estimate")
    assert plan.state == "waits"
    assert "taken back" in plan.reasons[0]
    assert "taken back" in job.refuses(Ordered(order="O-2", kind="parts", lines={"P-HEADG": 1}))
    job.write(EstimateApproved(amount="900.00", currency="EUR", by="owner"))
    assert job.plan("estimate").state == "nothing to do"
    job.write(Ordered(order="O-2", kind="parts", lines={"P-HEADG": 1}))


@pytest.mark.parametrize(
    ("text", "days"), [("3 days", 3), ("2 weeks", 14), ("1 week", 7), ("soon", 0), ("", 0), ("² days", 0)]
)
def test_days_of_a_delivery(text: str, days: int) -> None:
    assert delivery_days(text) == days
