"""Bad input to the plans: each is refused, or a finding with a remedy; never an empty list, never a stack trace."""

from __future__ import annotations

import re

import pytest
from invented import IL, SHELF, bench, book

from gudgeon.book.parse import parse_book
from gudgeon.job.entries import Disposition, Finding, PartReceived
from gudgeon.plans.joint import Allowed, Repair, Task, cheapest, excludes, only
from gudgeon.problem import Refused
from plan_bench import PlanBench

TIGHT = "0.05/0.06 0.13/0.14 0.23/0.24 0.22/0.23"
LOOP = """
[[part]]
number = "K-A"
name = "kit a"
consumable = true
kit = "K-B"
price = "9.00"
[[part]]
number = "K-B"
name = "kit b"
consumable = true
kit = "K-A"
price = "1.00"
"""


def read(text: str, scope: str = "valves", lash: str = TIGHT, shims: str = "1.980 2.010 - -") -> PlanBench:
    job = PlanBench(text, SHELF, scope)
    job.each("lash", lash, "F")
    job.each("shim_thickness", shims, "M")
    return job


def remedy(text: str) -> str:
    with pytest.raises(Refused) as refused:
        parse_book(text)
    assert all(str(p.remedy) for p in refused.value.problems)
    return " ".join(str(p.what) for p in refused.value.problems)


def test_an_empty_range_of_shims_is_refused_with_its_line() -> None:
    assert "Shims from 2.70 mm to 2.60 mm by 0.05 mm are none" in remedy(book(smallest="2.70 mm"))


def test_a_window_with_swapped_ends_is_refused() -> None:
    assert "swapped" in remedy(book(in_most="0.08 mm"))


def test_without_stock_and_system_the_usual_sizes_are_offered() -> None:
    plan = read(re.sub(r"\[\[shims\]\].*?\n\n", "", book(), flags=re.S)).plan("shims")
    assert plan.state == "ready"
    assert all(b.price is None or b.price == 5.0 for b in plan.buys)


def test_a_window_narrower_than_the_step_says_which_size_would_do() -> None:
    job = read(book(in_most="0.12 mm"), lash="0.05/0.06 0.10/0.11 0.23/0.24 0.22/0.23", shims="1.992 1.990 - -")
    plan = job.plan("shims")
    assert plan.state == "impossible"
    way = next(dict(line.numbers) for line in plan.lines if dict(line.numbers).get("way") == "between")
    assert way["by_mm"] == pytest.approx(0.02)


def test_two_valves_that_need_the_one_shim_there_is() -> None:
    """Only 2.60 is on sale; both wants lie under one shelf shim that exists once:"""
    text = book(smallest="2.60 mm")
    job = PlanBench(text, SHELF + '[[shim]]\nsize = "1.90 mm"\n', "valves")
    job.each("lash", "0.05/0.06 0.05/0.06 0.23/0.24 0.22/0.23", "F")
    job.each("shim_thickness", "1.982 1.985 - -", "M")
    plan = job.plan("shims")
    assert plan.state == "impossible"
    assert any("two need the same one" in str(r) for r in plan.reasons)


def test_a_kit_in_itself_is_not_ordered_and_its_pieces_are() -> None:
    text = book().replace('number = "V-1"\n', 'number = "V-1"\nkit = "K-A"\n') + LOOP
    job = PlanBench(text, SHELF, "head out")
    job.each("spring_load", "120.0 155.0 156.0 157.0", "S", unit="N")
    assert parse_book(text).looped_kits() == {"K-A", "K-B"}
    assert [(b.number, b.count) for b in job.plan("order").buys] == [("V-1", 2)]
    assert "K-" not in str(job.plan("repairs").lines[0].numbers)


def test_two_remedies_that_exclude_each_other_are_no_set() -> None:
    repairs = (Repair(key="rebore"), Repair(key="barrel"))
    rules = (excludes("rebore", "barrel"), only("rebore", True))
    best = cheapest(Task(repairs=repairs, rules=rules, stock={}))
    assert best is not None
    assert best.chosen == {"rebore"}
    assert cheapest(Task(repairs=repairs, rules=(*rules, only("barrel", True)), stock={})) is None


def test_a_rule_that_allows_nothing_is_no_set() -> None:
    nothing = Allowed(repairs=("rebore",), rows=frozenset())
    assert cheapest(Task(repairs=(Repair(key="rebore"),), rules=(nothing,), stock={})) is None


def test_a_part_nobody_sells_is_named_and_left_to_the_last() -> None:
    job = bench("head out")
    job.record(Finding(kind="cracked", where=f"{IL}/valve"))
    job.each("spring_load", "120.0 155.0 156.0 157.0", "S", unit="N")
    numbers = dict(job.plan("repairs").lines[0].numbers)
    assert (numbers["unpriced"], numbers["proven"]) == (1.0, True)
    assert any("prices are not known" in str(b) for b in job.plan("repairs").lines[0].because)


def test_a_decision_against_a_breach_is_kept_shown_and_not_followed() -> None:
    job = bench("head out", shelf='[rules]\nsprings = "one"\n')
    job.each("spring_load", "120.0 155.0 156.0 157.0", "S", unit="N")
    job.record(Disposition(part=f"orig:{IL}/spring", what="reuse", reason="no money"))
    assert f"{IL}/spring" in str(dict(job.plan("repairs").lines[0].numbers)["renews"])
    assert any("never overruled" in str(r) for r in job.plan("repairs").reasons)


def test_a_shim_of_another_size_than_ordered_is_planned_as_it_measures() -> None:
    job = read(book())
    wrong = job.record(PartReceived(kind="shim", mark="190", order="P-1"))
    job.read("shim_thickness", f"part:{wrong}", "2.204", "M")
    plan = job.plan("shims")
    assert any("marked 190 (1.90), measures 2.204" in str(r) for r in plan.reasons)
    assert dict(job.line("shims", IL).numbers)["shim"] != wrong


@pytest.mark.parametrize("scope", ["valves", "head out", "cylinder", "whole top end", "leak test"])
def test_an_empty_job_has_a_reason_in_every_plan(scope: str) -> None:
    for plan in bench(scope).plans():
        assert plan.lines or plan.reasons, plan.key
