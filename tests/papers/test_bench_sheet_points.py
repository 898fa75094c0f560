"""The bench sheet asks at each place for the points that this place has."""

from __future__ import annotations

from importlib.resources import files

from tests.workbench.memory import workbench

from gudgeon.job.entries import JobOpened
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.shape import Measurand
from gudgeon.workbench.asks import point_words
from gudgeon.workbench.bench import Hand
from gudgeon.workbench.blanks import blanks_of


def test_every_row_has_the_points_of_its_own_place() -> None:
    """Journals of an intake and of an exhaust cam carry the names of their own valves."""
    wb, hand = workbench(), Hand(by="mara", bench="north")
    book = files("gudgeon.demo").joinpath("books", "corrie.toml").read_text(encoding="utf-8")
    wb.open_job(JobOpened(number="B-1", engine_number="1", scope="whole top end"), wb.add_book(book), hand)
    given = wb.worked("B-1").given
    anatomy, blanks = given.state.anatomy, blanks_of(given)
    assert blanks
    differing = 0
    for blank in blanks:
        kind: Measurand = MEASURANDS[blank.measurand]
        for row in blank.rows:
            assert row.points == tuple(point_words(p) for p in kind.points(anatomy, row.place)), (blank.name, row.where)
            differing += row.points != blank.points
    assert differing
