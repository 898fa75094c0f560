"""Readings out of a gauge's file: no decimal sign moves, no zero is lost, every row has its fate, and all land or none."""

from __future__ import annotations

import io

import pytest
from openpyxl import Workbook as Sheets

from gudgeon.demo.run import JOBS
from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import JobOpened, OperationDone, Reading
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.gauge_data import Offer, accept, columns_of, offer, remember, remembered
from workbench.engine import HAND
from workbench.memory import workbench

JOB = JOBS[0]
STEMS = ("4.966", "4.974", "4.956", "4.957")
VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    wb.put_shelf(shelf_text())
    sha = wb.add_book(book_text("corrie"))
    wb.open_job(JobOpened(number=JOB, engine_number="1", scope="whole top end"), sha, HAND)
    return wb


def offered(wb: Workbench, data: bytes | str, measurand: str = "spring_free_length", **cells: str) -> Offer:
    raw = data if isinstance(data, bytes) else data.encode()
    columns = columns_of({"gauge": "CAL-1", "value": "Value"} | cells)
    return offer(wb, JOB, raw, "gauge.csv", columns, measurand)


def read(one: Offer) -> list[tuple[str, str, str]]:
    return [(r.reading.where, r.reading.point, r.reading.text) for r in one.rows if r.reading]


def xlsx(*rows: tuple[object, ...], shown: str = "General") -> bytes:
    book = Sheets()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(row)
    for row in sheet.iter_rows(min_row=2):
        for cell in row:
            cell.number_format = shown
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_values_alone_go_to_the_places_in_the_order_of_the_bench_sheet(bench: Workbench) -> None:
    one = offered(
        bench, "Caliper 4711\n2026-11-25\nNo;Value;Unit\n1;42.82;mm\n2;41.97;mm\n3;42.81;mm\n4;42.83;mm\n", unit="Unit"
    )
    assert (
        [p for p, _point, _t in read(one)] == list(VALVES) and one.count("ready") == 4 and one.count("passed over") == 3
    )
    landed = accept(bench, JOB, one, HAND)
    assert len(landed) == 5 and [r.fact.text for r in bench.worked(JOB).given.state.readings] == [
        "42.82",
        "41.97",
        "42.81",
        "42.83",
    ]


@pytest.mark.parametrize("named", ["c1.in.right", "intake right", "Intake  Right", "cylinder 1 intake right"])
def test_a_place_by_its_address_or_as_it_is_said(bench: Workbench, named: str) -> None:
    one = offered(bench, f"Place;Value\n{named};42.82\n", where="place")
    assert read(one)[0][0] == "c1.in.right", one


def test_points_of_a_place_in_order_or_by_name(bench: Workbench) -> None:
    lines = "".join(f"intake left;5.02{n}\n" for n in range(6))
    one = offered(bench, f"Place;Value\n{lines}", "guide_bore", gauge="SH-1", where="Place")
    assert [p for _w, p, _t in read(one)] == ["top x", "top y", "middle x", "middle y", "bottom x", "bottom y"]
    named = offered(
        bench, "Place;P;Value\nintake left;middle y;5.020\n", "guide_bore", gauge="SH-1", where="Place", point="P"
    )
    assert read(named) == [("c1.in.left", "middle y", "5.020")]
    more = offered(bench, f"Place;Value\n{lines}intake left;5.020\n", "guide_bore", gauge="SH-1", where="Place")
    assert more.rows[-1].state == "refused" and "6 points" in more.rows[-1].why


def test_a_decimal_comma_is_never_taken_for_two_columns_nor_the_other_way_round(bench: Workbench) -> None:
    for text in ("42,82\n41,97\n", "Value\n42,82\n41,97\n", "1,234.5\n1,235.5\n"):
        with pytest.raises(Refused, match="one size or two columns"):
            offered(bench, text, value="1")
    assert [t for _w, _p, t in read(offered(bench, "42,82\n41,97\n", value="1", decimal=","))] == ["42.82", "41.97"]
    assert [t for _w, _p, t in read(offered(bench, "1,42.82\n2,41.97\n", value="2"))] == ["42.82", "41.97"]
    two = offered(bench, "1,42\n2,41\n", value="2", decimal=".")
    assert [t for _w, _p, t in read(two)] == ["42", "41"]
    quoted = offered(bench, 'No,Value\n1,"42,82"\n2,"41,97"\n', decimal=",")
    assert [t for _w, _p, t in read(quoted)] == ["42.82", "41.97"]


def test_an_unquoted_comma_in_a_value_shows_in_the_count_of_cells(bench: Workbench) -> None:
    none = offered(bench, "No,Value\n1,42,82\n2,41,97\n", separator=",")
    assert [r.state for r in none.rows[1:]] == ["refused", "refused"]
    one = offered(bench, "No,Value\n1,42.80\n2,41,97\n", separator=",")
    assert one.rows[-1].state == "refused" and "3 cells under 2 headings" in one.rows[-1].why
    with pytest.raises(Refused, match="3 cells"):
        accept(bench, JOB, one, HAND)


def test_another_decimal_sign_than_the_gauge_writes_is_refused_row_by_row(bench: Workbench) -> None:
    one = offered(bench, "Value;x\n42.82;a\n41,97;b\n", decimal=".")
    assert [r.state for r in one.rows[1:]] == ["ready", "refused"] and "another decimal sign" in one.rows[2].why


