"""The demo's own books and shelf stand up to the audit, with every place filled and every page given."""

from pathlib import Path

import pytest

import gudgeon
from gudgeon.anatomy import expand
from gudgeon.audit import audit
from gudgeon.book import parse_book
from gudgeon.shelf import parse_shelf

DEMO = Path(gudgeon.__file__).parent / "demo"
BOOKS = sorted((DEMO / "books").glob("*.toml"))
SHELF = parse_shelf((DEMO / "shelf.toml").read_text(encoding="utf-8"), "shelf.toml")


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_the_books_are_clean(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert [str(finding) for finding in audit(text, SHELF, path.name)] == []


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_every_place_has_a_part_and_every_valve_its_window(path: Path) -> None:
    book = parse_book(path.read_text(encoding="utf-8"), path.name)
    anatomy = expand(book.layout)
    assert {slot for part in book.parts for slot in part.slots} == set(anatomy.slots)
    for valve in anatomy.valves:
        lash = book.limit_for("lash", valve)
        assert lash is not None and lash.least is not None and lash.most is not None
    assert all(row.page for row in book.limits)


#: One reading of each gauge at a usual size, and the standard uncertainty its sheet states.
STATED = {
    "MIC-25": (5.0, 0.0015), "MIC-50": (35.0, 0.0018), "MIC-100": (88.0, 0.003), "BG-88": (88.0, 0.003),
    "SH-1": (5.0, 0.003), "CAL-1": (42.0, 0.0155), "SE-1": (0.04, 0.006), "GRID-1": (0.036, 0.003), "DM-1": (37.0, 0.004),
    "DM-TIP": (37.0, 0.005), "LD-1": (0.02, 0.002), "GRAT-1": (1.0, 0.03), "ST-1": (154.0, 1.5), "STRIP-1": (0.05, 0.006),
    "CG-1": (1100.0, 18.5), "LT-1": (24.0, 1.0),
}  # fmt: skip


@pytest.mark.parametrize("gauge", STATED)
def test_the_gauges_know_as_much_as_their_sheets_say(gauge: str) -> None:
    value, stated = STATED[gauge]
    card = SHELF.gauge(gauge)
    assert card is not None
    assert card.u(value) == pytest.approx(stated, rel=0.005)
