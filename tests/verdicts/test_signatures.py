"""How many jobs would need a signature: the figure by which a guarded wall is worth its trouble.

The whole table and what it means: `docs/decisions/lash-signatures.md`; `tools/signatures.py` plays the jobs.
"""

from __future__ import annotations

import importlib.util
import sys
from dataclasses import replace
from pathlib import Path
from random import Random
from statistics import NormalDist
from types import ModuleType

import pytest

from gudgeon.metrology.known import Known
from gudgeon.verdicts.decide import Limits, of_setting

ROOT = Path(__file__).resolve().parents[2]
#: Window and step of the shims where another shim can always lie clear of both walls: the step is half the window or less.
WIDE = ((0.03, 0.01), (0.05, 0.01), (0.05, 0.025), (0.10, 0.05))
NARROW = ((0.03, 0.025), (0.05, 0.05))
JOBS = 250


@pytest.fixture(scope="module")
def played() -> ModuleType:
    spec = importlib.util.spec_from_file_location("signatures", ROOT / "tools" / "signatures.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["signatures"] = module
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("u", [0.006, 0.008, 0.010])
@pytest.mark.parametrize(("width", "step"), WIDE)
@pytest.mark.parametrize("found", ["set", "anywhere"])
def test_of_jobs_set_right_at_most_two_in_a_hundred_need_a_signature(
    played: ModuleType, u: float, width: float, step: float, found: str
) -> None:
    for lashes in (4, 16):
        case = played.Case(u=u, width=width, step=step, lashes=lashes)
        got = played.tally(case, found=found, jobs=JOBS, seed=31)
        assert got.right > JOBS / 4
        assert got.share <= 0.02, f"{lashes} lashes, {found}"


@pytest.mark.parametrize(("width", "step"), NARROW)
def test_where_a_step_is_as_wide_as_the_window_more_need_one_and_the_page_says_so(
    played: ModuleType, width: float, step: float
) -> None:
    case = played.Case(u=0.008, width=width, step=step, lashes=8)
    share = played.tally(case, found="set", jobs=JOBS, seed=31).share
    print(f"\nwindow {width}, step {step}: {share:.1%} of right jobs need a signature")
    assert 0.03 <= share <= 0.15


def test_bad_ones_passed_beside_simple_acceptance_and_beside_a_rule_that_passes_nothing_as_read(
    played: ModuleType,
) -> None:
    case = played.Case(u=0.010, width=0.03, step=0.01, lashes=8)
    ours, strict, simple = (
        played.tally(c, found="worn", jobs=JOBS, seed=32)
        for c in (case, replace(case, strict=True), replace(case, rules=played.SIMPLE))
    )
    for name, t in (("ours", ours), ("nothing as read", strict), ("simple", simple)):
        print(f"\n{name}: {t.tight_passed / t.lashes:.1%} passed though tight, {t.share:.1%} of right jobs signed")
    assert strict.tight_passed < ours.tight_passed < simple.tight_passed
    assert ours.share <= strict.share


def test_jobs_are_played_alike_from_one_seed_and_otherwise_from_another(played: ModuleType) -> None:
    case = played.Case(u=0.008, width=0.05, step=0.025, lashes=4)
    one, again, other = (played.tally(case, found="worn", jobs=40, seed=seed) for seed in (7, 7, 8))
    assert one == again != other


def test_no_rule_calls_out_fewer_right_lashes_than_the_guard_without_passing_more_at_the_wall(
    played: ModuleType,
) -> None:
    """The guard meets the bound to the last digit; any other set of readings that passes a lash at the wall as rarely loses."""
    u, low, width, cell, rng = 0.008, 0.10, 0.05, 0.0002, Random(5)
    grid = [low - 5 * u + cell * n for n in range(int((width + 10 * u) / cell))]
    trues = [low + width * (n + 0.5) / 50 for n in range(50)]

    def passes(accepted: list[bool], true: float) -> float:
        law = NormalDist(true, u)
        return sum(law.pdf(x) * cell for x, yes in zip(grid, accepted, strict=True) if yes)

    def out(accepted: list[bool]) -> float:
        beyond = [NormalDist(grid[-1], u).cdf(t) for t in trues]  # what lies past the grid passes with its last cell
        return sum(1.0 - passes(accepted, t) - b * accepted[-1] for t, b in zip(trues, beyond, strict=True)) / len(
            trues
        )

    limits = Limits(low=low, high=None, new_low=None, new_high=None, judged_new=False)
    words = [of_setting(Known(value=x, parts=(("gauge", u),)), limits, risk=0.05, tight_guarded=True, loose_guarded=False).word
             for x in grid]  # fmt: skip
    guard = [word == "in setting" for word in words]
    bound = played.least_called_out(u, low, low, low + width, 0.05)
    assert out(guard) == pytest.approx(bound, abs=0.003)
    for _ in range(40):
        edge, hole = rng.uniform(-2.0, 1.6), rng.uniform(0.0, width)
        other = [x > low + edge * u and abs(x - low - hole) > 0.003 for x in grid]
        while passes(other, low) > 0.05:
            other[other.index(True)] = False
        assert out(other) >= bound - 0.003


@pytest.mark.parametrize("u", [0.006, 0.010])
@pytest.mark.parametrize("width", [0.03, 0.10])
def test_judging_alone_never_meets_the_figure_for_lashes_anywhere_in_the_window(
    played: ModuleType, u: float, width: float
) -> None:
    """Even a rule that passes half of all lashes right at the tight wall, and looks at no other wall, calls out too many."""
    one = played.least_called_out(u, 0.10, 0.10, 0.10 + width, 0.5)
    assert one == pytest.approx(0.39894 * u / width, rel=0.02)
    assert one > 0.02, "and of jobs at least as many as of lashes"
