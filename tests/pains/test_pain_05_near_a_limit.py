"""Pain 5: in or out, near a limit, with a gauge that cannot tell."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import HoldPassed


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
@pytest.mark.parametrize("text", ["5.44", "5.45", "5.43"])
def test_what_the_gauge_in_hand_cannot_tell_is_not_told(layout: str, text: str) -> None:
    """Limit 5.440; a micrometer that is good for 0.02 says neither yes nor no at 5.45, the finer one settles it."""
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, text, gauge="old-mic")
    close = job.at(f"stem_diameter@{IN}")
    assert close.verdict == "too close to call"
    assert [s.gauge for s in close.settles][:1] == ["mic"]
    assert close.settles[0].readings >= 1
    fate = job.line("dispositions", f"{IN}/valve").numbers
    assert fate["what"] == "measure_again"
    assert job.view.next.address == f"stem_diameter@{IN}"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
@pytest.mark.parametrize(("text", "word"), [("5.448", "serviceable"), ("5.432", "past limit")])
def test_the_finer_gauge_settles_it(layout: str, text: str, word: str) -> None:
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.44", gauge="old-mic")
    job.read("stem_diameter", IN, text)
    assert job.at(f"stem_diameter@{IN}").verdict == word


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_no_hold_passes_on_what_is_too_close_to_call(layout: str) -> None:
    """A guide that is read within its doubt of the limit leaves the fit open, and the incoming check with it."""
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.46", gauge="old-mic")
    job.read("guide_bore", IN, "5.535")
    assert job.at(f"stem_guide_clearance@{IN}").verdict == "too close to call"
    assert f"stem_guide_clearance@{IN}" in job.refuses(HoldPassed(hold="H6"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_at_the_tight_wall_of_a_lash_the_doubt_counts(layout: str) -> None:
    """The pair 0.09/0.10 ends on the wall of 0.10: it is not waved through as in setting."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.09/0.10")
    assert job.at(f"lash@{IN}").verdict in ("tight", "too close to call")
    assert f"lash@{IN}" in job.hold("H10").needs
