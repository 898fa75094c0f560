"""A limit asked at the first reading is kept in the book's text; comments and order stay as they were."""

import tomllib

import pytest

from gudgeon.book import parse_book, with_limit
from gudgeon.problem import Refused

TEXT = """\
# my engine
[book]
name = "Test engine" # the blue one
edition = "2"  # as printed

[layout]
cylinders = 1
[layout.in]
valves = 1
follower = "rocker_screw"
[layout.ex]
valves = 1
follower = "rocker_screw"

[[limit]] # first
of = "stem_diameter"
side = "in"
new = [
  "4.975 mm", # low
  "4.990 mm",
]
least = "4.960 mm"  # page # 6

# about fasteners
[[fastener]]
name = "cover"
torque = ["8 N·m"]
"""


def test_a_new_row_is_added_and_everything_before_it_stays() -> None:
    new = with_limit(TEXT, {"of": "lash", "side": "ex", "least": "0.10 mm", "most": "0.15 mm", "page": "3"})
    assert new.startswith(TEXT.rstrip("\n").replace('edition = "2"', 'edition = "2+1"'))
    book = parse_book(new)
    row = book.limit_for("lash", "c1.ex")
    assert row is not None and (row.least, row.most, row.page, book.edition) == (0.10, 0.15, "3", "2+1")


def test_editions_count_on() -> None:
    once = with_limit(TEXT, {"of": "taper", "most": "0.03 mm"})
    assert parse_book(with_limit(once, {"of": "taper", "most": "0.04 mm"})).edition == "2+2"


def test_a_cell_is_changed_where_it_stands_with_its_comment() -> None:
    new = with_limit(TEXT, {"of": "stem_diameter", "side": "in", "least": "4.955 mm", "page": "6-9"})
    assert 'least = "4.955 mm"  # page # 6\npage = "6-9"\n\n# about fasteners' in new
    assert '  "4.975 mm", # low' in new


def test_a_list_over_several_lines_is_replaced_whole() -> None:
    new = with_limit(TEXT, {"of": "stem_diameter", "side": "in", "new": ["4.970 mm", "4.985 mm"]})
    assert 'new = ["4.970 mm", "4.985 mm"]\nleast' in new
    assert len(tomllib.loads(new)["limit"]) == 1


def test_an_empty_cell_is_taken_out() -> None:
    new = with_limit(TEXT, {"of": "stem_diameter", "side": "in", "least": ""})
    assert parse_book(new).limits[0].least is None


@pytest.mark.parametrize(
    "row",
    [
        {"of": "lash", "most": "0.15"},
        {"of": "lash", "moist": "0.15 mm"},
        {"of": "lash", "most": '0.15 mm"\nname = "x'},
        {"of": "lash"},
        {"of": "stem_diameter", "side": "in", "new": ["5 mm", "4 mm"]},
    ],
)
def test_what_does_not_read_is_refused_before_it_is_kept(row: dict[str, str]) -> None:
    with pytest.raises(Refused):
        with_limit(TEXT, row)
