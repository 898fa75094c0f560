"""Taken apart again: exactly the steps of what was opened are to be done once more, and exactly their evidence is gone.

The oracle knows no anatomy and no freshness: it goes through the story from the end and looks for the last word on a joint.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from gudgeon.job.entries import HoldPassed, PartsSwapped, TorqueApplied
from plan_bench import PlanBench

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"
#: Joint: what opens it, what closes it by one word, its fasteners with their torques.
JOINTS = {
    "head cover": ("open_cover", "tighten_cover", {"cover bolts": ("8",)}),
    "engine tensioner": ("remove_tensioner", "release_tensioner", {"tensioner bolts": ("10",)}),
    "cam.in sprocket": ("open_sprocket", "tighten_sprocket", {"sprocket bolts": ("18",)}),
    "cam.ex sprocket": ("open_sprocket", "tighten_sprocket", {"sprocket bolts": ("18",)}),
    "cam.in holder": ("open_cam_holder", "tighten_cam_holder", {"cam holder bolts": ("4", "7", "10")}),
    "cam.ex holder": ("open_cam_holder", "tighten_cam_holder", {"cam holder bolts": ("4", "7", "10")}),
    "head head": ("loosen_head", "tighten_head", {"head nuts": ("20", "40", "62"), "head side bolts": ("10",)}),
    "c1 base": ("loosen_base", "tighten_base", {"base bolts": ("10",)}),
    "c1 plug": ("plug_out", "plug_in", {"plug": ("12",)}),
}
CLOSES = {closes for _opens, closes, _bolts in JOINTS.values()}
#: What happened, as the oracle keeps it: "open", "close", or the fastener that came to its last stage; and the joint.
Story = list[tuple[str, str]]


def book(name: str) -> PlanBench:
    texts = [(DEMO / at).read_text(encoding="utf-8") for at in (f"books/{name}.toml", "shelf.toml")]
    return PlanBench(*texts, "whole top end", engine_number="0417")


def live(job: PlanBench, random: Random, story: Story, times: int) -> None:
    """Joints opened, closed by a word or bolt by bolt, sometimes only half of them; two shims exchanged now and then."""
    for _ in range(times):
        joint = random.choice(list(JOINTS))
        opens, closes, bolts = JOINTS[joint]
        place = joint.split(" ")[0]
        match random.choice(("open", "open", "close", "bolts", "half", "swap")):
            case "open":
                job.do(opens, place)
                story.append(("open", joint))
            case "close":
                job.do(closes, place)
                story.append(("close", joint))
            case "swap":
                job.record(PartsSwapped(slot="c1.in.left/shim", other="c1.in.right/shim"))
                story.append(("open", "cam.in holder"))
            case how:
                names = list(bolts)[: 1 if how == "half" else None]
                for name in names:
                    for n, torque in enumerate(bolts[name], 1):
                        job.record(TorqueApplied(joint=f"{joint}#{name}", stage=n, of=len(bolts[name]), setting=torque,
                                                 unit="N·m", wrench=""))  # fmt: skip
                    story.append((name, joint))


def closed(story: Story, joint: str) -> bool:
    """Whether the joint was opened, and closed since: by a word, or by every one of its fasteners."""
    missing, was_open = set(JOINTS[joint][2]), any(w == ("open", joint) for w in story)
    for what, where in reversed(story):
        if where != joint:
            continue
        if what == "open":
            return False
        missing -= {what}
        if what == "close" or not missing:
            return was_open
    return False


def written(story: Story, joint: str) -> set[str]:
    """The fasteners at their last stage since the joint was opened."""
    found: set[str] = set()
    for what, where in reversed(story):
        if where == joint and what == "open":
            break
        found |= {what} if where == joint and what in JOINTS[joint][2] else set()
    return found


@pytest.mark.parametrize("seed", range(40))
def test_steps_and_evidence_of_what_was_opened_again_and_of_nothing_else(seed: int) -> None:
    random, story, job = Random(seed), Story(), book("corrie")
    live(job, random, story, random.randint(2, 30))
    found = {str(n["joint"]): n["state"] == "done" for line in job.plan("route").lines
             if (n := dict(line.numbers)).get("operation") in CLOSES and n.get("joint") in JOINTS}  # fmt: skip
    assert found == {joint: closed(story, joint) for joint in found}
    assert set(found) == set(JOINTS)
    fresh = {(e.fact.joint.partition("#")[0], e.fact.joint.partition("#")[2]) for e in job.given.state.evidence
             if e.fresh and isinstance(e.fact, TorqueApplied) and e.fact.stage == e.fact.of}  # fmt: skip
    assert fresh == {(joint, name) for joint in JOINTS for name in written(story, joint)}


@pytest.mark.parametrize("seed", range(20))
def test_a_hold_is_undone_by_its_own_joints_and_by_no_others(seed: int) -> None:
    """H9 rests on the head joint, H7b on the base; they are signed, then anything happens."""
    random, story, job = Random(1000 + seed), Story(), book("corrie")
    for joint in ("head head", "c1 base"):
        job.do(JOINTS[joint][0], joint.split(" ")[0])
        job.do(JOINTS[joint][1], joint.split(" ")[0])
    signed = job.record(HoldPassed(hold="H9"), HoldPassed(hold="H7b"))
    assert signed
    live(job, random, story, random.randint(1, 8))
    stands = {e.fact.hold: e.fresh for e in job.given.state.evidence if isinstance(e.fact, HoldPassed)}
    assert stands == {"H9": ("open", "head head") not in story, "H7b": ("open", "c1 base") not in story}


@pytest.mark.parametrize("name", ("corrie", "scree", "gully", "tarn"))
def test_every_joint_that_is_opened_on_the_way_down_is_closed_on_the_way_up_and_tells_its_fasteners(name: str) -> None:
    job = book(name)
    lines = [dict(line.numbers) for line in job.plan("route").lines]
    down = [n["joint"] for n in lines if n.get("phase") == "strip" and n.get("joint")]
    up = [n["joint"] for n in lines if n.get("phase") == "build" and n.get("joint")]
    assert set(down) == set(up)
    assert len(down) == len(set(down)) == len(up)
    for n in lines:
        place, _, joint = str(n.get("joint") or "").partition(" ")
        if n.get("phase") == "build" and joint:
            for row in job.book.fasteners_at(place, joint):
                assert row.name in str(n["tightening"])
                assert all(f"{nm:g}" in str(n["tightening"]) for nm in row.stages_nm)
