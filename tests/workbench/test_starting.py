"""Starting from nothing: a layout from pictures becomes a book, a job opens on it, and what is wrong is said at once."""

from __future__ import annotations

import pytest
from tests.workbench.engine import BOOK, HAND
from tests.workbench.memory import workbench

from gudgeon.problem import Refused
from gudgeon.workbench.owning import book_page, owning
from gudgeon.workbench.starting import FOLLOWERS, kept_books, next_number, start_book, take_in

OWN = {"family": "Mule 4", "follower": "bucket_under", "cylinders": "4", "valves_in": "2", "valves_ex": "2"}
CELLS = {"number": "26-001", "engine_number": "88", "scope": "valves", "book": "own", **OWN}


@pytest.mark.parametrize("follower", [f.key for f in FOLLOWERS])
def test_every_picture_makes_a_book_that_opens(follower: str) -> None:
    wb = workbench()
    number = take_in(wb, {**CELLS, "follower": follower}, "", HAND)
    assert wb.view(number).next.do == "measure"
    side = wb.worked(number).given.book.layout.intake
    assert (side.follower, side.screw_end == "cam") == (follower.partition(" at ")[0], follower.endswith("at cam"))


def test_sides_may_differ_and_arms_give_the_ratio() -> None:
    wb = workbench()
    sha = start_book(wb, {"name": "Twin", "follower": "rocker", "exhaust": "bucket_under", "cylinders": "2",
                          "ratio": "33 / 22", "lash_read": "cam", "cams": "one"})  # fmt: skip
    layout = wb.book(sha).layout
    assert (layout.intake.follower, layout.exhaust.follower, layout.arrangement) == ("rocker", "bucket_under", "inline")
    assert layout.intake.ratio == pytest.approx(1.5) and layout.exhaust.ratio == 1.0
    assert (layout.intake.lash_read, layout.exhaust.lash_read, layout.cams) == ("cam", "valve", "one")


def test_drive_holders_decompressor_and_vee_are_picked_too() -> None:
    wb = workbench()
    picked = {"name": "Vee", "follower": "bucket_over", "cylinders": "2", "arrangement": "vee", "drive": "gear",
              "holders": "one", "decompressor": "1", "valves_in": "2", "valves_ex": "2"}  # fmt: skip
    layout = wb.book(start_book(wb, picked)).layout
    assert (layout.arrangement, layout.cam_drive, layout.holders) == ("vee", "gear", "per engine")
    assert layout.decompressor == ("c1.ex.left", "c2.ex.left")
    pushed = wb.book(start_book(wb, {**picked, "name": "Low", "follower": "pushrod_screw", "drive": "belt"})).layout
    assert pushed.cam_drive == "pushrod", "push-rods have their cam below, whatever else was picked"


@pytest.mark.parametrize(
    ("cells", "where"),
    [
        ({"drive": "rope"}, "cam drive"),
        ({"family": " "}, "engine family"),
        ({"cylinders": "9"}, "cylinders"),
        ({"cylinders": "²"}, "cylinders"),
        ({"follower": "balloon"}, "followers"),
        ({"follower": "finger", "ratio": "12"}, "lever ratio"),
        ({"follower": "finger", "ratio": "3/0"}, "lever ratio"),
        ({"ceiling": "a lot"}, "price ceiling"),
        ({"book": "0" * 64}, "book"),
        ({"scope": "everything"}, "scope"),
        ({"number": "26/1"}, "job number"),
    ],
)
def test_what_is_wrong_is_refused_and_no_job_opens(cells: dict[str, str], where: str) -> None:
    wb = workbench()
    with pytest.raises(Refused) as refused:
        take_in(wb, {**CELLS, **cells}, "", HAND)
    assert refused.value.problems[0].where == where
    assert wb.jobs() == ()


def test_all_problems_are_said_at_once() -> None:
    with pytest.raises(Refused) as refused:
        take_in(workbench(), {**CELLS, "engine_number": "", "family": ""}, "", HAND)
    assert [p.where for p in refused.value.problems] == ["engine number", "engine family"]


def test_a_ceiling_is_approved_with_the_job() -> None:
    wb = workbench()
    number = take_in(wb, {**CELLS, "ceiling": "250.00"}, "", HAND)
    assert wb.worked(number).given.state.approvals[-1][1].amount == "250.00"


def test_numbers_go_on() -> None:
    wb = workbench()
    assert next_number(wb) == "26-001"
    take_in(wb, CELLS, "", HAND)
    assert next_number(wb) == "26-002"


def test_books_say_which_edition_is_the_newest() -> None:
    wb = workbench()
    wb.add_book(BOOK)
    assert [(b.name, b.newest) for b in kept_books(wb)] == [("Test 125", True)]


def test_what_a_workshop_owns() -> None:
    wb = workbench()
    sha = wb.add_book(BOOK)
    seen = owning(wb)
    assert seen.usual and len(seen.gauges) == 6 and all(g.doubt.startswith("±") for g in seen.gauges)
    assert (seen.overdue, seen.wrenches, seen.shims, seen.leftovers, seen.own_rules) == (0, 0, 0, 0, 0)
    assert book_page(wb, sha).lines[1] == "[book]"
