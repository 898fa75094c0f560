"""A workshop's own part, measures, step and check, in a book or in one job, without any code: the whole way to the papers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.workbench.memory import workbench
from tests.workbench.shop import BOOK, GAUGES, HAND, JOB, SHELF, gauge, read, shop

from gudgeon.book.parse import parse_book, read_rows
from gudgeon.job.entries import (
    HoldPassed,
    JobOpened,
    OperationDone,
    OwnAdded,
    PartFitted,
    PartReceived,
    PartRemoved,
)
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.papers import paper_html

CALIPER = gauge("cal", "caliper", error="0.02 mm", low="0 mm", high="150 mm", resolution="0.01 mm")
REEDS = """
[[own_part]]
name = "reed block"
at = "c*"
number = "BR-410-77"
price = "31.50"
renew = "wear"
[[own_part]]
name = "decompressor cable"
at = "engine"
[[own_measure]]
name = "reed petal gap"
at = "c*/reed block"
read = "on the part"
unit = "mm"
gauge = "feeler"
new = ["0.00", "0.10"]
most = "0.20"
points = ["left petal", "right petal"]
page = "own 3"
[[own_measure]]
name = "decompressor cable play"
at = "engine/decompressor cable"
unit = "mm"
gauge = "caliper"
setting = true
least = "1.0"
most = "2.0"
ask = "At the lever, engine cold."
[[own_step]]
name = "blow out the reed block"
at = "c*"
did = "reed block blown out"
works_on = ["c*/reed block"]
after = "open_cover"
caution = "Glasses on, air below 2 bar."
[[own_check]]
name = "reed petals lie flat"
at = "c*/reed block"
before = "tighten_cover"
hides = "a petal that stands open, under the manifold"
[[own_check]]
name = "cable play proved"
measure = "decompressor cable play"
"""


def bench_with(book: str = BOOK + REEDS, scope: str = "valves") -> Workbench:
    bench = workbench()
    bench.put_shelf(SHELF + GAUGES + CALIPER)
    bench.open_job(JobOpened(number=JOB, engine_number="41", scope=scope), bench.add_book(book), HAND)
    return bench


def word(bench: Workbench, address: str) -> str:
    return next(c.verdict for c in bench.view(JOB).characteristics if c.address == address)


def petals(bench: Workbench, cylinder: str, left: str, right: str) -> None:
    bench.record(JOB, [read("reed_petal_gap", cylinder, left, "feel", "left petal"),
                       read("reed_petal_gap", cylinder, right, "feel", "right petal")], HAND)  # fmt: skip


def test_own_measures_are_asked_for_with_their_points_and_words() -> None:
    bench = bench_with()
    asked = [(a.measurand, a.place, a.point) for a in bench.measure(JOB).asks]
    assert ("reed_petal_gap", "c2", "right petal") in asked or asked[0][0] == "lash"
    page = bench.measure(JOB, "decompressor_cable_play", "engine")
    assert page.ask is not None and page.ask.name == "decompressor cable play"
    assert page.ask_words == "At the lever, engine cold."
    assert page.limit is not None and (page.limit.least, page.limit.most) == ("1.0 mm", "2.0 mm")


def test_a_reading_is_judged_goes_with_its_part_and_the_worst_point_counts() -> None:
    bench = bench_with()
    petals(bench, "c1", "0.05/0.06", "0.07/0.08")
    petals(bench, "c2", "0.05/0.06", "0.25/0.30")
    assert (word(bench, "reed_petal_gap@c1"), word(bench, "reed_petal_gap@c2")) == ("as new", "past limit")
    bench.record(JOB, [PartRemoved(slot="c1/reed block")], HAND)
    assert word(bench, "reed_petal_gap@c1") == "as new", "what is read on the part does not mind its joint"
    part = bench.record(JOB, [PartReceived(kind="reed block", number="BR-410-77")], HAND)[0].id
    bench.record(JOB, [PartFitted(part=part, slot="c2/reed block")], HAND)
    assert word(bench, "reed_petal_gap@c2") in ("not measured", "stale"), "another part stands there now"


def test_what_is_read_in_place_is_stale_when_its_part_was_out() -> None:
    bench = bench_with()
    bench.record(JOB, [read("decompressor_cable_play", "engine", "1.52", "cal")], HAND)
    assert word(bench, "decompressor_cable_play@engine") == "in setting"
    bench.record(JOB, [PartRemoved(slot="engine/decompressor cable")], HAND)
    assert word(bench, "decompressor_cable_play@engine") == "stale"


def test_an_own_step_disturbs_what_it_works_on_and_stands_on_the_route() -> None:
    bench = bench_with()
    petals(bench, "c1", "0.05/0.06", "0.07/0.08")
    route = bench.view(JOB).plan("route")
    assert route is not None
    steps = [str(line.numbers.get("operation")) for line in route.lines]
    assert steps.index("blow_out_the_reed_block") == steps.index("open_cover") + 1
    own = next(line for line in route.lines if line.numbers.get("operation") == "blow_out_the_reed_block")
    assert any("Glasses on" in why for why in own.because)
    bench.record(JOB, [OperationDone(operation="blow_out_the_reed_block", where="c1")], HAND)
    assert word(bench, "reed_petal_gap@c1") == "stale"
    reasons = next(c.reasons for c in bench.view(JOB).characteristics if c.address == "reed_petal_gap@c1")
    assert "reed block blown out" in str(reasons)


def test_an_own_check_holds_until_its_evidence_is_there() -> None:
    bench = bench_with()
    with pytest.raises(Refused, match="reed_petals_lie_flat@c1"):
        bench.record(JOB, [HoldPassed(hold="reed_petals_lie_flat")], HAND)
    for cylinder in ("c1", "c2"):
        bench.record(JOB, [read("reed_petals_lie_flat", cylinder, "yes", "eye", unit="")], HAND)
    bench.record(JOB, [HoldPassed(hold="reed_petals_lie_flat")], HAND)
    state = {h.hold: h.state for h in bench.view(JOB).holds}
    assert state["reed_petals_lie_flat"] == "passed"
    bench.record(JOB, [OperationDone(operation="blow_out_the_reed_block", where="c2")], HAND)
    assert {h.hold: h.state for h in bench.view(JOB).holds}["reed_petals_lie_flat"] == "undone"


def test_an_own_check_keeps_the_job_from_its_hand_over() -> None:
    bench = bench_with()
    with pytest.raises(Refused, match="cable play proved"):
        bench.record(JOB, [HoldPassed(hold="H13")], HAND)
    bench.record(JOB, [read("decompressor_cable_play", "engine", "2.60", "cal")], HAND)
    with pytest.raises(Refused, match="decompressor_cable_play@engine"):
        bench.record(JOB, [HoldPassed(hold="cable_play_proved")], HAND)
    bench.record(JOB, [read("decompressor_cable_play", "engine", "1.48", "cal")], HAND)


def test_a_no_is_a_failed_check() -> None:
    bench = bench_with()
    bench.record(JOB, [read("reed_petals_lie_flat", "c1", "no", "eye", unit="")], HAND)
    assert word(bench, "reed_petals_lie_flat@c1") == "off"
    with pytest.raises(Refused, match="none of its words"):
        bench.record(JOB, [read("reed_petals_lie_flat", "c1", "maybe", "eye", unit="")], HAND)


def test_a_worn_own_part_is_ordered_by_its_number() -> None:
    bench = bench_with(scope="cylinder")
    petals(bench, "c2", "0.25/0.30", "0.25/0.30")
    order = bench.view(JOB).plan("order")
    assert order is not None
    bought = {b.number: (b.count, b.price) for b in order.buys}
    assert bought["BR-410-77"] == (1, 31.5)


def test_own_things_stand_on_the_papers() -> None:
    bench = bench_with()
    sheet = paper_html(bench, JOB, "bench_sheet")
    assert "reed petal gap" in sheet and "decompressor cable play" in sheet
    petals(bench, "c1", "0.05/0.06", "0.07/0.08")
    assert "reed petal gap" in paper_html(bench, JOB, "technical_record")


def test_one_job_may_add_what_its_book_does_not_have() -> None:
    bench = shop("valves")
    own = [
        OwnAdded(kind="part", row={"name": "reed block", "at": "c*"}),
        OwnAdded(kind="measure", row={"name": "reed petal gap", "at": "c*/reed block", "unit": "mm", "gauge": "feeler",
                                      "most": "0.20", "points": ("left petal", "right petal")}),
        OwnAdded(kind="step", row={"name": "dress the reed stop", "at": "c*", "works_on": ("c*/reed block",)}),
        OwnAdded(kind="check", row={"name": "petals proved", "measure": "reed petal gap", "before": "H10"}),
    ]  # fmt: skip
    bench.record(JOB, own, HAND)
    petals(bench, "c1", "0.05/0.06", "0.07/0.08")
    assert word(bench, "reed_petal_gap@c1") == "serviceable"
    assert "petals proved" in [h.name for h in bench.view(JOB).holds]
    assert "own measure: reed petal gap" in [e.words for e in bench.view(JOB).entries]
    assert not bench.view(JOB).problems


def test_the_last_own_thing_of_a_name_stands_and_a_retracted_one_is_gone() -> None:
    bench = shop("valves")
    row = {"name": "reed petal gap", "at": "c*/piston", "unit": "mm", "gauge": "feeler", "most": "0.20"}
    bench.record(JOB, [OwnAdded(kind="measure", row=dict(row))], HAND)
    bench.record(JOB, [read("reed_petal_gap", "c1", "0.15/0.16", "feel")], HAND)
    assert word(bench, "reed_petal_gap@c1") == "serviceable"
    landed = bench.record(JOB, [OwnAdded(kind="measure", row=row | {"most": "0.10"})], HAND)[0]
    assert word(bench, "reed_petal_gap@c1") == "past limit"
    bench.retract(JOB, landed.seq, "the page says 0.20", HAND)
    assert word(bench, "reed_petal_gap@c1") == "serviceable"


def test_a_reading_of_something_that_was_taken_back_is_a_problem_not_a_crash() -> None:
    bench = bench_with(BOOK)
    row: dict[str, str | bool | tuple[str, ...]] = {
        "name": "crown height", "at": "c1/piston", "unit": "mm", "gauge": "caliper"}  # fmt: skip
    landed = bench.record(JOB, [OwnAdded(kind="measure", row=row)], HAND)[0]
    bench.record(JOB, [read("crown_height", "c1", "20.05", "cal")], HAND)
    bench.retract(JOB, landed.seq, "wrong engine", HAND)
    assert ["crown_height" in p.what for p in bench.view(JOB).problems] == [True]


#: table, key and value that replace or add, and what is said.
WRONG = [
    ("own_part", {"name": "valve"}, "Every engine knows the part valve"),
    ("own_part", {"name": "reed/block"}, "is no name"),
    ("own_part", {"name": ""}, "is no name"),
    ("own_part", {"name": "reed block", "at": "c9"}, "has no place c9"),
    ("own_part", {"name": "reed block", "at": "c1", "opened_with": "bonnet"}, "no joint bonnet near c1"),
    ("own_part", {"name": "reed block", "at": "c1", "price": "cheap"}, "price"),
    ("own_measure", {"name": "lash", "at": "c1/piston", "unit": "mm", "gauge": "feeler"}, "is there already"),
    ("own_measure", {"name": "gap", "at": "c1/pistn", "unit": "mm", "gauge": "feeler"}, "has no slot c1/pistn"),
    ("own_measure", {"name": "gap", "at": "c1/*", "unit": "mm", "gauge": "feeler"}, "names several parts at c1"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mn", "gauge": "feeler"}, "No gauge reads mn"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "km/h", "gauge": "feeler"}, "No gauge reads km/h"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "N", "gauge": "feeler"}, "feeler does not read N"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "ruler"}, "ruler does not read mm"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "least": "0.2", "most": "0.1"},
     "swapped"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "new": "0.1"}, "two ends"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "most": "1 bar"}, "bar"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "setting": True}, "two walls"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "points": ["a", "a"]},
     "not told apart"),
    ("own_measure", {"name": "gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "scopes": ["tops"]},
     "no scope tops"),
    ("own_step", {"name": "hone"}, "is there already"),
    ("own_step", {"name": "dress", "at": "c1", "after": "open_cver"}, "no step open_cver"),
    ("own_step", {"name": "dress", "at": "c1", "works_on": ["c1/pistn"]}, "has no slot c1/pistn"),
    ("own_check", {"name": "seen"}, "looks at a part or holds a measure"),
    ("own_check", {"name": "seen", "at": "c1/piston", "measure": "gap"}, "looks at a part or holds a measure"),
    ("own_check", {"name": "seen", "measure": "gap"}, "nothing of your own is called gap"),
    ("own_check", {"name": "seen", "at": "c1/piston", "before": "H99"}, "no step or hold H99"),
    ("own_check", {"name": "seen", "at": "c1/piston", "good": "maybe"}, "is not one of"),
]  # fmt: skip


def toml_of(table: str, row: dict[str, object]) -> str:
    words = {True: "true", False: "false"}
    return f"\n[[{table}]]\n" + "\n".join(
        f"{key} = {words[value] if isinstance(value, bool) else repr(value)}" for key, value in row.items()
    )


@pytest.mark.parametrize(("table", "row", "said"), WRONG, ids=lambda v: str(v)[:40])
def test_what_cannot_be_used_is_refused_with_its_line(table: str, row: dict[str, object], said: str) -> None:
    text = BOOK + toml_of(table, row)
    _rows, problems = read_rows(text, "own.toml")
    assert problems, "refused"
    assert any(said in f"{p.what} {p.remedy}" for p in problems), [str(p.what) for p in problems]
    first = BOOK.count("\n") + 2
    for problem in problems:
        name, _, line = problem.where.rpartition(":")
        assert name == "own.toml" and first <= int(line) <= text.count("\n") + 1


@pytest.mark.parametrize(("table", "row", "said"), WRONG, ids=lambda v: str(v)[:40])
def test_what_cannot_be_used_is_refused_in_a_job_too(table: str, row: dict[str, object], said: str) -> None:
    bench = shop("valves")
    kind = table.removeprefix("own_")
    cells = {key: tuple(value) if isinstance(value, list) else value for key, value in row.items()}
    with pytest.raises(Refused) as refused:
        bench.record(JOB, [OwnAdded(kind=kind, row=cells)], HAND)  # type: ignore[arg-type]
    assert said in str(refused.value)
    assert f"own {kind}" in str(refused.value)


def test_a_name_that_stands_twice_is_refused() -> None:
    twice = REEDS + '[[own_step]]\nname = "reed petal gap"\nat = "c1"\n'
    _rows, problems = read_rows(BOOK + twice, "own.toml")
    assert ["stands already" in str(p.what) for p in problems] == [True]


def test_an_own_part_that_goes_out_with_the_cover_is_ordered_with_it() -> None:
    always = (
        '[[own_part]]\nname = "breather seal"\nat = "head"\nopened_with = "cover"\nnumber = "BR-9"\nrenew = "always"\n'
    )
    bench = bench_with(BOOK + always)
    order = bench.view(JOB).plan("order")
    assert order is not None and "BR-9" in [b.number for b in order.buys]


def test_nothing_own_leaves_the_layout_as_it_was() -> None:
    book = parse_book(BOOK)
    assert book.layout == replace(book.layout) and not book.layout.own.keys()
