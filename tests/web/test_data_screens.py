"""Files in and out through the screens: each row shown before it lands, all or none; a job from elsewhere; returned work."""

from __future__ import annotations

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from gudgeon.job.entries import Disposition, OperationDone, Ordered
from gudgeon.workbench.bench import Workbench
from web.conftest import EVIL, HAND, JOB

COLUMNS = {"gauge": "CAL-1", "measurand": "spring_free_length", "value": "Value", "where": "Place", "by": "k1"}
FILE = "Place;Value\nintake left;42.82\nintake right;4.197\nnowhere;42.81\n"


def hidden(html: str) -> dict[str, str]:
    return dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', html)) | {"by": "k1"}


def offered(client: Client, text: str | bytes = FILE, **cells: str) -> tuple[int, str]:
    data = text if isinstance(text, bytes) else text.encode()
    file = SimpleUploadedFile("g.csv", data)
    answer = client.post(f"/job/{JOB}/gauge-data/rows", COLUMNS | cells | {"file": file})
    return answer.status_code, answer.content.decode()


def test_rows_are_shown_asked_confirmed_left_out_and_landed_together(client: Client, workshop: Workbench) -> None:
    assert "CAL-1" in client.get(f"/job/{JOB}/gauge-data").content.decode()
    head = workshop.loaded(JOB).head
    status, html = offered(client)
    assert status == 200 and "nowhere is no place here" in html and "ten times off" in html and "42.82 mm" in html
    sent = hidden(html)
    assert client.post(f"/job/{JOB}/gauge-data/land", sent).status_code == 422
    assert workshop.loaded(JOB).head == head
    sent |= {"confirmed": "g.csv, line 3", "rest": "out"}
    answer = client.post(f"/job/{JOB}/gauge-data/land", sent)
    assert answer.status_code == 302
    texts = [r.fact.text for r in workshop.worked(JOB).given.state.readings if r.fact.measurand == "spring_free_length"]
    assert texts == ["42.82", "4.197"]
    html = client.get(f"/job/{JOB}/gauge-data?gauge=CAL-1").content.decode()
    assert 'name="value" value="Value"' in html and 'name="where" value="Place"' in html


@pytest.mark.parametrize("data", [b"", b"\xff\xfe\0", b"PK\x03\x04", EVIL.encode(), b"=1+1;@x\n", b"x" * 1_100_000])
def test_a_file_that_is_none_is_refused_in_words(client: Client, workshop: Workbench, data: bytes) -> None:
    status, html = offered(client, data)
    assert status == 422 and "Not done:" in html and EVIL not in html and "Traceback" not in html


def test_hostile_cells_are_shown_as_text(client: Client, workshop: Workbench) -> None:
    status, html = offered(client, f'Place;Value\n"{EVIL.replace(chr(34), chr(34) * 2)}";42.82\nintake left;=1+1\n')
    assert status == 200 and EVIL not in html and "&lt;script&gt;" in html and "=1+1" in html


def test_a_job_of_another_workshop_under_another_number(client: Client, workshop: Workbench) -> None:
    data = client.get(f"/job/{JOB}/data/gudgeon.zip").content
    answer = client.post("/import", {"archive": SimpleUploadedFile("j.zip", data), "number": "T-9"})
    assert answer.status_code == 422 and "This very job is here already" in answer.content.decode()
    answer = client.post("/import", {"archive": SimpleUploadedFile("j.zip", data[:-9])})
    assert answer.status_code == 422 and client.get("/import").status_code == 200


@pytest.mark.parametrize("name", ["xlsx", "readings.csv", "verdicts.csv", "json"])
def test_each_file_of_a_job(client: Client, workshop: Workbench, name: str) -> None:
    answer = client.get(f"/job/{JOB}/data/{name}")
    assert answer.status_code == 200 and answer.content and "attachment" in answer["Content-Disposition"]
    assert client.get(f"/job/{JOB}/data/x{name}").status_code == 404


def at_the_shop(workshop: Workbench) -> None:
    seat = Disposition(part="orig:c1.in.right/seat", what="machine", reason="leaks")
    order = Ordered(order="M-1", kind="machining", words={"c1.in.right": EVIL})
    workshop.record(
        JOB, [seat, order, OperationDone(operation="sent_out", where="head/head", detail={"order": "M-1"})], HAND
    )


def test_what_came_back_is_written_down_in_one_go(client: Client, workshop: Workbench) -> None:
    answer = client.get(f"/job/{JOB}/returned")
    assert "Nothing is at the shop" in answer.content.decode()
    at_the_shop(workshop)
    html = client.get(f"/job/{JOB}/returned").content.decode()
    names = re.findall(r'<input name="(c1\.in\.right:[^"]+)"', html)
    assert len(names) >= 4 and "M-1" in html
    typed = hidden(html) | {names[0]: "37.60", "untouched:c1.ex.left/guide": "on"}
    typed |= {f"gauge:{m}": g for m, g in re.findall(r'name="gauge:(\w+)"><option value="([^"]+)"', html)}
    head = workshop.loaded(JOB).head
    answer = client.post(f"/job/{JOB}/returned", typed)
    html = answer.content.decode()
    assert (
        answer.status_code == 422 and html.count("is missing.") == len(names) - 1 and workshop.loaded(JOB).head == head
    )
    assert 'value="37.60"' in html
    assert client.post(f"/job/{JOB}/returned", typed | {"rest": "1"}).status_code == 302
    assert any(e.fact == "operation_done" for e in workshop.view(JOB).entries[head:])


def test_a_table_of_the_shop_is_shown_before_it_lands(client: Client, workshop: Workbench) -> None:
    at_the_shop(workshop)
    head = workshop.loaded(JOB).head
    table = b"place;measurand;point;value\nc1.in.right;tip_height;;37.66\n"
    answer = client.post(f"/job/{JOB}/returned/table", {"table": SimpleUploadedFile("s.csv", table)})
    assert (
        answer.status_code == 200 and 'value="37.66"' in answer.content.decode() and workshop.loaded(JOB).head == head
    )
    for data in (b"", b"a;b\n", EVIL.encode(), b"\xff"):
        answer = client.post(f"/job/{JOB}/returned/table", {"table": SimpleUploadedFile("s.csv", data)})
        assert answer.status_code == 422 and EVIL not in answer.content.decode()
