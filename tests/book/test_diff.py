"""Two books compared cell by cell, and one made like another except for what differs."""

import pytest

from gudgeon.book.diff import differences, like
from gudgeon.book.parse import parse_book
from gudgeon.problem import Refused

OLD = """\
# mine
[book]
name = "Fellrigg 212"
edition = "3"
[layout]
cylinders = 1
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"

[[limit]]
of = "seat_width"  # both
new = ["0.9 mm", "1.1 mm"]
most = "1.5 mm"

[[limit]]
of = "taper"
most = "0.03 mm"
"""


def test_like_that_one_except_shows_exactly_what_differs() -> None:
    new = like(OLD, "Fellrigg 250", ({"of": "seat_width", "most": "1.6 mm"}, {"of": "lash", "side": "in",
                                      "least": "0.10 mm", "most": "0.15 mm"}))  # fmt: skip
    assert [str(d) for d in differences(OLD, new)] == [
        "book, name: Fellrigg 212 → Fellrigg 250",
        "book, edition: 3 → own",
        "limit seat_width, most: 1.5 mm → 1.6 mm",
        "limit lash in, of: – → lash",
        "limit lash in, side: – → in",
        "limit lash in, least: – → 0.10 mm",
        "limit lash in, most: – → 0.15 mm",
    ]
    assert new.startswith("# mine\n") and "# both" in new
    assert parse_book(new).name == "Fellrigg 250"


def test_a_row_that_moved_is_the_same_and_one_removed_is_said() -> None:
    head, one, two = OLD.split("[[limit]]")
    assert differences(OLD, f"{head}[[limit]]{two}\n[[limit]]{one}") == ()
    assert [str(d) for d in differences(OLD, f"{head}[[limit]]{one}")][-1] == "limit taper, most: 0.03 mm → –"


@pytest.mark.parametrize("name", ["", "  "])
def test_a_book_without_a_name_is_refused(name: str) -> None:
    with pytest.raises(Refused):
        like(OLD, name)


def test_a_name_with_quotes_stays_a_name() -> None:
    assert parse_book(like(OLD, 'The "blue" one')).name == 'The "blue" one'


@pytest.mark.parametrize(
    ("bad", "words"),
    [(OLD.replace('most = "1.5 mm"', 'most = "1.5 mm"\nmost = "1.6 mm"'), "cannot be read"), ("\0", "cannot be read")],
)
def test_a_text_that_is_no_book_is_refused(bad: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        differences(OLD, bad)


@pytest.mark.parametrize("dressed", ["\ufeff" + OLD, OLD.replace("\n", "\r\n")])
def test_a_mark_or_other_line_ends_make_no_difference(dressed: str) -> None:
    assert differences(OLD, dressed) == ()
