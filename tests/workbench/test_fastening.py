"""Fasteners typed as a grid, and bolts placed by the layout or in the order they were tapped."""

from __future__ import annotations

import pytest
from tests.workbench.memory import workbench
from tests.workbench.test_grid import EMPTY, demo

from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.fastening import bolts, fastener_grid, keep_bolts, keep_fasteners, usual_positions


@pytest.fixture
def bench() -> Workbench:
    return workbench()


def test_the_joints_of_the_engine_wait_for_their_torque(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    rows = fastener_grid(bench, sha)[0].rows
    assert rows[0].cells["name"].value == "head nuts" and rows[0].n == -1
    typed = {"0.thread": "M10×1.25", "0.grade": "10.9", "0.count": "4", "0.torque": "20 / 40 / 62", "0.page": "6-30"}
    seen = keep_fasteners(bench, sha, typed)
    (row,) = bench.book(seen.sha256).fasteners
    assert (row.name, row.joint, row.count, [str(t) for t in row.torque]) == (
        "head nuts", "head", 4, ["20 N·m", "40 N·m", "62 N·m"])  # fmt: skip
    assert bench.book(seen.sha256).edition == "own+1"


@pytest.mark.parametrize(
    ("cell", "text"), [("torque", "40 / 20"), ("torque", "5 mm"), ("count", "four"), ("count", "900")]
)
def test_a_refused_cell_keeps_nothing(bench: Workbench, cell: str, text: str) -> None:
    sha = bench.add_book(EMPTY)
    seen = keep_fasteners(bench, sha, {"0.thread": "M6", "0.torque": "10", f"0.{cell}": text})
    assert seen.refused and seen.rows[0].cells[cell].said and seen.rows[0].cells[cell].value == text
    assert len(bench.library.books()) == 1


@pytest.mark.parametrize("name", ["corrie", "scree", "gully", "tarn"])
def test_a_book_kept_as_it_is_shown_changes_nothing(bench: Workbench, name: str) -> None:
    sha = bench.add_book(demo(name))
    shown = {c.name: c.value for row in fastener_grid(bench, sha)[0].rows for c in row.cells.values()}
    assert keep_fasteners(bench, sha, shown).sha256 == sha and len(bench.library.books()) == 1


def test_bolts_are_kept_in_the_order_they_were_tapped(bench: Workbench) -> None:
    sha = bench.add_book(demo("corrie"))
    assert bolts(bench, sha, 0).places[1] == (48.0, 46.0), "the second that is tightened"
    new = keep_bolts(bench, sha, 0, "-29.2 −24\n28.9 31.4\n28.9 -24\n-29.2 31.4\n")
    row = bench.book(new).fasteners[0]
    assert row.order == (1, 2, 3, 4) and row.positions_mm[1] == (28.9, 31.4)
    for wrong in ("1 2\n3 4", "1 2\n1 2\n3 4\n5 6", "a b\n1 2\n3 4\n5 6", "nan 1\n1 2\n3 4\n5 6"):
        with pytest.raises(Refused):
            keep_bolts(bench, new, 0, wrong)


@pytest.mark.parametrize("count", range(1, 13))
def test_the_layout_gives_every_bolt_a_place_of_its_own(count: int) -> None:
    assert len(set(usual_positions(count, 88.0))) == count
