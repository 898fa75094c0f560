"""A pasted table: offered, changed by hand, taken at one go; one refused row and nothing is taken."""

from __future__ import annotations

from importlib.resources import files

import pytest
from tests.workbench.memory import workbench
from tests.workbench.test_grid import EMPTY

from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.pasting import MOST_OFFERS, Pasted, pasted, take

TABLE = """\
Item\tStandard (mm)\tService limit (mm)\tStandard (in)\tLimit (in)\tPage
Valve clearance IN\t0.10–0.15\t—\t0.0039–0.0059\t\t3-2
Valve stem OD IN\t4.975–4.990\t4.960\t0.1959–0.1965\t0.1953\t3-9
Piston thing\t1.0–1.1\t1.2
Seat width\t1.5\t0.9–1.1
"""


@pytest.fixture
def bench() -> Workbench:
    return workbench()


def form(page: Pasted, **changed: str) -> dict[str, str]:
    """The form as the screen would send it."""
    fields = {"rows": str(len(page.offers))}
    for o in page.offers:
        for name in ("where", "item", "of", "side", "new", "limit", "also", "page"):
            fields[f"{name}.{o.n}"] = getattr(o, name)
        fields[f"take.{o.n}"] = "1" if o.take else ""
    return fields | {name.replace("_", "."): value for name, value in changed.items()}


def test_sure_rows_are_ticked_and_become_one_edition_with_both_units(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    page = pasted(bench, sha, TABLE, None)
    assert [(o.of, o.side, o.take) for o in page.offers] == [
        ("lash", "in", True), ("stem_diameter", "in", True), (page.offers[2].of, "", False), ("seat_width", "", False)]  # fmt: skip
    assert page.offers[3].question
    new, _page = take(bench, sha, form(page))
    lash, stem = bench.book(new).limits
    assert bench.book(new).edition == "own+1"
    assert (str(lash.typed_least), str(lash.also_most), lash.page) == ("0.10 mm", "0.0059 in", "3-2")
    assert stem.also_new is not None and (str(stem.also_new[1]), str(stem.also_least)) == ("0.1965 in", "0.1953 in")
    assert len(bench.library.books()) == 2


def test_a_choice_is_changed_by_hand(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    page = pasted(bench, sha, TABLE, None)
    new, _page = take(bench, sha, form(page, of_2="side_clearance", side_2="top", new_2="0.03–0.065", limit_2="0.12",
                                       take_2="1", new_3="0.9 to 1.1", limit_3="1.5", take_3="1"))  # fmt: skip
    assert [(r.of, r.side) for r in bench.book(new).limits] == [
        ("lash", "in"), ("stem_diameter", "in"), ("side_clearance", "top"), ("seat_width", "")]  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"take_2": "1", "of_2": ""}, "No limit was chosen"),
        ({"take_3": "1", "new_3": "1.5"}, "no two ends"),
        ({"side_1": "rear"}, "no such side"),
        ({"new_1": "4.990–4.975"}, "swapped"),
        ({"new_1": "4.975 psi–4.990 psi"}, "pressure"),
        ({"new_1": "", "limit_1": ""}, "Both cells are empty"),
        ({"of_1": "lash", "side_1": "in", "limit_1": "", "also_1": ""}, "says this already"),
    ],
)
def test_one_refused_row_and_nothing_is_taken(bench: Workbench, changed: dict[str, str], words: str) -> None:
    sha = bench.add_book(EMPTY)
    page = pasted(bench, sha, TABLE, None)
    new, seen = take(bench, sha, form(page, **changed))
    assert new == "" and seen.refused and any(words in o.said for o in seen.offers), [o.said for o in seen.offers]
    assert len(bench.library.books()) == 1
    typed = form(page, **changed)
    assert all(o.new == typed[f"new.{o.n}"] for o in seen.offers), "what was typed stays"


def test_another_books_file_gives_its_limits(bench: Workbench) -> None:
    sha = bench.add_book(EMPTY)
    data = files("gudgeon.demo").joinpath("books", "gully.toml").read_bytes()
    page = pasted(bench, sha, "", ("gully.toml", data))
    assert page.offers and all(o.take for o in page.offers)
    new, seen = take(bench, sha, form(page))
    assert new, [o.said for o in seen.offers if o.said]
    assert len(bench.book(new).limits) == len(page.offers)


def test_rows_that_the_book_has_are_changed_in_place(bench: Workbench) -> None:
    sha = bench.add_book(
        EMPTY + '[[limit]]\nof = "seat_width"\nnew = ["0.9 mm", "1.1 mm"]  # page smudged\nmost = "1.4 mm"\n'
    )
    page = pasted(bench, sha, "Item\tStandard mm\tLimit\nSeat width\t0.9–1.1\t1.5\n", None)
    assert "most 1.4 mm" in page.offers[0].there
    new, _page = take(bench, sha, form(page))
    text = bench.library.book(new) or ""
    assert "# page smudged" in text and 'most = "1.5 mm"' in text and text.count("[[limit]]") == 1


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "holds no row"),
        ("Item\tStandard\n", "figure"),
        ("Stem\t1\n" * (MOST_OFFERS + 1), "at most"),
        ("a\0b", "no text"),
    ],
)
def test_what_is_no_table_is_refused_in_words(bench: Workbench, text: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        pasted(bench, bench.add_book(EMPTY), text, None)
