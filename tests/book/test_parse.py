"""A book's text becomes rows; what is wrong with it comes all at once, each with its line and what to do."""

import pytest

from gudgeon.anatomy import Layout, Side
from gudgeon.book import digest, empty_book, parse_book, read_rows
from gudgeon.problem import Refused

HEAD = """\
[book]
name = "Test engine"
edition = "3"

[layout]
cylinders = 1
arrangement = "single"

[layout.in]
valves = 2
follower = "finger"
lash_read = "cam"
ratio = "33.0 / 22.0"

[layout.ex]
valves = 2
follower = "bucket_under"
"""
HEAD_LINES = HEAD.count("\n")


def problems(text: str) -> list[tuple[int, str]]:
    with pytest.raises(Refused) as refused:
        parse_book(HEAD + text, "b.toml")
    found = []
    for problem in refused.value.problems:
        name, _, line = problem.where.partition(":")
        assert name == "b.toml"
        found.append((int(line) - HEAD_LINES, f"{problem.what} {problem.remedy}"))
    return found


def test_a_book_with_nothing_but_a_layout_stands() -> None:
    book = parse_book(HEAD)
    assert (book.name, book.edition, book.limits) == ("Test engine", "3", ())
    assert book.layout.intake == Side(valves=2, follower="finger", lash_read="cam", ratio=1.5)
    assert book.sha256 == digest(HEAD)
    assert book.limit_for("lash", "c1.in.left") is None


def test_an_empty_book_reads_back_as_its_layout() -> None:
    side = Side(valves=1, follower="pushrod_screw", ratio=1.4)
    layout = Layout(cylinders=2, arrangement="vee", intake=side, exhaust=side, cam_drive="pushrod", liquid=False,
                    decompressor=("c1.ex",))  # fmt: skip
    assert parse_book(empty_book(layout, 'my "own" engine')).layout == layout


LIMITS = """
[[limit]]
of = "lash"
least = "0.10 mm"
most = "0.20 mm"
[[limit]]
of = "lash"
side = "ex"
least = "0.20 mm"
most = "0.25 mm"
[[limit]]
of = "lash"
side = "c1.ex.left"
most = "0.012 in"
[[limit]]
of = "ring_gap"
side = "top"
new = ["0.20 mm", "0.30 mm"]
"""


def test_the_row_that_names_the_place_wins_over_its_side_and_that_over_any() -> None:
    book = parse_book(HEAD + LIMITS)
    most = {v: getattr(book.limit_for("lash", v), "most", None) for v in ("c1.in.left", "c1.ex.right", "c1.ex.left")}
    assert most == {"c1.in.left": 0.20, "c1.ex.right": 0.25, "c1.ex.left": pytest.approx(0.3048)}
    assert book.limit_for("ring_gap", "c1.ring.top") is book.limits[3]
    assert book.limit_for("ring_gap", "c1.ring.second") is None
    assert book.limits[1].line == HEAD_LINES + 6
    assert book.limits[2].typed_most is not None and book.limits[2].typed_most.text == "0.012 in"


def test_shim_sizes_are_exact_and_marked_as_they_are_etched() -> None:
    book = parse_book(HEAD + '[[shims]]\nsmallest = "1.20 mm"\nlargest = "1.30 mm"\nstep = "0.025 mm"\n')
    assert book.shims is not None
    assert book.shims.sizes() == (1.2, 1.225, 1.25, 1.275, 1.3)
    assert book.shims.marked(1.25) == "125"


def test_a_star_stands_for_every_place_alike() -> None:
    book = parse_book(HEAD + '[[part]]\nnumber = "1"\nname = "valve"\nslots = ["c*.in.*/valve"]\n')
    assert book.parts[0].slots == ("c1.in.left/valve", "c1.in.right/valve")
    assert book.parts_in("c1.in.right/valve") == book.parts


def test_all_problems_come_at_once_in_the_order_of_their_lines() -> None:
    text = """
[[limit]]
of = "stem_diametre"
new = ["4.9 mm", "5.0 mm"]
[[limit]]
of = "lash"
least = "0.25"
most = 0.2
[[limts]]
[[limit]]
of = "stem_diameter"
new = ["4.99 mm", "4.97 mm"]
least = "4.96 N"
"""
    found = problems(text)
    assert [line for line, _ in found] == [3, 7, 8, 9, 12, 13]
    for (_, words), expected in zip(
        found,
        ("Did you mean stem_diameter", "no unit", "in quotes", "Did you mean limit", "swapped", "length is wanted"),
        strict=True,
    ):
        assert expected in words


