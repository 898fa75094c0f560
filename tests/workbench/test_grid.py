"""The grid like the book's page: cells refused one by one, sides beside each other, one edition per save, nothing half kept."""

from __future__ import annotations

from importlib.resources import files

import pytest
from tests.workbench.memory import workbench

from gudgeon.anatomy import expand
from gudgeon.book.parse import parse_book
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.grid import PAGES, shown, sides_of
from gudgeon.workbench.gridding import book_grid, keep, text_of, tried

EMPTY = """\
# mine, kept
[book]
name = "Fellrigg 212"
edition = "own"
[layout]
cylinders = 1
[layout.in]
valves = 2
follower = "bucket_under"
[layout.ex]
valves = 2
follower = "bucket_under"
"""


@pytest.fixture
def bench() -> Workbench:
    return workbench()


def demo(name: str) -> str:
    return files("gudgeon.demo").joinpath("books", f"{name}.toml").read_text(encoding="utf-8")


def limits(bench: Workbench, sha: str) -> list[tuple[str, str, str, str]]:
    return [(row.of, row.side, "–".join(str(q) for q in (row.new or ())), row.page) for row in bench.book(sha).limits]


def test_every_limit_stands_on_exactly_one_page() -> None:
    keys = [key for _name, limits in PAGES.values() for key in limits]
    assert sorted(keys) == sorted(CHARACTERISTICS)


@pytest.mark.parametrize("name", ["corrie", "scree", "gully", "tarn"])
def test_a_book_kept_as_it_is_shown_changes_nothing(bench: Workbench, name: str) -> None:
    sha = bench.add_book(demo(name))
    for page in PAGES:
        for unit in ("mm", "in"):
            seen = keep(bench, sha, page, shown(text_of(bench, sha), page, unit) | {"unit": unit})
            assert (seen.changed, seen.refused, seen.sha256) == (0, False, sha)
    assert len(bench.library.books()) == 1


