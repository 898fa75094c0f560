"""Repairs chosen for the whole engine: what one forces, what a kit covers, what was decided, and what the parts then say."""

from __future__ import annotations

import pytest
from invented import EL, ER, IL, IR, SHELF, book

from gudgeon.job.entries import Disposition, Finding
from gudgeon.plans.repair_choice import choose
from gudgeon.plans.repair_task import days_of
from plan_bench import PlanBench

FITS = """
[[limit]]
of = "stem_diameter"
new = ["4.975 mm", "4.990 mm"]
least = "4.950 mm"
[[limit]]
of = "guide_bore"
new = ["5.000 mm", "5.012 mm"]
most = "5.070 mm"
[[limit]]
of = "stem_guide_clearance"
new = ["0.010 mm", "0.037 mm"]
most = "0.080 mm"
remedies = ["renew guide", "renew valve"]
[[limit]]
of = "seat_width"
new = ["0.90 mm", "1.10 mm"]
most = "1.40 mm"
[[limit]]
of = "bore_diameter"
new = ["88.000 mm", "88.015 mm"]
most = "88.050 mm"
remedies = ["hone", "rebore", "renew barrel"]
[[part]]
number = "G-1"
name = "guide"
slots = ["c1.*.*/guide"]
price = "{guide}"
delivery = "3 days"
{guide_kit}
[[part]]
number = "A-1"
name = "valve"
slots = ["c1.*.*/valve"]
price = "{valve}"
delivery = "{valve_days} days"
{valve_kit}
[[part]]
number = "H-1"
name = "head"
slots = ["head/head"]
price = "{head}"
delivery = "1 day"
[[part]]
number = "B-1"
name = "barrel"
slots = ["c1/barrel"]
price = "310.00"
[[part]]
number = "P-1"
name = "piston"
slots = ["c1/piston"]
price = "96.00"
[[part]]
number = "K-1"
name = "valve kit"
consumable = true
price = "{kit}"
"""
WORK = """
[[gauge]]
id = "B"
name = "bore gauge"
source = "invented"
kind = "bore gauge"
unit = "mm"
resolution = "0.001 mm"
permissible_error = "0.001 mm"
[[gauge]]
id = "SH"
name = "small-hole gauge"
source = "invented"
kind = "small-hole gauge"
unit = "mm"
resolution = "0.001 mm"
permissible_error = "0.001 mm"
[[work]]
of = "fit_guide"
price = "46.00"
[[work]]
of = "cut_seat"
price = "{cut}"
[[work]]
of = "rebore"
price = "70.00"
"""


def worn(*, stems: str = "4.966 4.974 4.970 4.970", guides: str = "5.060 5.021 5.020 5.020", more: str = "", bore: str = "iron",
         **prices: str) -> PlanBench:  # fmt: skip
    usual = {"guide": "14.50", "valve": "48.00", "head": "540.00", "kit": "55.00", "valve_days": "3", "guide_kit": "",
             "valve_kit": "", "cut": "37.00"}  # fmt: skip
    prices = {**usual, **prices}
    text = book(bore=bore) + FITS.format(**prices)
    job = PlanBench(text, SHELF + WORK.format(cut=prices["cut"]) + more, "whole top end")
    for valve, stem, guide in zip((IL, IR, EL, ER), stems.split(), guides.split(), strict=True):
        for level in ("top", "middle", "bottom"):
            for axis in "xy":
                job.read("stem_diameter", valve, stem, "M", f"{level} {axis}")
                job.read("guide_bore", valve, guide, "SH", f"{level} {axis}")
    return job


def first(job: PlanBench) -> dict[str, float | str | bool | None]:
    return dict(job.plan("repairs").lines[0].numbers)


def test_a_new_valve_that_fails_over_its_range_is_no_answer_however_cheap() -> None:
    """5.060 − 4.990 to 4.975 = 0.070 to 0.085, past 0.080; a new guide gives 0.034 to 0.046 and forces its seat to be cut."""
    numbers = first(worn(valve="1.00"))
    assert (numbers["renews"], numbers["works"]) == (f"{IL}/guide", f"cut seat {IL}/seat")
    assert numbers["price"] == pytest.approx(14.50 + 46.00 + 37.00 + 5.00)
    assert (numbers["lower_bound"], numbers["proven"]) == (numbers["price"], True)


