"""The shelf's text changed by rows: comments and order stay, and what is read back is what was typed."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.problem import Refused
from gudgeon.shelf import USUAL_GAUGES, Rules, parse_shelf
from gudgeon.shelf.typed import by_field
from gudgeon.shelf.write import usual_text, with_row, with_rules, without_row

TEXT = """# ours
[rules]
risk = 0.025  # agreed in May
springs = "one"

# the small one
[[wrench]]
id = "W1"  # blue grip
low = "2 N·m"
high = "20 N·m"
error = "6 %"

[[shim]]
size = "1.70 mm"
count = 2

# below: nothing
"""


def test_the_usual_text_is_the_usual_shelf() -> None:
    assert parse_shelf(usual_text()).gauges == USUAL_GAUGES
    assert parse_shelf(usual_text()).rules == Rules()


def test_a_cell_changes_and_the_comments_stay() -> None:
    text = with_row(TEXT, "wrench", {"id": "W1", "high": "25 N·m", "name": "small"}, 0)
    assert 'id = "W1"  # blue grip' in text and "# the small one" in text and "# below: nothing" in text
    wrench = parse_shelf(text).wrenches[0]
    assert (wrench.name, wrench.high.text, wrench.low.text) == ("small", "25 N·m", "2 N·m")


def test_a_row_is_added_behind_its_kind_and_taken_out_again() -> None:
    text = with_row(TEXT, "wrench", {"id": "W2", "low": "10 N·m", "high": "60 N·m", "error": "4 %"})
    assert [w.id for w in parse_shelf(text).wrenches] == ["W1", "W2"]
    assert text.index("W2") < text.index("[[shim]]")
    assert parse_shelf(without_row(text, "wrench", 1)) == parse_shelf(TEXT)
    assert [w.id for w in parse_shelf(without_row(text, "wrench", 0)).wrenches] == ["W2"]


def test_an_emptied_cell_goes_and_a_rule_goes_back_to_its_default() -> None:
    assert parse_shelf(with_rules(TEXT, {"risk": "", "currency": "EUR"})).rules == Rules(springs="one", currency="EUR")
    assert "agreed in May" in with_rules(TEXT, {"risk": "0.01"})
    assert parse_shelf(with_rules("", {"springs": "one"})).rules.springs == "one"
    assert with_rules("", {"springs": ""}) == ""


def test_numbers_and_switches_are_written_bare() -> None:
    text = with_row(usual_text(), "gauge", {"master": "12 mm", "deviation": "true", "direction": "-1", "k": "2.5"}, 2)
    row = tomllib.loads(text)["gauge"][2]
    assert (row["deviation"], row["direction"], row["k"]) == (True, -1, 2.5)


def test_a_table_on_one_line_is_left_to_hands() -> None:
    with pytest.raises(Refused, match="one line"):
        with_row('wrench = [{id = "W", low = "1 N·m", high = "2 N·m", error = "4 %"}]', "wrench", {"id": "V"}, 0)


@given(st.text(max_size=40).map(str.strip), st.integers(0, 9))
def test_any_text_comes_back(where: str, count: int) -> None:
    text = with_row(TEXT, "shim", {"size": "1.75 mm", "count": str(count), "where": where})
    found = parse_shelf(text)
    assert found.shims[-1].where == where.strip() and found.shims[-1].count == count
    again = with_row(text, "shim", {"size": "1.75 mm", "where": ""}, 1)
    assert parse_shelf(again).shims[-1].where == "" and parse_shelf(again).wrenches == found.wrenches


def test_problems_come_by_field() -> None:
    raw = {"id": "m", "kind": "micrometer", "name": "m", "unit": "mm", "low": "wide", "due": "May", "source": "sheet",
           "permissible_error": "4 N"}  # fmt: skip
    from gudgeon.shelf import GaugeCard

    found = by_field(GaugeCard, raw, "gauge m")
    assert set(found) == {"low", "due", "permissible_error"}
    assert "2026-11-25" in str(found["due"].remedy)
    assert by_field(GaugeCard, {**raw, "low": "0 mm", "due": "2026-05-01", "permissible_error": "4 µm"}, "m") == {}
