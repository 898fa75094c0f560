"""Pain 2: a mark trusted where a micrometer lies beside it; a list or a place that was lost."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, SHIMMED, Job

from gudgeon.job.entries import PartsSwapped


def opened(layout: str) -> Job:
    job = Job(layout, "valves")
    job.read("lash", IN, "0.05/0.06")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    return job


@pytest.mark.parametrize("layout", SHIMMED)
def test_nothing_is_planned_on_shims_that_nobody_measured(layout: str) -> None:
    plan = opened(layout).plan("shims")
    assert plan.state == "waits"
    assert f"shim_thickness@{IN}" in plan.needs


@pytest.mark.parametrize("layout", SHIMMED)
def test_the_measured_size_beats_the_mark(layout: str) -> None:
    job = opened(layout)
    for valve in (IN, EX):
        job.read("shim_thickness", valve, "2.000")
    wanted = float(job.line("shims", IN).numbers["wanted_mm"])
    marked = job.receive("shim", mark=f"{round(wanted * 100):03d}")
    job.read("shim_thickness", f"part:{marked}", f"{wanted + 0.25:.3f}")
    for line in job.plan("shims").lines:
        assert line.numbers["shim"] != marked, "its mark suits, its size does not"
    right = job.receive("shim", mark="240")
    job.read("shim_thickness", f"part:{right}", f"{wanted:.3f}")
    assert job.line("shims", IN).numbers["shim"] == right, "its size suits, its mark does not"


@pytest.mark.parametrize("layout", SHIMMED)
def test_a_marked_shim_is_to_be_measured_and_a_short_mark_says_nothing(layout: str) -> None:
    job = opened(layout)
    for valve in (IN, EX):
        job.read("shim_thickness", valve, "2.000")
    wanted = float(job.line("shims", IN).numbers["wanted_mm"])
    marked = job.receive("shim", mark=f"{int(wanted * 20) * 5:03d}")
    line = job.line("shims", IN)
    assert (line.numbers["shim"], line.numbers["measured"]) == (marked, False)
    assert any("measure it before it goes in" in why for why in line.because)
    short = job.receive("shim", mark="90")
    assert short not in str(job.plan("shims").lines)


@pytest.mark.parametrize("layout", SHIMMED)
def test_a_wrong_mark_that_went_in_unmeasured_does_not_pass(layout: str) -> None:
    """Marked 1.90, 0.1 thinner in truth: the lash that comes of it contradicts, even where it lies in its window."""
    job = opened(layout)
    for valve in (IN, EX):
        job.read("shim_thickness", valve, "2.000")
    job.fit(job.receive("shim", mark="200"), f"{IN}/shim")
    job.closed_and_proved()
    assert job.at(f"lash@{IN}").verdict == "in setting"
    assert any("contradicts" in p.what for p in job.view.problems)
    assert f"lash@{IN}" in job.hold("H10").needs


@pytest.mark.parametrize("layout", SHIMMED)
def test_a_shim_keeps_its_size_wherever_it_goes(layout: str) -> None:
    job = opened(layout)
    job.read("shim_thickness", IN, "2.000")
    job.read("shim_thickness", EX, "1.800")
    job.write(PartsSwapped(slot=f"{IN}/shim", other=f"{EX}/shim"))
    parts = {p.slot: p.part for p in job.view.parts}
    assert parts[f"{IN}/shim"] == f"orig:{EX}/shim"
    spread = {e.where: e.counts for e in job.view.entries if e.words.startswith("shim thickness")}
    assert set(spread.values()) == {"fresh"}


def test_a_list_of_places_is_a_hold_of_every_job_that_strips() -> None:
    for scope in ("cylinder", "head out", "whole top end"):
        assert Job("bucket", scope).hold("H3").state == "open"