def test_the_valve_is_cheaper_where_it_holds_because_a_guide_forces_a_cut() -> None:
    numbers = first(worn(stems="4.951 4.974 4.970 4.970", guides="5.040 5.021 5.020 5.020"))
    assert (numbers["renews"], numbers["cuts"], numbers["price"]) == (f"{IL}/valve", 0.0, pytest.approx(53.0))
    dear = first(worn(stems="4.951 4.974 4.970 4.970", guides="5.040 5.021 5.020 5.020", valve="148.00"))
    assert dear["renews"] == f"{IL}/guide"


def test_what_is_condemned_and_what_its_fit_then_asks_for_are_one_choice() -> None:
    job = worn()
    job.record(Finding(kind="cracked", where=f"{IL}/valve"))
    assert set(str(first(job)["renews"]).split(", ")) == {f"{IL}/guide", f"{IL}/valve"}


def test_a_fit_that_holds_today_must_hold_with_the_part_that_comes() -> None:
    """The guide of 5.069 still fits its stem of 4.992; a new valve in it would not: 0.079 to 0.094."""
    job = worn(stems="4.992 4.974 4.970 4.970", guides="5.069 5.021 5.020 5.020")
    job.record(Finding(kind="cracked", where=f"{IL}/valve"), Finding(kind="cracked", where=f"{IR}/valve"))
    assert choose(job.given).failed == ()
    job.read("stem_diameter", ER, "4.940", "M", "top x")
    assert {f"{IL}/guide", f"{IL}/valve", f"{ER}/valve"} <= set(str(first(job)["renews"]).split(", "))


def test_a_kit_answers_two_places_cheaper_than_its_pieces() -> None:
    member = 'kit = "K-1"'
    both = {"stems": "4.951 4.951 4.970 4.970", "guides": "5.040 5.040 5.020 5.020"}
    numbers = first(worn(**both, kit="60.00", guide_kit=member, valve_kit=member, cut="1.00", valve="70.00"))
    singly = first(worn(**both, kit="600.00", guide_kit=member, valve_kit=member, cut="1.00", valve="70.00"))
    assert float(numbers["price"] or 0) <= float(singly["price"] or 0)
    assert singly["renews"] == f"{IL}/guide, {IR}/guide"
    assert "K-1" in str(numbers["buys"])


def test_a_new_head_answers_everything_in_it_at_once() -> None:
    every = {"stems": "4.966 4.966 4.966 4.966", "guides": "5.060 5.060 5.060 5.060"}
    assert first(worn(**every))["renews"] != "head/head"
    job = worn(**every, head="300.00")
    assert first(job)["renews"] == "head/head"
    assert dict(job.line("dispositions", "head/head").numbers)["what"] == "renew"
    assert [dict(x.numbers).get("what") for x in job.plan("dispositions").lines if x.where == f"{IL}/guide"] in (
        [], ["reuse"])  # fmt: skip
    assert job.plan("machining").machines == ()


def test_beside_the_best_stands_what_is_here_sooner_and_what_cuts_less() -> None:
    job = worn()
    sets = [dict(line.numbers) for line in job.plan("repairs").lines]
    assert [s["set"] for s in sets] == ["best", "sooner"]
    assert (sets[1]["renews"], sets[1]["days"], sets[1]["cuts"]) == ("head/head", 1.0, 0.0)
    assert len(sets) <= 3


def test_a_rebore_needs_its_piston_and_excludes_a_new_barrel() -> None:
    job = worn(guides="5.020 5.020 5.020 5.020")
    for level in ("top", "middle", "bottom"):
        for axis in "xy":
            job.read("bore_diameter", "c1", "88.090", "B", f"{level} {axis}")
    numbers = first(job)
    assert (numbers["renews"], numbers["works"], numbers["price"]) == (
        "c1/piston",
        "rebore c1/barrel",
        pytest.approx(166.0),
    )
    assert any("piston in hand" in str(b) for b in job.plan("repairs").lines[0].because)
    assert dict(job.line("dispositions", "c1/barrel").numbers)["what"] == "machine"