def test_a_workbook_keeps_its_zeros_by_format_or_by_the_resolution_of_the_gauge(bench: Workbench) -> None:
    by_format = offered(bench, xlsx(("Value",), (42.8,), (41.9,), shown="0.00"))
    assert [t for _w, _p, t in read(by_format)] == ["42.80", "41.90"]
    by_gauge = offered(bench, xlsx(("Value",), (42.8,), (42,), (41.97,)))
    assert [t for _w, _p, t in read(by_gauge)] == ["42.80", "42.00", "41.97"]
    assert "resolution" in by_gauge.rows[1].why and not by_gauge.rows[3].why
    text = offered(bench, "Value;x\n42.8;a\n")
    assert [t for _w, _p, t in read(text)] == ["42.8"]


def test_all_or_nothing_each_row_with_its_fate(bench: Workbench) -> None:
    before = bench.loaded(JOB).head
    one = offered(bench, "Value;x\n42.82;\n4.197;ten times off\n?;\n;no value\n42.83;\n")
    assert [r.state for r in one.rows] == ["passed over", "ready", "asked", "refused", "passed over", "ready"]
    assert one.rows[2].slip == "ten_times_off"
    with pytest.raises(Refused) as caught:
        accept(bench, JOB, one, HAND)
    assert len(caught.value.problems) == 2 and bench.loaded(JOB).head == before
    with pytest.raises(Refused):
        accept(bench, JOB, one, HAND, confirmed=(one.rows[2].row,))
    assert bench.loaded(JOB).head == before and remembered(bench, "CAL-1") is None
    accept(bench, JOB, one, HAND, confirmed=(one.rows[2].row,), left_out=(one.rows[3].row,))
    taken = [r.fact for r in bench.worked(JOB).given.state.readings]
    assert [f.text for f in taken if isinstance(f, Reading)] == ["42.82", "4.197", "42.83"]
    assert isinstance(taken[1], Reading) and taken[1].confirmed == ("ten_times_off",)


def test_how_a_gauge_writes_is_remembered_with_it_and_changed_in_its_place(bench: Workbench) -> None:
    gauges = bench.shelf().gauges
    one = offered(bench, "Ort|Value\nintake left;42.82\n".replace("|", ";"), where="Ort", decimal=".")
    accept(bench, JOB, one, HAND)
    kept = remembered(bench, "CAL-1")
    assert kept == one.columns and bench.shelf().gauges == gauges
    remember(bench, columns_of({"gauge": "CAL-1", "value": "2", "separator": "tab"}))
    again = remembered(bench, "CAL-1")
    assert again is not None and (again.value, again.where, again.separator) == ("2", "", "tab")
    assert len(bench.shelf().columns) == 1


def test_a_deviation_is_kept_as_the_gauge_showed_it(bench: Workbench) -> None:
    one = offered(bench, "Value;P\n+26;top y\n-2;middle x\n", "bore_diameter", gauge="BG-88", unit="µm", where="",)  # fmt: skip
    assert [t for _w, _p, t in read(one)] == ["+26", "-2"]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "holds no row"),
        (b"Value\n", "no reading"),
        (b"Val\xb5e;x\n1;2\n", "not UTF-8"),
        ("Value;x\n42.82;\n".encode("utf-16"), "not UTF-8"),
        ("Value;x\n42.82;\n".encode("utf-16-le"), "no text"),
        (b"\xd0\xcf\x11\xe0 old", "old kind"),
        (b"PK\x03\x04 cut off", "no workbook"),
        (b"a;b\n1;2\n", "No row of headings"),
        (b"Value;Value\n1;2\n", "twice: Value"),
        (b"x" * 9_000_000, "bytes"),
    ],
)
def test_what_is_no_file_of_a_gauge(bench: Workbench, data: bytes, words: str) -> None:
    with pytest.raises(Refused, match=words):
        offered(bench, data)
    assert bench.loaded(JOB).entries[-1].typed.body.__class__.__name__ == "RulesPinned"


def test_a_formula_without_a_value_is_said(bench: Workbench) -> None:
    with pytest.raises(Refused, match="formula has no value"):
        offered(bench, xlsx(("Value",), ("=1+1",), (42.8,)))


@pytest.mark.parametrize("cells", [{"value": ""}, {"decimal": "·"}, {"separator": "x"}, {"gauge": ""}])
def test_columns_that_cannot_be(cells: dict[str, str]) -> None:
    with pytest.raises(Refused):
        columns_of({"gauge": "CAL-1", "value": "1"} | cells)


def test_an_unknown_gauge_or_measurand_and_one_that_no_number_has(bench: Workbench) -> None:
    for measurand, gauge in (
        ("spring_free_length", "NONE"),
        ("nothing", "CAL-1"),
        ("contact", "CAL-1"),
        ("", "CAL-1"),
    ):
        with pytest.raises(Refused):
            offered(bench, "Value;x\n42.82;\n", measurand, gauge=gauge)


def test_two_thousand_rows_are_looked_at_and_land_together(bench: Workbench) -> None:
    lines = "".join(f"intake left;;42.8{n % 10}\n" for n in range(2_000))
    one = offered(bench, f"Place;P;Value\n{lines}", where="Place", point="P")
    assert one.count("refused") == 2_000  # an empty cell names no point
    one = offered(bench, "Place;P;Value\n" + lines.replace(";;", ";-;"), where="Place", point="P")
    assert one.count("ready") == 2_000
    accept(bench, JOB, one, HAND)
    assert len(bench.worked(JOB).given.state.readings) == 2_000


def test_a_closed_job_takes_none(bench: Workbench) -> None:
    bench.record(JOB, [OperationDone(operation="wash", where="engine")], HAND)
    from gudgeon.job.entries import JobClosed

    bench.record(JOB, [JobClosed(reason="sold")], HAND)
    one = offered(bench, "Value;x\n42.82;\n")
    assert one.count("ready") == 0
