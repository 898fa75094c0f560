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


#: Ends of what small engines have, new range and limit, in mm: common practice, no source.
USUAL = {
    ("lash", "in"): ((0.04, 0.22), None),
    ("lash", "ex"): ((0.08, 0.30), None),
    ("stem_guide_clearance", "in"): ((0.010, 0.040), (0.07, 0.10)),
    ("stem_guide_clearance", "ex"): ((0.020, 0.060), (0.08, 0.12)),
    ("seat_width", "in"): ((0.5, 1.3), (1.4, 2.0)),
    ("head_flatness", ""): ((0.0, 0.05), (0.05, 0.10)),
    ("cam_runout", ""): ((0.0, 0.03), (0.04, 0.10)),
    ("ring_gap", "top"): ((0.10, 0.51), (0.45, 1.00)),
    ("ring_gap", "second"): ((0.20, 0.51), (0.50, 1.00)),
    ("side_clearance", "top"): ((0.015, 0.08), (0.08, 0.18)),
    ("journal_clearance", ""): ((0.02, 0.07), (0.09, 0.21)),
    ("follower_clearance", ""): ((0.011, 0.052), (0.08, 0.10)),
    ("chain_length", ""): ((127.0, 127.4), (128.5, 129.0)),
}


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_the_invented_ranges_have_the_size_and_shape_of_real_ones(path: Path) -> None:
    book = parse_book(path.read_text(encoding="utf-8"), path.name)
    for (of, side), (new, limit) in USUAL.items():
        row = book.limit_for(of, f"c1.{side}") if side else next((r for r in book.limits if r.of == of), None)
        if row is None and of in ("chain_length", "follower_clearance", "journal_clearance"):
            continue
        assert row is not None, (of, side)
        low, high = (row.least, row.most) if of == "lash" else (row.new_low, row.new_high)
        assert low is not None and high is not None and row.most is not None
        assert new[0] <= round(low, 6) and round(high, 6) <= new[1], (of, side, low, high)
        assert limit is None or limit[0] <= row.most <= limit[1], (of, side, row.most)
        if of == "lash":
            assert 0.02 <= round(high - low, 6) <= 0.10


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_springs_may_lose_as_much_as_real_ones(path: Path) -> None:
    # From eight springs of real books: 0.8 to 5.2 % of the new length (read in a trade survey).
    book = parse_book(path.read_text(encoding="utf-8"), path.name)
    for row in (r for r in book.limits if r.of == "spring_free_length"):
        assert row.least is not None and row.new_low is not None
        assert 0.008 <= 1 - row.least / row.new_low <= 0.052


#: What wear takes before the limit, and other shapes, least and most in mm: common practice, no source.
SHAPES = {
    "stem, wear below the low end of new": ("stem_diameter", lambda r: r.new_low - r.least, 0.010, 0.075),
    "margin, new": ("valve_margin", lambda r: (r.new_low + r.new_high) / 2, 0.7, 1.3),
    "margin, limit": ("valve_margin", lambda r: r.least, 0.4, 0.85),
    "out-of-round": ("out_of_round", lambda r: r.most, 0.025, 0.10),
    "taper": ("taper", lambda r: r.most, 0.025, 0.10),
    "lobe, wear below the low end of new": ("lobe_height", lambda r: r.new_low - r.least, 0.0, 0.30),
    "stem run-out": ("stem_runout", lambda r: r.most, 0.01, 0.06),
    "barrel face": ("barrel_flatness", lambda r: r.most, 0.05, 0.10),
    "spring load, share lost": ("spring_load", lambda r: 1 - r.least / r.new_low, 0.04, 0.07),
    "pin in piston, new": ("pin_piston_clearance", lambda r: r.new_high, 0.002, 0.014),
    "squish": ("squish", lambda r: r.new_low, 0.6, 1.2),
}


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
@pytest.mark.parametrize("shape", SHAPES)
def test_wear_takes_as_much_as_in_real_books(path: Path, shape: str) -> None:
    of, size, least, most = SHAPES[shape]
    rows = [r for r in parse_book(path.read_text(encoding="utf-8"), path.name).limits if r.of == of]
    assert rows
    assert all(least <= round(size(row), 6) <= most for row in rows), [round(size(row), 6) for row in rows]
