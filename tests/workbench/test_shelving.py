"""The shelf changed cell by cell through the workbench: refused at the cell, nothing half written, nobody overwritten."""

import pytest
from tests.workbench.memory import workbench
from tests.workbench.shop import HAND, JOB, read, shop

from gudgeon.problem import Refused
from gudgeon.workbench import shelving
from gudgeon.workbench.shelving import WrongCells

MIC = {"id": "MIC-1", "name": "micrometer 0–25", "kind": "micrometer", "unit": "mm", "low": "0", "high": "25",
       "resolution": "0,001", "permissible_error": "0.002", "source": "its sheet", "due": "2027-05-01"}  # fmt: skip
VALVE = "c1.in"


def test_a_new_workshop_gets_its_own_gauge_beside_the_six() -> None:
    bench = workbench()
    assert shelving.put_gauge(bench, MIC) == "MIC-1"
    card = bench.shelf().gauge("MIC-1")
    assert len(bench.shelf().gauges) == 7 and card is not None
    assert (str(card.high), str(card.permissible_error), card.due) == ("25 mm", "0.002 mm", "2027-05-01")


@pytest.mark.parametrize(
    ("cells", "at", "words"),
    [
        ({"permissible_error": "wide"}, "permissible_error", ""),
        ({"permissible_error": "2 N"}, "permissible_error", "length"),
        ({"permissible_error": ""}, "permissible_error", "how far"),
        ({"certificate_u": "0.001"}, "certificate_u", "Both"),
        ({"low": "30"}, "high", "no width"),
        ({"due": "next May"}, "due", "no day"),
        ({"due": "2027-02-30"}, "due", "no day"),
        ({"source": ""}, "source", "missing"),
        ({"id": ""}, "id", "missing"),
        ({"id": "caliper"}, "id", "already"),
        ({"kind": "ruler"}, "kind", "no kind"),
        ({"unit": "N"}, "unit", "does not read"),
        ({"deviation": "true"}, "master", "from what"),
        ({"k": "nine"}, "k", ""),
        ({"per_cent": "2 mm"}, "per_cent", ""),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_at_its_cell(cells: dict[str, str], at: str, words: str) -> None:
    bench = workbench()
    with pytest.raises(WrongCells) as refused:
        shelving.put_gauge(bench, MIC | cells)
    assert at in refused.value.fields
    assert words in str(refused.value.fields[at])
    assert all(str(p.what).strip() and str(p.remedy).strip() and "{" not in str(p) for p in refused.value.problems)
    assert bench.library.shelf() == ""


def test_a_card_is_changed_and_its_comment_stays() -> None:
    bench = workbench()
    bench.put_shelf(shelving.usual_text().replace('id = "mic-25"', 'id = "mic-25"  # the good one'))
    shelving.put_gauge(bench, {"permissible_error": "0.002", "source": "sheet"}, known="mic-25")
    assert "# the good one" in bench.library.shelf()
    assert str(bench.shelf().gauge("mic-25").permissible_error) == "0.002 mm"  # type: ignore[union-attr]
    shelving.put_gauge(bench, {"permissible_error": "", "certificate_u": "0.003 mm", "k": "2"}, known="mic-25")
    assert bench.shelf().gauge("mic-25").own_u(0.0) == pytest.approx(0.0015)  # type: ignore[union-attr]
    shelving.drop_gauge(bench, "mic-25")
    assert bench.shelf().gauge("mic-25") is None and len(bench.shelf().gauges) == 5
    with pytest.raises(Refused, match="no gauge"):
        shelving.drop_gauge(bench, "mic-25")


def test_nobody_overwrites_what_was_changed_elsewhere() -> None:
    bench = workbench()
    shown = shelving.seen(bench)
    shelving.put_gauge(bench, MIC, shown=shown)
    with pytest.raises(Refused, match="changed elsewhere"):
        shelving.put_rules(bench, {"currency": "EUR"}, shown=shown)
    with pytest.raises(Refused, match="changed elsewhere"):
        shelving.put_grid(bench, "shim", [{"size": "1.70"}], shown=shown)
    shelving.put_rules(bench, {"currency": "EUR"}, shown=shelving.seen(bench))
    assert bench.shelf().rules.currency == "EUR"


def test_a_grid_adds_changes_and_takes_out() -> None:
    bench = workbench()
    shelving.put_grid(bench, "shim", [{"size": "1.70", "count": "2"}, {"size": "1.75", "measured": "1.748"}, {}])
    assert [(str(s.size), s.count, str(s.measured or "")) for s in bench.shelf().shims] == [
        ("1.70 mm", 2, ""), ("1.75 mm", 1, "1.748 mm")]  # fmt: skip
    rows = [dict(row) for row in shelving.grid(bench, "shim")]
    rows[1] |= {"count": "5"}
    shelving.put_grid(bench, "shim", [{}, rows[1], {"size": "1.80 mm"}])
    assert [(str(s.size), s.count) for s in bench.shelf().shims] == [("1.75 mm", 5), ("1.80 mm", 1)]


@pytest.mark.parametrize(
    ("table", "row", "at"),
    [
        ("shim", {"size": "thick"}, "size-1"),
        ("shim", {"count": "2"}, "size-1"),
        ("shim", {"size": "1.70", "count": "-1"}, "count-1"),
        ("shim", {"size": "1.70", "count": "1.5"}, "count-1"),
        ("wrench", {"id": "W", "low": "10", "high": "2", "error": "4"}, "high-1"),
        ("wrench", {"id": "W", "low": "2", "high": "10", "error": "400"}, "error-1"),
        ("leftover", {"name": "washer"}, "number-1"),
        ("price", {"number": "7", "price": "much"}, "price-1"),
        ("work", {"price": "7"}, "of-1"),
    ],
)
def test_a_wrong_row_is_said_at_its_cell_and_none_is_kept(table: str, row: dict[str, str], at: str) -> None:
    bench = workbench()
    good = {"shim": {"size": "1.80"}, "wrench": {"id": "V", "low": "2", "high": "20", "error": "6"},
            "leftover": {"number": "8"}, "price": {"number": "8", "price": "1.00"}, "work": {"of": "hone"}}  # fmt: skip
    with pytest.raises(WrongCells) as refused:
        shelving.put_grid(bench, table, [good[table], row])
    assert set(refused.value.fields) == {at}
    assert bench.library.shelf() == ""


def test_two_wrenches_of_one_name_are_told() -> None:
    row = {"id": "V", "low": "2", "high": "20", "error": "6"}
    with pytest.raises(WrongCells, match="twice"):
        shelving.put_grid(workbench(), "wrench", [row, row])


def test_rules_are_typed_as_people_write_them() -> None:
    bench = workbench()
    shelving.put_rules(bench, {"risk": "2,5 %", "tax_rate": "19", "squish_least": "0.8", "paper_address": "a\r\nb"})
    rules = bench.shelf().rules
    assert (rules.risk, rules.tax_rate.value, rules.squish_least.value, rules.paper_address) == (
        0.025,
        19.0,
        0.8,
        "a\nb",
    )
    assert shelving.rule_cells(bench)["risk"] == "2.5 %"
    shelving.put_rules(bench, {"risk": "", "tax_rate": ""})
    assert (bench.shelf().rules.risk, bench.shelf().rules.tax_rate.value) == (0.05, 0.0)


@pytest.mark.parametrize(
    ("key", "text"),
    [("risk", "0"), ("risk", "90 %"), ("risk", "small"), ("tax_rate", "-3 %"), ("tax_rate", "300"), ("hour_price", "-1"),
     ("squish_least", "-0.7"), ("squish_least", "1 N"), ("wear", "never"), ("currency", "x" * 13), ("seal_test_time", "long")],
)  # fmt: skip
def test_a_wrong_rule_is_said_at_its_cell(key: str, text: str) -> None:
    bench = workbench()
    with pytest.raises(WrongCells) as refused:
        shelving.put_rules(bench, {key: text, "currency": "EUR"} if key != "currency" else {key: text})
    assert set(refused.value.fields) == {key}
    assert bench.library.shelf() == ""


def verdict(bench) -> tuple[str, float | None]:  # type: ignore[no-untyped-def]
    found = bench.view(JOB).at(f"stem_diameter@{VALVE}")
    return found.verdict, found.u


def test_a_running_job_keeps_its_cards_and_rules_until_an_entry_says_otherwise() -> None:
    bench = shop()
    points = bench.measure(JOB, "stem_diameter", VALVE).asks
    stems = [
        read("stem_diameter", a.place, "5.450", "mic", a.point)
        for a in points
        if (a.measurand, a.place) == ("stem_diameter", VALVE)
    ]
    bench.record(JOB, stems, HAND)
    before = verdict(bench)
    assert before[0] == "serviceable"
    shelving.put_gauge(bench, {"permissible_error": "0.02 mm", "source": "dropped"}, known="mic")
    shelving.put_rules(bench, {"risk": "0.01 %", "wear": "guarded"})
    assert verdict(bench) == before
    shelving.pin_rules(bench, JOB, HAND)
    assert verdict(bench)[1] == before[1]
    shelving.pin_gauge(bench, JOB, "mic", HAND)
    after = verdict(bench)
    found = bench.view(JOB).at(f"stem_diameter@{VALVE}")
    assert found is not None and any("judged as read" in note for note in found.notes), "no longer proven"
    assert after[1] is not None and before[1] is not None and after[1] > before[1]
    pinned = [e for e in bench.view(JOB).entries if e.fact in ("rules_pinned", "gauge_pinned")]
    assert len(pinned) == 4


def test_a_gauge_that_reads_otherwise_is_not_pinned_under_its_old_name() -> None:
    bench = shop()
    bench.record(JOB, [read("bore_diameter", "c1", "+6", "dial", "top y", "µm")], HAND)
    shelving.put_gauge(bench, {"master": "66.010 mm"}, known="dial")
    with pytest.raises(Refused, match="another card"):
        shelving.pin_gauge(bench, JOB, "dial", HAND)


def test_an_overdue_gauge_still_measures_and_every_verdict_says_so() -> None:
    bench = shop()
    shelving.put_gauge(bench, {"due": "2026-01-01"}, known="feel")
    bench.record(JOB, [read("lash", VALVE, "0.14/0.15", "feel")], HAND)
    found = bench.view(JOB).at(f"lash@{VALVE}")
    assert found is not None and found.verdict == "in setting"
    assert any("overdue" in note for note in found.notes)