def test_a_plated_bore_is_never_rebored() -> None:
    job = worn(guides="5.020 5.020 5.020 5.020", bore="plated")
    job.read("bore_diameter", "c1", "88.090", "B", "top x")
    assert (first(job)["renews"], first(job)["works"]) == ("c1/barrel", "")


def test_what_was_decided_to_stay_stays_until_a_breach_stands_against_it() -> None:
    job = worn(stems="4.951 4.974 4.970 4.970", guides="5.040 5.021 5.020 5.020")
    job.record(Disposition(part=f"orig:{IL}/valve", what="reuse", reason="good face"))
    assert first(job)["renews"] == f"{IL}/guide"
    job.record(Disposition(part=f"orig:{IL}/guide", what="reuse", reason="no time"),
               Disposition(part="orig:head/head", what="reuse", reason="no money"))  # fmt: skip
    assert first(job)["renews"] == f"{IL}/valve"
    assert any("never overruled" in str(r) for r in job.plan("repairs").reasons)


def test_what_lies_here_is_not_paid_for() -> None:
    more = '[[leftover]]\nnumber = "A-1"\n'
    numbers = first(worn(stems="4.951 4.974 4.970 4.970", guides="5.040 5.021 5.020 5.020", valve="148.00", more=more))
    assert (numbers["renews"], numbers["buys"]) == (f"{IL}/valve", "")


def test_the_parts_follow_the_set_and_the_set_rests_once_it_is_decided() -> None:
    job = worn(stems="4.951 4.974 4.970 4.970", guides="5.040 5.021 5.020 5.020")
    assert job.plan("repairs").state == "ready"
    assert dict(job.line("dispositions", f"{IL}/valve").numbers)["what"] == "renew"
    assert job.plan("repairs").buys == ()
    job.record(Disposition(part=f"orig:{IL}/valve", what="renew", reason="fit"))
    assert job.plan("repairs").state == "nothing to do"


def test_nothing_failed_is_nothing_to_choose() -> None:
    job = worn(guides="5.020 5.020 5.020 5.020")
    assert job.plan("repairs").state == "nothing to do"


@pytest.mark.parametrize(("words", "days"), [("3 days", 3), ("2 weeks", 14), ("1 day", 1), ("soon", None), ("", None)])
def test_terms_of_delivery(words: str, days: int | None) -> None:
    assert days_of(words) == days


def test_the_bore_waits_for_the_piston_and_follows_it() -> None:
    """The new piston of 88.460 and a clearance of 0.030 to 0.060: the bore is cut to 88.490 to 88.520."""
    clearance = '[[limit]]\nof = "piston_clearance"\nnew = ["0.030 mm", "0.060 mm"]\nmost = "0.100 mm"\n'
    big = (
        '[[gauge]]\nid = "M88"\nname = "big"\nsource = "invented"\nkind = "micrometer"\nunit = "mm"\n'
        'resolution = "0.001 mm"\npermissible_error = "0.001 mm"\n'
    )
    job = PlanBench(book() + FITS.format(guide="14.50", valve="48.00", head="540.00", kit="55.00", valve_days="3", guide_kit="",
                    valve_kit="") + clearance, SHELF + WORK.format(cut="37.00") + big, "whole top end")  # fmt: skip
    for level in ("top", "middle", "bottom"):
        for axis in "xy":
            job.read("bore_diameter", "c1", "88.090", "B", f"{level} {axis}")
    cut = next(c for c in job.plan("machining").machines if c.where == "c1")
    assert (cut.low_mm, cut.encloses) == (None, ("piston",))
    job.record(Disposition(part="orig:c1/barrel", what="machine", reason="rebore"))
    job.fit("piston", "c1/piston", "P-1")
    job.read("piston_diameter", "c1", "88.460", "M88")
    cut = next(c for c in job.plan("machining").machines if c.where == "c1")
    assert (cut.low_mm, cut.high_mm) == (pytest.approx(88.490), pytest.approx(88.520))
