"""The shelf from TOML, wrenches at their low end, and rules that are pinned with every value they had."""

import pytest

from gudgeon.problem import Refused
from gudgeon.shelf import Rules, Shelf, Wrench, parse_shelf, usual_shelf

WRENCH = {"id": "W", "low": "10 N·m", "high": "60 N·m", "error": "4 %"}


def test_a_wrench_is_unproven_at_the_low_end_of_its_scale() -> None:
    # A 10–60 N·m wrench is tested at 20 % of its maximum, 12 N·m, and never below: wrong for 10 N·m caps.
    wrench = Wrench.model_validate(WRENCH)
    assert wrench.proved_from == 12.0
    assert (wrench.covers(10.0), wrench.covers(12.0), wrench.covers(60.0), wrench.covers(62.0)) == (
        False, True, True, False)  # fmt: skip


def test_of_several_wrenches_the_one_that_ends_lowest_is_taken() -> None:
    wrenches = [Wrench.model_validate({**WRENCH, "id": h, "low": "2 Nm", "high": f"{h} Nm"}) for h in ("100", "25")]
    shelf = Shelf(wrenches=tuple(wrenches))
    assert shelf.wrench_for(10.0) == wrenches[1]
    assert shelf.wrench_for(30.0) == wrenches[0]
    assert shelf.wrench_for(120.0) is None


def test_measured_beats_mark() -> None:
    shelf = parse_shelf('[[shim]]\nsize = "1.70 mm"\ncount = 2\n[[shim]]\nsize = "1.75 mm"\nmeasured = "1.747 mm"\n')
    assert [s.thickness_mm for s in shelf.shims] == [1.70, 1.747]


def test_a_new_workshop_has_six_gauges_and_its_eyes() -> None:
    shelf = usual_shelf()
    assert len(shelf.gauges) == 6
    assert shelf.gauge("eye") is not None
    assert [g.id for g in shelf.of_kind("micrometer")] == ["mic-25"]


def test_rules_pinned_are_complete_and_come_back() -> None:
    rules = Rules.from_pinned({"risk": "0.025", "shim_aim": "middle", "hour_price": "48.00", "currency": "EUR"})
    assert set(rules.pinned()) == set(Rules.model_fields)
    assert Rules.from_pinned(rules.pinned()) == rules
    assert Rules.from_pinned({}) == Rules()


def test_every_rule_says_where_its_default_comes_from() -> None:
    assert all(Rules.source_of(name) for name in Rules.model_fields)


def test_aims_lie_where_they_say() -> None:
    assert Rules().aim(0.10, 0.16) == pytest.approx(0.14)
    assert Rules(shim_aim="middle").aim(0.10, 0.16) == pytest.approx(0.13)
    assert Rules(shim_aim="loose edge").aim(0.10, 0.16) == pytest.approx(0.16)


BAD = """\ufeff[[gauge]]
id = "a"
kind = "feeler"
name = "x"
unit = "mm"
low = 25
permissible_error = "0.003 mm"
source = "x"
[[wrench]]
id = "a"
low = "10 Nm"
high = "2 Nm"
error = "4 %"
[[gauges]]
[rules]
risk = 0.9
shim_aim = "tight"
[[shim]]
size = "1.70 mm"
count = -1
"""


def test_all_problems_come_at_once_each_with_its_line() -> None:
    with pytest.raises(Refused) as refused:
        parse_shelf(BAD, "own.toml")
    assert [p.where for p in refused.value.problems] == [
        f"own.toml:{n}" for n in (6, 9, 10, 14, 16, 17, 20)]  # fmt: skip


@pytest.mark.parametrize("text", ['[[gauge]]\nid = "a\n', "gauge = 3", "gauge = [3]", "[rules]\n[rules]", "rules = 1"])
def test_nothing_raises_anything_else(text: str) -> None:
    with pytest.raises(Refused):
        parse_shelf(text)


def test_what_work_costs_is_kept_by_operation_and_by_scope() -> None:
    shelf = parse_shelf('[[work]]\nof = "cut_seat"\nprice = "31.00"\n\n[[work]]\nof = "valves"\nhours = "1.5 h"\n')
    cut, hours = shelf.work("cut_seat"), shelf.work("valves")
    assert cut is not None and cut.price is not None and cut.price.value == 31.0
    assert hours is not None and hours.hours is not None and hours.hours.value == 1.5
    assert shelf.work("hone") is None
