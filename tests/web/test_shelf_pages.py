"""Shelf and rules as forms: what is wrong stands at its cell, what was typed stays, what was kept is in the shelf."""

import html

import pytest
from django.test import Client

from gudgeon.workbench.bench import Workbench

CARD = {"id": "MIC-9", "name": "own micrometer", "kind": "micrometer", "unit": "mm", "low": "0", "high": "25",
        "resolution": "0.001", "permissible_error": "0.002", "source": "sheet", "direction": "1", "deviation": ""}  # fmt: skip


def test_a_gauge_is_put_on_the_shelf_and_shown(client: Client, empty: Workbench) -> None:
    answer = client.post("/shelf/gauge", CARD, follow=True)
    assert answer.status_code == 200 and "Saved." in answer.content.decode()
    assert len(empty.shelf().gauges) == 7
    assert "own micrometer" in client.get("/shelf").content.decode()


def test_a_wrong_cell_is_said_beside_it_and_nothing_typed_is_lost(client: Client, empty: Workbench) -> None:
    answer = client.post("/shelf/gauge", CARD | {"due": "soon", "name": "own & good"})
    page = answer.content.decode()
    assert answer.status_code == 422 and 'id="p-due"' in page and 'aria-describedby="p-due"' in page
    assert "own &amp; good" in page and 'value="soon"' in page and empty.library.shelf() == ""


@pytest.mark.parametrize("where", ["/shelf/gauge?id=gone", "/shelf/study?id=gone"])
def test_a_gauge_that_is_not_there_is_said(client: Client, empty: Workbench, where: str) -> None:
    answer = client.get(where)
    assert answer.status_code == 404 and "no gauge gone" in answer.content.decode()


def test_a_table_is_kept_or_refused_at_its_cell(client: Client, empty: Workbench) -> None:
    rows = {"rows": "2", "size-0": "1.70", "count-0": "2", "size-1": "1.7 N", "count-1": "1"}
    answer = client.post("/shelf/grid/shim", rows)
    page = answer.content.decode()
    assert answer.status_code == 422 and 'id="p-shim-size-1"' in page and 'value="1.7 N"' in page
    assert empty.shelf().shims == ()
    assert client.post("/shelf/grid/shim", rows | {"size-1": "1.75"}).status_code == 302
    assert [str(s.size) for s in empty.shelf().shims] == ["1.70 mm", "1.75 mm"]
    assert client.post("/shelf/grid/gauge", rows).status_code == 404
    assert client.post("/rules/grid/work", {"rows": "1", "of-0": "cut_seat", "price-0": "31.00"}).status_code == 302


@pytest.mark.parametrize("rows", ["", "-1", "many", "999999999"])
def test_an_odd_count_of_rows_harms_nothing(client: Client, empty: Workbench, rows: str) -> None:
    assert client.post("/shelf/grid/shim", {"rows": rows}).status_code == 302
    assert empty.shelf().shims == ()


def test_rules_are_kept_with_where_the_usual_ones_come_from(client: Client, empty: Workbench) -> None:
    assert "common practice, no source" in client.get("/rules").content.decode()
    bad = client.post("/rules", {"risk": "lots", "currency": "EUR"})
    page = bad.content.decode()
    assert bad.status_code == 422 and 'id="p-risk"' in page and 'value="lots"' in page and 'value="EUR"' in page
    assert client.post("/rules", {"risk": "2.5 %", "currency": "EUR"}).status_code == 302
    assert (empty.shelf().rules.risk, empty.shelf().rules.currency) == (0.025, "EUR")


def test_a_page_from_before_a_change_asks_to_look_again(client: Client, empty: Workbench) -> None:
    client.post("/rules", {"currency": "EUR"})
    answer = client.post("/rules", {"currency": "CHF", "shown": "0" * 16})
    page = html.unescape(answer.content.decode())
    assert answer.status_code == 422 and "changed elsewhere" in page and 'value="CHF"' in page
    assert empty.shelf().rules.currency == "EUR"


def test_a_study_is_worked_out_before_it_is_kept(client: Client, empty: Workbench) -> None:
    where = "/shelf/study?id=mic-25"
    typed = {f"r{n}": text for n, text in enumerate(("4.975", "4.976", "4.974", "4.975", "4.977"), 1)}
    few = client.post(where, dict(list(typed.items())[:3]) | {"do": "work"})
    assert few.status_code == 422 and "too few" in few.content.decode()
    shown = client.post(where, typed | {"do": "work"})
    assert shown.status_code == 200 and "degrees of freedom" in shown.content.decode() and empty.library.shelf() == ""
    assert client.post(where, typed | {"do": "keep"}).status_code == 422, "nobody's hand"
    assert client.post(where, typed | {"do": "keep", "by": "k1"}).status_code == 302
    assert empty.shelf().gauge("mic-25").repeat_by == "k1"  # type: ignore[union-attr]
    assert "5 readings by k1" in client.get("/shelf").content.decode()


def test_today_s_card_and_rules_go_into_a_running_job(client: Client, workshop: Workbench) -> None:
    before = workshop.loaded("26-014").head
    assert client.post("/rules/pin", {"job": "26-014", "by": "k1"}).status_code == 302
    assert client.post("/shelf/pin", {"job": "26-014", "id": "FEEL-1", "by": "k1"}).status_code == 302
    assert workshop.loaded("26-014").head == before + 2
    assert client.post("/rules/pin", {"job": "gone"}).status_code == 422
    assert client.post("/shelf/pin", {"job": "gone", "id": "FEEL-1"}).status_code == 422