def test_rows_that_can_be_read_are_there_while_others_cannot() -> None:
    rows, found = read_rows(HEAD + LIMITS + '[[limit]]\nof = "taper"\nmost = "0.03"\n')
    assert len(rows.limits) == 4
    assert len(found) == 1


@pytest.mark.parametrize("text", ["", "x", "[book", "\x00", "[book]\n[book]", "book = 1\nlayout = 2\nlimit = 3", "limit = [1]",
                                  "[layout]\nin = 1", "[[book]]\n[[layout]]", "[[geometry]]", "aim = []"])  # fmt: skip
def test_nothing_typed_raises_anything_but_a_refusal(text: str) -> None:
    with pytest.raises(Refused):
        parse_book(text)


def test_a_byte_order_mark_and_line_ends_of_another_system_do_not_matter() -> None:
    book = parse_book("\ufeff" + (HEAD + LIMITS).replace("\n", "\r\n"))
    assert book.limits[1].line == HEAD_LINES + 6


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ('[[limit]]\nof = "lash"\nside = "inn"\nmost = "1 mm"', 1, "no inn"),
        ('[[limit]]\nof = "lash"\nmost = "1 mm"\n[[limit]]\nof = "lash"\nmost = "2 mm"', 4, "already in line"),
        ('[[limit]]\nof = "lash"', 1, "neither a range nor a limit"),
        ('[[limit]]\nof = "seal_test"\nexpect = "dry"', 3, "holds, weeps, leaks"),
        ('[[limit]]\nof = "lash"\nnew = ["1 mm"]', 3, "two ends"),
        ('[[part]]\nnumber = "1"\nname = "a"\n[[part]]\nnumber = "1"\nname = "b"', 4, "already in line"),
        ('[[part]]\nnumber = "1"\nname = "a"\nslots = ["c2/piston"]', 1, "Did you mean c1/piston"),
        ('[[part]]\nnumber = "1"\nname = "a"\nslots = ["c1/piston"]\n[[part]]\nnumber = "2"\nname = "b"\n'
         'slots = ["c1/piston"]', 5, "already holds 1"),
        ('[[fastener]]\nname = "a"\njoint = "hed"', 1, "no joint hed"),
        ('[[fastener]]\nname = "a"\njoint = "head"\nplace = "c1"', 1, "no joint head at c1"),
        ('[[fastener]]\nname = "a"\ntorque = ["20 Nm", "10 Nm"]', 3, "do not rise"),
        ('[[fastener]]\nname = "a"\ntorque = "20 Nm"', 3, "not a list"),
        ('[[shims]]\nsmallest = "2 mm"\nlargest = "1 mm"\nstep = "0.05 mm"', 1, "Smallest first"),
        ('[[shims]]\nsmallest = "1 mm"\nlargest = "2 mm"\nstep = "1 µm"', 1, "over five hundred"),
        ('[geometry]\nbore = "88 N"', 2, "length is wanted"),
        ('[geometry]\nbore = "0 mm"', 2, "not above zero"),
        ('[[caution]]\nat = "cut_seats"\nwords = "x"', 1, "Did you mean cut_seat"),
        ('[[seat]]\nside = "in"\ncontact = "45"', 3, "no unit"),
    ],
)  # fmt: skip
def test_each_mistake_is_named_with_its_line(text: str, line: int, words: str) -> None:
    assert [(found, words in said) for found, said in problems(text + "\n")] == [(line, True)], problems(text)


def test_a_set_is_one_piece_for_all_the_slots_it_fills() -> None:
    row = '[[part]]\nnumber = "1"\nname = "ring set"\nslots = ["c*.ring.*/ring", "c*/oil ring"]\nfills = "cylinder"\n'
    text = HEAD.replace("cylinders = 1", "cylinders = 2").replace('"single"', '"inline"')
    assert parse_book(text + row).parts[0].groups() == (
        ("c1.ring.top/ring", "c1.ring.second/ring", "c1/oil ring"),
        ("c2.ring.top/ring", "c2.ring.second/ring", "c2/oil ring"),
    )
    assert len(parse_book(text + row.replace("cylinder", "slot")).parts[0].groups()) == 6
    assert len(parse_book(text + row.replace("cylinder", "engine")).parts[0].groups()) == 1
