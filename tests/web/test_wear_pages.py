"""Wear over hours on the pages: fewer hours are asked back at intake, the line is drawn with its name, the family is taken in."""

from __future__ import annotations

from django.test import Client
from tests.web.conftest import HAND

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import JobOpened, Reading
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.history import open_known


def kept(wb: Workbench) -> str:
    """A shelf and a book; its digest."""
    wb.put_shelf(shelf_text())
    return wb.add_book(book_text("corrie"), "corrie")


def visit(wb: Workbench, number: str, hours: str, gap: str, engine: str = "0417") -> None:
    opened = JobOpened(number=number, engine_number=engine, scope="cylinder", hours=hours)
    open_known(wb, opened, wb.add_book(book_text("corrie"), "corrie"), HAND)
    wb.record(number, [Reading(measurand="ring_gap", where="c1.ring.top", text=gap, unit="mm", gauge="FEEL-1",
                               needs=("clean", "room"))], HAND)  # fmt: skip


def test_fewer_hours_than_before_are_asked_back_at_intake(client: Client, empty: Workbench) -> None:
    book = kept(empty)
    visit(empty, "26-090", "412 h", "0.34")
    cells = {"number": "26-091", "engine_number": "04-17", "scope": "valves", "book": book, "hours": "41 h", "by": "k2"}
    answer = client.post("/open", cells)
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "41 h are fewer than the 412 h" in html and 'name="another_meter"' in html and 'value="41 h"' in html
    assert [row.number for row in empty.jobs()] == ["26-090"]
    assert client.post("/open", cells | {"another_meter": "yes"}).status_code == 302
    assert 'name="another_meter"' not in client.get("/open").content.decode()


def test_the_line_is_drawn_with_its_name(client: Client, empty: Workbench) -> None:
    kept(empty)
    for number, hours, gap in (("1", "100 h", "0.25"), ("2", "200 h", "0.30"), ("3", "300 h", "0.35")):
        visit(empty, number, hours, gap)
    html = client.get("/job/3/decide").content.decode()
    assert "measure again by 500 h: ring gap" in html
    assert '<figure class="wear"><figcaption>ring gap' in html and "500 h</text>" in html


def test_the_family_is_taken_in_or_its_absence_said(client: Client, empty: Workbench) -> None:
    kept(empty)
    visit(empty, "9", "150 h", "0.28")
    answer = client.post("/job/9/family", {"by": "k2"})
    assert answer.status_code == 422
    assert "No other engine of Corrie 371" in answer.content.decode()
    for n, (hours, gap) in enumerate((("100 h", "0.25"), ("200 h", "0.30"), ("300 h", "0.36"))):
        visit(empty, f"F{n}", hours, gap, engine="0500")
    visit(empty, "10", "160 h", "0.29")
    answer = client.post("/job/10/family", {"by": "k2"})
    assert (answer.status_code, answer["Location"]) == (302, "/job/10/decide#plan-interval")
    assert "and of its family" in client.get("/job/10/decide").content.decode()
