"""A seat cut and the shims fitted after it are retracted; guide, valve and the openings of the holders stay.

What comes back, what stays stale and by whose doing, and what was read under another belief.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest
from story import Ledger, fresh, why

from gudgeon.job.entries import PartFitted
from gudgeon.job.state import JobState, Taken

A, B, C, D = "c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right"
SEAT = ("seat_width", "contact", "seat_runout", "tip_height", "seal_test")


@dataclass
class Story:
    """The ledger and the entries that the story speaks of, by name."""

    ledger: Ledger = field(default_factory=Ledger)
    of: dict[str, str] = field(default_factory=dict)

    def read(self, name: str, key: str, where: str, text: str = "") -> None:
        self.of[name] = self.ledger.read(key, where, text)

    def taken(self, state: JobState, name: str) -> Taken:
        return next(t for t in state.readings if t.entry.typed.id == self.of[name])


def _found_and_stripped(story: Story) -> None:
    for valve, lash in ((A, "0.05/0.06"), (B, "0.12/0.13"), (C, "0.22/0.23"), (D, "0.21/0.22")):
        story.read(f"lash found {valve}", "lash", valve, lash)
    for cam in ("cam.in", "cam.ex"):
        story.ledger.do("open_cam_holder", cam)
    for valve, shim in ((A, "1.821"), (B, "1.774"), (C, "1.672"), (D, "1.733")):
        story.read(f"shim {valve}", "shim_thickness", valve, shim)
        for key in SEAT:
            story.read(f"{key} before {valve}", key, valve)
    story.ledger.do("sent_out", "head/head", order="M-7")
    kept = ("head/head", *(f"{v}/{part}" for v in (A, B, C, D) for part in ("guide", "seat")))
    story.ledger.do("came_back", "head/head", order="M-7", untouched=", ".join(kept))


def _guide_valve_and_cut(story: Story) -> None:
    story.ledger.do("fit_guide", A)
    story.of["guide"] = story.ledger.renew(f"{A}/guide")
    story.of["valve"] = story.ledger.renew(f"{A}/valve")
    story.read("stem", "stem_diameter", A, "4.981")
    story.read("bore of guide", "guide_bore", A, "5.003")
    story.read("tip between", "tip_height", A, "38.14")
    story.of["cut"] = story.ledger.do("cut_seat", A)
    story.ledger.do("seat_keepers", A)
    for name, key, text in (
        ("tip after", "tip_height", "38.42"),
        ("width after", "seat_width", "1.07"),
        ("contact after", "contact", "centre"),
        ("height after", "installed_height", "34.90"),
    ):
        story.read(name, key, A, text)


def _shims_and_proof(story: Story) -> None:
    ledger = story.ledger
    new = ledger.receive(f"{A}/shim")
    story.of["fitted A"] = ledger.add(PartFitted(part=new, slot=f"{A}/shim"))
    story.of["fitted B"] = ledger.add(PartFitted(part=f"orig:{C}/shim", slot=f"{B}/shim"))
    bought = ledger.receive(f"{C}/shim")
    story.of["fitted C"] = ledger.add(PartFitted(part=bought, slot=f"{C}/shim"))
    for cam in ("cam.in", "cam.ex"):
        ledger.do("tighten_cam_holder", cam)
    ledger.do("turn_forwards", "engine", turns="2")
    for valve in (A, B, C, D):
        story.read(f"lash first {valve}", "lash", valve)
    ledger.do("open_cam_holder", "cam.ex")
    ledger.do("tighten_cam_holder", "cam.ex")
    ledger.do("turn_forwards", "engine", turns="2")
    for valve in (C, D):
        story.read(f"lash proof {valve}", "lash", valve)
    story.read("leak final", "leak_down", "c1", "7 %")


@pytest.fixture(scope="module")
def told() -> tuple[Story, JobState, JobState]:
    """The story, its state before the retractions, and after them."""
    story = Story()
    _found_and_stripped(story)
    _guide_valve_and_cut(story)
    _shims_and_proof(story)
    before = story.ledger.state()
    for name in ("cut", "fitted A", "fitted B", "fitted C"):
        story.of[f"no {name}"] = story.ledger.retract(story.of[name])
    after = story.ledger.state()
    assert not before.problems and not after.problems
    return story, before, after


Told = tuple[Story, JobState, JobState]


def test_fresh_again_is_the_tip_read_between_valve_and_cut(told: Told) -> None:
    story, before, after = told
    assert why(before, story.of["tip between"]) == {"seat cut"}
    assert fresh(after, story.of["tip between"])


def test_what_was_read_before_the_shop_stays_stale_by_guide_and_valve(told: Told) -> None:
    story, before, after = told
    for key in SEAT:
        assert "seat cut" in why(before, story.of[f"{key} before {A}"])
        now = why(after, story.of[f"{key} before {A}"])
        assert "guide fitted" in now
        assert "seat cut" not in now
    assert "valve exchanged" in why(after, story.of[f"tip_height before {A}"])


def test_the_first_exhaust_lash_stays_stale_by_the_later_opening(told: Told) -> None:
    story, _before, after = told
    for valve in (C, D):
        assert why(after, story.of[f"lash first {valve}"]) == {"cam holder opened"}
        assert fresh(after, story.of[f"lash proof {valve}"])


AFTER_THE_CUT = (
    "tip after",
    "width after",
    "contact after",
    "height after",
    f"lash first {A}",
    f"lash first {B}",
    "leak final",
)


@pytest.mark.parametrize("name", AFTER_THE_CUT)
def test_everything_read_after_the_cut_stays_fresh(told: Told, name: str) -> None:
    story, before, after = told
    assert fresh(before, story.of[name])
    assert fresh(after, story.of[name])


def test_what_looked_at_the_cut_or_a_shim_was_read_under_another_belief(told: Told) -> None:
    story, before, after = told
    assert not any(t.other_belief for t in before.readings)
    seq = {name: int(story.of[f"no {name}"][1:]) for name in ("cut", "fitted A", "fitted B", "fitted C")}
    cut = (seq["cut"],)
    wanted = dict.fromkeys(("tip after", "width after", "contact after", "height after", "leak final"), cut)
    wanted |= {f"lash first {A}": (seq["cut"], seq["fitted A"]), f"lash first {B}": (seq["fitted B"],)}
    wanted |= {f"lash first {C}": (seq["fitted C"],), f"lash proof {C}": (seq["fitted C"],)}
    found = {t.entry.typed.id: t.other_belief for t in after.readings if t.other_belief}
    assert found == {story.of[name]: seqs for name, seqs in wanted.items()}


def test_nothing_was_cut_and_no_pair_was_made(told: Told) -> None:
    story, before, after = told
    assert [d.where for d in before.did("cut_seat")] == [A]
    assert after.did("cut_seat") == ()
    assert [p.parts for p in before.pairs] == [(story.of["valve"], f"orig:{A}/seat")]
    assert after.pairs == ()


def test_the_shims_fall_back_to_those_that_were_there(told: Told) -> None:
    story, before, after = told
    assert [before.slots[f"{v}/shim"] == f"orig:{v}/shim" for v in (A, B, C, D)] == [False, False, False, True]
    for valve, text in ((A, "1.821"), (B, "1.774"), (C, "1.672"), (D, "1.733")):
        assert after.slots[f"{valve}/shim"] == f"orig:{valve}/shim"
        shim = story.taken(after, f"shim {valve}")
        assert (shim.fresh, shim.part, shim.fact.text) == (True, f"orig:{valve}/shim", text)  # type: ignore[union-attr]


def test_guide_and_valve_stay_renewed_and_their_fit_untouched(told: Told) -> None:
    story, _before, after = told
    assert after.slots[f"{A}/valve"] == story.of["valve"]
    for name in ("stem", "bore of guide"):
        assert fresh(after, story.of[name])
        assert not story.taken(after, name).other_belief


def test_the_exhaust_side_is_untouched_but_for_one_shim(told: Told) -> None:
    story, before, after = told
    for valve in (C, D):
        for key in SEAT:
            name = f"{key} before {valve}"
            was, now = story.taken(before, name), story.taken(after, name)
            assert (was.fresh, was.reasons, was.other_belief) == (now.fresh, now.reasons, now.other_belief)
    assert after.slots[f"{D}/shim"] == before.slots[f"{D}/shim"]


def test_the_retractions_retracted_everything_is_as_it_was(told: Told) -> None:
    story, before, _after = told
    again = Ledger(story.ledger.layout, entries=list(story.ledger.entries))
    for name in ("no cut", "no fitted A", "no fitted B", "no fitted C"):
        again.retract(story.of[name])
    state = again.state()
    assert [(t.fresh, t.reasons, t.other_belief) for t in state.readings] == [
        (t.fresh, t.reasons, t.other_belief) for t in before.readings
    ]
    assert (state.slots, state.pairs) == (before.slots, before.pairs)
