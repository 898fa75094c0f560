"""Readings from a table: any separator a spreadsheet writes, all or nothing, every problem with its line."""

from __future__ import annotations

import pytest
from tests.workbench.memory import workbench

from gudgeon.exchange.readings import readings
from gudgeon.job.entries import JobClosed, JobOpened
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.trade import record_csv

HAND = Hand(by="k", bench="b")
BOOK = """
[book]
name = "Osier 340"
[layout]
cylinders = 2
arrangement = "inline"
cams = "one"
cam_drive = "chain"
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"
[[limit]]
of = "stem_diameter"
new = ["5.960 mm", "5.975 mm"]
least = "5.940 mm"
"""
SIX = tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def bench() -> Workbench:
    made = workbench()
    made.open_job(JobOpened(number="O", engine_number="1", scope="head out"), made.add_book(BOOK), HAND)
    return made


def table(lines: int = 200, bad: int = 0, text: str = "5.96x") -> str:
    rows = ["measurand,where,point,text,unit,gauge"]
    for n in range(2, lines + 2):
        rows.append(f"stem_diameter,c{1 + n // 6 % 2}.in,{SIX[n % 6]},{text if n == bad else '5.966'},mm,mic-25")
    return "\n".join(rows)


def refused(made: Workbench, text: str) -> list[str]:
    before = made.ledgers.head("O")
    with pytest.raises(Refused) as caught:
        record_csv(made, "O", text, HAND, "table.csv")
    assert made.ledgers.head("O") == before, "something landed"
    return [str(p) for p in caught.value.problems]


@pytest.mark.parametrize(("text", "why"), [("5.96x", "no unit of length"), ("59.66", "outside the range"), ("", "Nothing was typed"),
                                           ("5.96/5.97", "no reading of it"), ("9.566", "confirm digits_swapped")])  # fmt: skip
def test_one_bad_line_of_two_hundred_is_named_and_nothing_lands(text: str, why: str) -> None:
    problems = refused(bench(), table(bad=137, text=text))
    assert len(problems) == 1 and problems[0].startswith("table.csv, line 137: ") and why in problems[0], problems


def test_every_bad_line_is_named_at_once() -> None:
    rows = table(30).split("\n")
    rows[4] = rows[4].replace("c1.in", "c9.in").replace("c2.in", "c9.in")
    rows[9] = rows[9].replace("mic-25", "mic-99")
    rows[20] = rows[20].replace("stem_diameter", "stern_diameter")
    assert [p.split(":")[0] for p in refused(bench(), "\n".join(rows))] == [
        "table.csv, line 5", "table.csv, line 10", "table.csv, line 21"]  # fmt: skip


def test_two_hundred_good_lines_land_as_two_hundred_in_order_with_their_gauge_before_them() -> None:
    made = bench()
    landed = record_csv(made, "O", table(), HAND)
    entries = made.loaded("O").entries
    assert len(landed) == 201 and [e.seq for e in entries] == list(range(1, 205))
    assert [type(e.typed.body).__name__ for e in entries[3:5]] == ["GaugePinned", "Reading"]
    own = [e.typed for e in entries if e.typed.bench == "b"]
    assert [t.nth for t in own] == sorted({t.nth for t in own}) and all(e.typed.seen == e.seq - 1 for e in entries[3:])
    assert made.view("O").at("stem_diameter@c1.in").verdict == "as new"  # type: ignore[union-attr]


ROW = ("stem_diameter", "c1.in", "top x", "5,966", "mm", "mic-25")


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("start", ["", "\ufeff", "\n\n"])
def test_separators_line_ends_and_marks_of_spreadsheets(separator: str, end: str, start: str) -> None:
    head = separator.join(("measurand", "where", "Point", " TEXT ", "unit", "gauge"))
    body = separator.join(f'"{cell}"' if separator in cell else cell for cell in ROW)
    (row,) = readings(f"{start}{head}{end}{body}{end}{end}")
    assert (row.reading.text, row.reading.point, row.reading.gauge) == ("5,966", "top x", "mic-25")


def test_a_slip_lands_where_its_column_confirms_it() -> None:
    head = "measurand;where;point;text;unit;gauge;confirm"
    line = "stem_diameter;c1.in;top x;9.566;mm;mic-25;"
    made = bench()
    assert "Did you mean 5.966 mm?" in refused(made, f"{head}\n{line}")[0]
    record_csv(made, "O", f"{head}\n{line}digits_swapped", HAND)


@pytest.mark.parametrize(
    ("text", "why"),
    [("", "Columns missing"), ("\0", "It is no text"), ("measurand,where,text\n", "Columns missing: gauge"),
     ("measurand,where,text,gauge,colour\n", "unknown: colour"), ("measurand,where,text,gauge,gauge\n", "twice: gauge"),
     ("measurand,where,text,gauge\n", "holds no reading"), ("measurand,where,text,gauge\nlash,c1.in\n", "It has 2 cells"),
     ('measurand,where,text,gauge\nlash,"' + "x" * 140_000 + '",1,f\n', "It is no CSV")],
)  # fmt: skip
def test_what_is_no_table_of_readings(text: str, why: str) -> None:
    with pytest.raises(Refused, match=why):
        readings(text, "table.csv")


def test_a_decimal_comma_is_read_and_asked_only_where_the_thousand_is_possible_too() -> None:
    head = "measurand;where;point;text;unit;gauge"
    made = bench()
    record_csv(made, "O", f"{head}\nlash;c1.in;;0,12/0,13;mm;feelers\nvalve_margin;c1.in;;1,15;mm;caliper", HAND)
    record_csv(made, "O", f"{head}\nstem_diameter;c1.in;top x;5,966;mm;mic-25", HAND)
    assert made.view("O").at("stem_diameter@c1.in").value == 5.966  # type: ignore[union-attr]
    assert "1.234 or 1234" in refused(made, f"{head}\ndeck_height;c1;;1,234;µm;dial")[0]


def test_a_closed_job_takes_none() -> None:
    made = bench()
    made.record("O", [JobClosed()], HAND)
    assert "The job is closed" in refused(made, table(1))[0]
