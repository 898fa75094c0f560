"""Every hold by itself: without its evidence it is refused, with it it is signed, and signed against only with a reason.

Each case is a job that lacks exactly one thing, the words that say so, and the one entry that brings it.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from tests.pains.engines import EX, IN, Job, book

from gudgeon.job.entries import EstimateApproved, HoldPassed, PartRemoved, Retraction
from gudgeon.papers.kinds import technical_record
from gudgeon.routes.holds import HOLDS, holds_of
from gudgeon.routes.scopes import SCOPES
from gudgeon.workbench.recording import recorded

Act = Callable[[Job], object]
LOCKED = (
    '[[fastener]]\nname = "sprocket bolts"\njoint = "sprocket"\nthread = "M7"\ngrade = "10.9"\ncount = 2\ntorque = ["18 N·m"]\n'
    'thread_state = "degreased"\nlocker = "medium"\ncure = "24 h"\n'
    '[[limit]]\nof = "ring_gap"\nnew = ["0.20 mm", "0.30 mm"]\nmost = "0.60 mm"\n'
)


def tight(job: Job, joint: str, *settings: str) -> None:
    """A joint drawn up, stage by stage."""
    for n, setting in enumerate(settings, 1):
        job.draw_up(joint, setting, stage=n, of=len(settings), wrench="W-SMALL" if float(setting) <= 20 else "W-BIG")


def wait(job: Job, hours: int) -> None:
    """The clock of these tests goes on by a minute for every look at it."""
    for _ in range(60 * hours):
        job.bench.clock.now()


def cured(job: Job) -> None:
    tight(job, "cam.in sprocket", "18")
    wait(job, 25)


def caps(job: Job) -> None:
    for cam in job.anatomy.cams:
        tight(job, f"{cam} holder", "5", "10")


def apart(job: Job) -> None:
    job.cams_out()
    job.do("loosen_head", "head")
    job.do("loosen_base", "c1")


def measured(job: Job) -> None:
    """What the incoming check looks at."""
    for valve in (IN, EX):
        job.read("seat_width", valve, "1.0")
        job.read("contact", valve, "centre")
        job.read("tip_height", valve, "40.00")
        job.read("stem_diameter", valve, "5.465")
        job.read("guide_bore", valve, "5.505")


def sealed(job: Job) -> None:
    for valve in (IN, EX):
        job.read("seal_test", valve, "holds")


def ringed(job: Job) -> None:
    """New circlips on a piston that fits."""
    job.do("loosen_head", "head")
    job.do("loosen_base", "c1")
    job.read("bore_diameter", "c1", "57.010")
    job.read("piston_diameter", "c1", "56.962")
    for ring in job.anatomy.rings:
        job.read("ring_gap", ring, "0.25", gauge="feel")
    job.write(PartRemoved(slot="c1/circlips"))


def squished(job: Job) -> None:
    job.read("squish", "c1", "0.90")


def to_piston(job: Job) -> None:
    for valve in (IN, EX):
        job.read("valve_to_piston", valve, "1.9")


def turned(job: Job) -> None:
    job.cams_out()
    job.cams_in()
    job.do("turn_forwards", turns="2")


def proved(job: Job) -> None:
    turned(job)
    caps(job)
    job.marks()
    job.sign("H9a", "H9b", "H11")


def lash(job: Job) -> None:
    job.read("lash", IN, "0.13/0.14")
    job.read("lash", EX, "0.23/0.24")


def started(job: Job) -> None:
    proved(job)
    lash(job)
    job.sign("H10")
    job.read("oil_at_cams", "head", "seen")
    job.sign("H12a")
    job.read("leak_down", "c1", "5")
    job.read("compression", "c1", "900")


#: Hold: what leads to it, the words of what is missing then, and what brings it.
CASES: dict[str, tuple[Act, str, Act]] = {
    "H0b": (lambda j: j.do("dropped_in"), "dropped into the engine", lambda j: j.do("found")),
    "H1": (lambda j: None, "nothing read as found", lambda j: j.read("leak_down", "c1", "20")),
    "H5b": (lambda j: None, "no approval stands", lambda j: j.write(EstimateApproved(amount="800", currency="EUR", by="owner"))),
    "H6": (lambda j: (measured(j), j.do("open_keepers", EX), j.do("lap_valve", EX), [j.read(m, EX, t) for m, t in
           (("seat_width", "1.0"), ("contact", "centre"), ("tip_height", "40.00"))]), "not washed since", lambda j: j.do("wash")),
    "H7a": (ringed, "not new: ", lambda j: j.fit(j.receive("circlips", number="P-CLIP"), "c1/circlips")),
    "H7b": (lambda j: (apart(j), j.do("rag_in", count="2"), j.do("tighten_base", "c1"), j.do("rag_out", count="1")),
            "rags still counted inside", lambda j: j.do("rag_out", count="1")),
    "H7": (to_piston, "squish@c1", squished),
    "H8": (lambda j: j.read("seal_test", IN, "holds"), f"seal_test@{EX}", lambda j: j.read("seal_test", EX, "holds")),
    "H9": (lambda j: (j.do("loosen_head", "head"), j.do("sent_out", "head/head"), tight(j, "head head", "12", "22")),
           "not back: ", lambda j: j.do("came_back", "head/head")),
    "H9a": (lambda j: (j.cams_out(), j.do("tighten_cam_holder", *j.anatomy.cams)), "joint engine tensioner",
            lambda j: j.do("release_tensioner")),
    "H9b": (lambda j: (j.cams_out(), j.cams_in()), "not drawn up: cap bolts", caps),
    "H10": (lambda j: (proved(j), j.read("lash", IN, "0.13/0.14")), f"lash@{EX}", lambda j: j.read("lash", EX, "0.23/0.24")),
    "H11": (turned, "timing_marks@cam.in", lambda j: j.marks()),
    "H11b": (lambda j: j.do("open_sprocket", "cam.in"), "joint cam.in sprocket", cured),
    "H12a": (proved, "oil_at_cams@", lambda j: j.read("oil_at_cams", "head", "seen")),
    "H12": (started, "not done: ", lambda j: j.do("fill_fluids")),
    "H12b": (lambda j: j.do("heat_cycle"), f"lash@{IN}", lash),
}  # fmt: skip
#: Holds that rest on what the one who signs has seen, and on nothing that could be read.
SEEN = ("H0", "H1b", "H2", "H3", "H4", "H5", "H13")


def fresh() -> Job:
    return Job("bucket", more=LOCKED)


def test_every_hold_of_every_scope_is_tried_here_or_rests_on_eyes_alone() -> None:
    assert set(CASES) | set(SEEN) == set(HOLDS)
    assert {h.key for scope in SCOPES for h in holds_of(scope)} == set(HOLDS)
    assert all(hold.hides and (hold.asks or hold.proves or hold.joints) for hold in HOLDS.values())
    assert len(HOLDS) >= 23


@pytest.mark.parametrize("key", CASES)
def test_it_waits_for_its_evidence_and_passes_with_it(key: str) -> None:
    before, words, bring = CASES[key]
    job = fresh()
    before(job)
    assert any(words in need for need in job.hold(key).needs), job.hold(key).needs
    assert "It waits for" in job.refuses(HoldPassed(hold=key))
    bring(job)
    assert not [need for need in job.hold(key).needs if words in need]
    assert job.hold(key).needs == (), key
    job.sign(key)
    assert job.hold(key).state == "passed"


@pytest.mark.parametrize("key", CASES)
def test_signed_against_it_stands_with_its_reason_and_the_record_prints_it(key: str) -> None:
    before, _words, _bring = CASES[key]
    job = fresh()
    before(job)
    job.sign(key, override="seen by the old hand, told to the owner")
    hold = job.hold(key)
    assert (hold.state, hold.override) == ("signed against", "seen by the old hand, told to the owner")
    printed = repr(technical_record.blocks(recorded(job.bench.worked(job.number))))
    assert "seen by the old hand, told to the owner" in printed


@pytest.mark.parametrize("key", SEEN)
def test_what_only_eyes_can_tell_is_signed_and_can_be_taken_back(key: str) -> None:
    job = fresh()
    assert job.hold(key).asks
    entry = job.write(HoldPassed(hold=key))
    assert job.hold(key).state == "passed"
    job.write(Retraction(entry=entry, reason="not looked at"))
    assert job.hold(key).state == "open"


def test_a_locker_signed_before_its_time_is_no_hold_passed() -> None:
    job = fresh()
    job.do("open_sprocket", "cam.in")
    tight(job, "cam.in sprocket", "18")
    wait(job, 5)
    job.sign("H11b")
    assert job.hold("H11b").state == "undone"
    assert any(need.startswith("cure of 24 h: sprocket bolts") for need in job.hold("H11b").needs)
    wait(job, 20)
    job.sign("H11b")
    assert job.hold("H11b").state == "passed"


def test_a_head_that_is_opened_again_wants_its_fluids_again() -> None:
    job = fresh()
    started(job)
    job.do("fill_fluids")
    job.sign("H12")
    job.do("loosen_head", "head")
    tight(job, "head head", "12", "22")
    assert any(need.startswith("not done: ") for need in job.hold("H12").needs)


def test_head_nuts_are_retightened_after_a_heat_cycle_where_the_book_says_so() -> None:
    told = book("pushrod").replace('thread_state = "oil"', 'thread_state = "oil"\nretighten = "after heat cycle"')
    assert "after heat cycle" in told
    job = Job("pushrod")
    job.do("heat_cycle")
    assert not any("retightened" in need for need in job.hold("H12b").needs)
    again = Job("pushrod", text=told)
    again.do("heat_cycle")
    assert "not retightened since the heat cycle: head" in again.hold("H12b").needs
    again.do("retighten_head", "head")
    assert not any("retightened" in need for need in again.hold("H12b").needs)
