"""A returned machining order in one go: all of it on the head that was seen, or nothing, with everything that is missing."""

from __future__ import annotations

from itertools import takewhile
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.demo.story import NUMBER, chapters
from gudgeon.job.entries import Note, OperationDone, Reading
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.returning import ReturnForm, accept, form, typed_from
from workbench.memory import workbench

HAND = Hand(by="k1", bench="b9")
IL, IR = "c1.in.left", "c1.in.right"


@pytest.fixture
def bench() -> Workbench:
    """The demo's job with its head at the shop."""
    from gudgeon.demo.story import book_text, shelf_text

    wb = workbench()
    wb.put_shelf(shelf_text())
    wb.add_book(book_text("corrie"))
    for _ in takewhile(lambda told: not wb.jobs() or not wb.worked(NUMBER).given.state.did("sent_out"), chapters(wb)):
        pass
    return wb


def filled(sheet: ReturnForm) -> dict[str, str]:
    sizes = {"guide_bore": "5.005", "seat_width": "1.05", "installed_height": "34.55"}
    tips = {(IL, True): "37.62", (IL, False): "37.80", (IR, True): "37.60", (IR, False): "37.66"}
    typed = {f"gauge:{m}": gauges[0][0] for m, _name, gauges in sheet.gauges}
    for item in sheet.items:
        for f in item.fields:
            typed[f.key] = tips[f.where, f.before] if f.measurand == "tip_height" else sizes[f.measurand]
    return typed | {f"untouched:{slot}": "on" for slot, _words in sheet.untouched}


def test_the_whole_sheet_lands_as_one_batch_in_the_order_of_the_work(bench: Workbench) -> None:
    sheet = form(bench, NUMBER)
    assert {item.where for item in sheet.items} == {IL, IR} and sheet.order == "M-2"
    before = bench.loaded(NUMBER).head
    landed = accept(bench, NUMBER, filled(sheet) | {"temperature": "21 °C"}, HAND, seen=sheet.seen)
    facts = [e.typed.body for e in bench.loaded(NUMBER).entries if e.seq > before]
    assert len(landed) == len(facts) and bench.verify(NUMBER) == ()
    here = [f for f in facts if isinstance(f, OperationDone | Reading) and f.where == IL]
    at = [f.operation if isinstance(f, OperationDone) else f.text for f in here
          if isinstance(f, OperationDone) or f.measurand == "tip_height"]  # fmt: skip
    assert at == ["fit_guide", "ream_guide", "37.62", "cut_seat", "37.80"]
    assert {f.temperature for f in facts if isinstance(f, Reading)} == {"21 °C"}
    back = next(f for f in facts if isinstance(f, OperationDone) and f.operation == "came_back")
    assert f"{IL}/seat" not in back.detail["untouched"] and "c1.ex.left/guide" in back.detail["untouched"]
    with pytest.raises(Refused, match="Nothing is at the shop"):
        form(bench, NUMBER)


def test_half_the_numbers_missing_lands_nothing_until_somebody_says_so(bench: Workbench) -> None:
    sheet = form(bench, NUMBER)
    typed = {key: text for key, text in filled(sheet).items() if IR not in key}
    before = bench.loaded(NUMBER).head
    with pytest.raises(Refused) as caught:
        accept(bench, NUMBER, typed, HAND, seen=sheet.seen)
    missing = next(item for item in sheet.items if item.where == IR).fields
    assert len(caught.value.problems) == len(missing) and bench.loaded(NUMBER).head == before
    accept(bench, NUMBER, typed, HAND, seen=sheet.seen, rest_unwritten=True)
    notes = [e.typed.body.words for e in bench.loaded(NUMBER).entries if isinstance(e.typed.body, Note)]
    assert "the shop did not write" in notes[-1] and "tip height" in notes[-1]


def test_a_wrong_number_a_slip_and_an_old_head_land_nothing(bench: Workbench) -> None:
    sheet = form(bench, NUMBER)
    key = next(f.key for item in sheet.items for f in item.fields if f.measurand == "guide_bore")
    before = bench.loaded(NUMBER).head
    with pytest.raises(Refused, match="temperature"):
        accept(bench, NUMBER, filled(sheet) | {"temperature": "warm"}, HAND, seen=sheet.seen)
    for text in ("fifty", "50.05", "=1+1", "-5"):
        with pytest.raises(Refused):
            accept(bench, NUMBER, filled(sheet) | {key: text}, HAND, seen=sheet.seen)
    with pytest.raises(Refused):
        accept(bench, NUMBER, filled(sheet), HAND, seen=sheet.seen - 1)
    assert bench.loaded(NUMBER).head == before


def test_the_table_of_the_shop_fills_the_sheet(bench: Workbench) -> None:
    sheet = form(bench, NUMBER)
    text = "place;measurand;point;value\n" + f"{IL};tip_height before the cut;;37.62\n{IL};tip_height;;37.80\n"
    typed = typed_from(text.encode(), "shop.csv", sheet)
    assert list(typed.values()) == ["37.62", "37.80"]
    for wrong in (text + f"{IL};tip_height;;37.81\n", text + "c9;tip_height;;1\n", "a;b\n1;2\n"):
        with pytest.raises(Refused):
            typed_from(wrong.encode(), "shop.csv", sheet)


def test_the_command_asks_for_the_sheet_and_lands_it(
    bench: Workbench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("gudgeon.wiring.bench.workbench", lambda: bench)
    assert main(["job", "returned", NUMBER]) == 0
    assert capsys.readouterr().out.startswith("place,measurand,point,value\nc1.in.left,")
    sheet = form(bench, NUMBER)
    sizes = filled(sheet)
    lines = [f"{f.where},{f.key.split(':')[1]},{f.point},{sizes[f.key]}" for item in sheet.items for f in item.fields]
    table = tmp_path / "shop.csv"
    table.write_text("\n".join(("place,measurand,point,value", *lines[:-1])), encoding="utf-8")
    assert main(["job", "returned", NUMBER, str(table)]) == 1
    table.write_text("\n".join(("place,measurand,point,value", *lines)), encoding="utf-8")
    assert main(["job", "returned", NUMBER, str(table), "--untouched", "c9/seat"]) == 1
    assert main(["job", "returned", NUMBER, str(table), "--untouched", "all", "--temperature", "21 °C"]) == 0
    assert "entries; next: " in capsys.readouterr().out
    back = [e.typed.body for e in bench.loaded(NUMBER).entries if isinstance(e.typed.body, OperationDone)]
    assert "c1.ex.left/guide" in next(f for f in back if f.operation == "came_back").detail["untouched"]
