"""What is etched on a shim: by the rule of its system, and asked where it may mean two sizes."""

from __future__ import annotations

import pytest
from invented import IL, SHELF, book

from gudgeon.book.engine import ShimSystem
from gudgeon.job.entries import PartReceived
from gudgeon.plans.shim_marks import agreeing, decoded, meanings
from plan_bench import PlanBench


def system(mark: str, largest: str = "2.60 mm", step: str = "0.05 mm") -> ShimSystem:
    return ShimSystem.model_validate({"smallest": "1.50 mm", "largest": largest, "step": step, "mark": mark})


@pytest.mark.parametrize(
    ("mark", "rule", "largest", "says", "may"),
    [
        ("185", "three digits", "2.60 mm", 1.85, (1.85,)),
        (" 185 ", "two digits", "2.60 mm", 1.85, (1.85,)),
        ("85", "two digits", "2.10 mm", 1.85, (1.85,)),
        ("55", "two digits", "2.60 mm", None, (1.55, 2.55)),
        ("20", "three digits", "2.60 mm", None, (2.00, 2.05, 2.20)),
        ("90", "three digits", "2.10 mm", None, (1.90,)),
        ("18", "three digits", "2.60 mm", None, (1.80, 1.85)),
        ("85", "none", "2.10 mm", None, ()),
        ("8", "two digits", "2.60 mm", None, ()),
        ("A5", "two digits", "2.60 mm", None, ()),
        ("", "three digits", "2.60 mm", None, ()),
    ],
)
def test_a_mark_by_its_rule(mark: str, rule: str, largest: str, says: float | None, may: tuple[float, ...]) -> None:
    found = (system(rule, largest),)
    assert decoded(mark, found) == says
    assert meanings(mark, found) == pytest.approx(may)


@pytest.mark.parametrize("rule", ["three digits", "two digits"])
def test_every_size_on_sale_is_among_what_its_own_mark_means(rule: str) -> None:
    one = system(rule, step="0.025 mm") if rule == "three digits" else system(rule)
    sizes = [s for s in one.sizes() if round(s * 100, 6) == round(s * 100)]
    assert all(any(abs(m - s) < 1e-9 for m in meanings(one.marked(s), (one,))) for s in sizes)


@pytest.mark.parametrize(("measured", "meant"), [(1.553, 1.55), (2.541, 2.55), (2.05, None)])
def test_the_micrometer_says_which(measured: float, meant: float | None) -> None:
    assert agreeing((1.55, 2.55), measured) == meant


def job(mark: str) -> tuple[PlanBench, str]:
    text = book().replace('part = "S-1"\n', f'part = "S-1"\nmark = "{mark}"\n', 1)
    found = PlanBench(text, SHELF, "valves")
    found.each("lash", "0.05/0.06 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    found.each("shim_thickness", "1.600 2.010 - -", "M")
    return found, found.record(PartReceived(kind="shim", mark="55", order="P-1"))


def test_two_meanings_are_asked_and_the_shim_is_not_planned() -> None:
    bench, part = job("two digits")
    plan = bench.plan("shims")
    assert any("marked 55: 1.55 or 2.55? Measure it" in str(r) for r in plan.reasons)
    assert part not in str(plan.lines)


def test_measured_it_says_which_is_meant() -> None:
    bench, part = job("two digits")
    bench.read("shim_thickness", f"part:{part}", "1.547", "M")
    plan = bench.plan("shims")
    assert any("1.55 or 2.55; it measures 1.547, so 1.55 is meant" in str(r) for r in plan.reasons)
    assert dict(bench.line("shims", IL).numbers)["wanted_mm"] == pytest.approx(1.600 + 0.055 - 0.14)


def test_a_mark_that_the_micrometer_speaks_against_is_named() -> None:
    bench, _part = job("three digits")
    marked = bench.record(PartReceived(kind="shim", mark="185", order="P-1"))
    bench.read("shim_thickness", f"part:{marked}", "1.745", "M")
    assert any("marked 185 (1.85), measures 1.745" in str(r) for r in bench.plan("shims").reasons)