def test_a_page_is_one_edition_and_its_page_number_is_typed_once(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    typed = {
        "stem_diameter.in.from": "4.975", "stem_diameter.in.to": "4,99", "stem_diameter.in.limit": "4.96 mm",
        "stem_diameter.ex.from": "4.960–4.975", "stem_diameter.ex.limit": "4.945", "stem_diameter.page": "6-9",
        "guide_bore.in.from": "5.000", "guide_bore.in.to": "5.012", "guide_bore.in.limit": "5.07", "guide_bore.ex.from": "=",
        "seat_width.in.limit": "1/16 in",
    }  # fmt: skip
    seen = keep(bench, sha, "valves", typed)
    assert [c.said for r in seen.rows for g in r.groups for c in (g.first, g.to, g.limit) if c.said] == []
    assert seen.changed == 4 and seen.edition == "own+1"
    assert text_of(bench, seen.sha256).startswith("# mine, kept\n")
    assert limits(bench, seen.sha256) == [
        ("stem_diameter", "in", "4.975 mm–4.99 mm", "6-9"),
        ("stem_diameter", "ex", "4.960 mm–4.975 mm", "6-9"),
        ("guide_bore", "", "5.000 mm–5.012 mm", "6-9"),
        ("seat_width", "in", "", "6-9"),
    ]
    assert str(bench.book(seen.sha256).limits[3].typed_most) == "1/16 in"
    assert [e for _s, _n, e in bench.library.books()] == ["own+1", "own"], "editions are kept"


def test_a_refused_cell_says_why_and_nothing_is_kept(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    typed = {"stem_diameter.in.from": "4.975", "stem_diameter.in.to": "4.990", "stem_diameter.ex.from": "5 psi",
             "guide_bore.in.from": "5.012", "guide_bore.in.to": "5.000", "seat_width.in.from": "1.0",
             "valve_margin.in.limit": "about a half", "wobble.in.limit": "1,234 µm"}  # fmt: skip
    seen = keep(bench, sha, "valves", typed)
    said = {c.name: c.said for r in seen.rows for g in r.groups for c in (g.first, g.to, g.limit) if c.said}
    assert set(said) == {"stem_diameter.ex.from", "guide_bore.in.from", "seat_width.in.to", "valve_margin.in.limit",
                         "wobble.in.limit"}  # fmt: skip
    assert "pressure" in said["stem_diameter.ex.from"] and "swapped" in said["guide_bore.in.from"]
    kept = {c.name: c.value for r in seen.rows for g in r.groups for c in (g.first, g.to, g.limit)}
    assert all(kept[name] == value for name, value in typed.items()), "what was typed stays typed"
    assert len(bench.library.books()) == 1


def test_the_audit_stands_beside_its_row_with_its_arithmetic(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    seen, _text = tried(bench, sha, "valves", {"guide_bore.in.from": "5.000", "guide_bore.in.to": "5.012",
                                               "guide_bore.in.limit": "4.99", "guide_bore.ex.from": "="})  # fmt: skip
    row = next(r for r in seen.rows if r.key == "guide_bore")
    assert any(f.severity == "error" and f.arithmetic for f in row.findings), row.findings
    assert not any(r.findings for r in seen.rows if r.key != "guide_bore")


def test_the_sides_part_and_come_together_again(bench: Workbench) -> None:
    one = bench.add_book(EMPTY + '[[limit]]\nof = "guide_bore"\nnew = ["5.000 mm", "5.012 mm"]\nmost = "5.070 mm"\n'
                                 'page = "6-9"\nmethod = "direct"\nnote = "both" # mine\n')  # fmt: skip
    shown_now = {c.name: c.value for r in book_grid(bench, one, "valves").rows for g in r.groups for c in (g.first,)}
    assert (shown_now["guide_bore.in.from"], shown_now["guide_bore.ex.from"]) == ("5.000", "=")
    two = keep(
        bench,
        one,
        "valves",
        {"guide_bore.ex.from": "5.010", "guide_bore.ex.to": "5.022", "guide_bore.ex.limit": "5.08"},
    )
    assert limits(bench, two.sha256) == [
        ("guide_bore", "in", "5.000 mm–5.012 mm", "6-9"),
        ("guide_bore", "ex", "5.010 mm–5.022 mm", "6-9"),
    ]
    assert {row.note for row in bench.book(two.sha256).limits} == {"both"}
    three = keep(
        bench, two.sha256, "valves", {"guide_bore.ex.from": "=", "guide_bore.ex.to": "", "guide_bore.ex.limit": ""}
    )
    assert limits(bench, three.sha256) == [("guide_bore", "", "5.000 mm–5.012 mm", "6-9")]
    gone = keep(bench, three.sha256, "valves", dict.fromkeys(shown(text_of(bench, three.sha256), "valves", "mm"), ""))
    assert limits(bench, gone.sha256) == [] and gone.edition == "own+3"


def test_two_benches_at_one_book_lose_nothing(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    keep(bench, sha, "lash", {"lash.in.from": "0.10", "lash.in.to": "0.15"})
    second = keep(bench, sha, "rings", {"ring_gap.top.limit": "0.6"})
    assert {row.of for row in bench.book(second.sha256).limits} == {"lash", "ring_gap"}
    clash = keep(bench, sha, "lash", {"lash.in.from": "0.12", "lash.in.to": "0.17"})
    assert clash.refused and "another bench" in clash.rows[0].groups[0].first.said
    assert len(bench.library.books()) == 3


@pytest.mark.parametrize("name", ["corrie", "scree", "gully", "tarn"])
def test_the_columns_follow_the_layout(name: str) -> None:
    anatomy = expand(parse_book(demo(name)).layout)
    for key in CHARACTERISTICS:
        assert sides_of(key, anatomy) in ((), ("",), ("in", "ex"), ("top", "second"))


@pytest.mark.parametrize("cell", ["compression..limit", "leak_down..limit"])
def test_a_limit_of_one_column_is_written_once(cell: str) -> None:
    bench = workbench()
    seen = keep(bench, bench.add_book(EMPTY), "lash", {cell: "20"})
    assert seen.problems == () and seen.changed == 1
