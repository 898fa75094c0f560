"""As found is derived: nothing a reading observed had been worked or opened, and every part is the engine's own."""

from __future__ import annotations

from story import Ledger

from gudgeon.job.entries import PartFitted


def as_found(ledger: Ledger, entry: str) -> bool:
    return next(t for t in ledger.state().readings if t.entry.typed.id == entry).as_found


def test_an_opened_joint_ends_it_for_what_looks_across_it_only() -> None:
    ledger = Ledger()
    first = ledger.read("lash", "c1.in.left")
    ledger.do("open_cam_holder", "cam.in")
    lash, tip, other = (
        ledger.read(*at) for at in (("lash", "c1.in.left"), ("tip_height", "c1.in.left"), ("lash", "c1.ex.left"))
    )
    assert [as_found(ledger, one) for one in (first, lash, tip, other)] == [True, False, True, True]


def test_worked_surfaces_are_not_as_found_and_cleaned_ones_still_are() -> None:
    ledger = Ledger()
    ledger.do("clean", "c1.ex.left/valve")
    cleaned = ledger.read("seat_width", "c1.ex.left")
    ledger.do("lap_valve", "c1.ex.left")
    lapped, stem = ledger.read("seat_width", "c1.ex.left"), ledger.read("stem_diameter", "c1.ex.left")
    assert [as_found(ledger, one) for one in (cleaned, lapped, stem)] == [True, False, True]


def test_a_new_part_was_not_found_in_its_place_or_on_the_bench() -> None:
    ledger = Ledger()
    part = ledger.receive("c1.ex.left/valve")
    loose, own = (
        ledger.read("stem_diameter", f"part:{part}"),
        ledger.read("stem_diameter", "part:orig:c1.ex.left/valve"),
    )
    ledger.add(PartFitted(part=part, slot="c1.ex.left/valve"))
    wobble = ledger.read("wobble", "c1.ex.left")
    ledger.add(PartFitted(part="orig:c1.ex.left/valve", slot="c1.ex.left/valve"))
    again = ledger.read("wobble", "c1.ex.left")
    assert [as_found(ledger, one) for one in (loose, own, wobble, again)] == [False, True, False, True]
