"""Every page answers, with its policy and nothing inline; what is typed stays text; what is wrong is said in words."""

from __future__ import annotations

import io
import re
import zipfile

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from tests.web.conftest import EVIL, HAND, JOB, SMALL
from tests.web.every_page import PAGES, address

from gudgeon.job.entries import Note
from gudgeon.workbench.bench import Workbench

#: Every page that is there, and the lists that are folded away on one of them.
LOOKED_AT = (
    *(name for name in PAGES if name != "wrong"),
    *(f"/job/{JOB}/decide/{which}" for which in ("good", "missing", "others")),
)
INTAKE = {"number": "26-090", "engine_number": "5", "scope": "valves", "book": "own", "family": "Mule", "follower": "finger",
          "cylinders": "1", "valves_in": "2", "valves_ex": "2"}  # fmt: skip


@pytest.mark.parametrize("page", LOOKED_AT)
def test_a_page_answers_with_nothing_inline(client: Client, workshop: Workbench, page: str) -> None:
    answer = client.get(address(page, workshop))
    html = answer.content.decode()
    assert answer.status_code == 200
    assert (
        "unsafe" not in answer["Content-Security-Policy"] and "default-src 'none'" in answer["Content-Security-Policy"]
    )
    assert not re.search(r"<[a-z][^>]*\s(style|on[a-z]+)\s*=", html)
    for script in re.findall(r"<script\b[^>]*>", html):
        assert "src=" in script or "application/json" in script
    assert not re.search(r"(src|href|action)=\"(https?:)?//", html)


@pytest.mark.parametrize("page", LOOKED_AT)
def test_what_was_typed_stays_text(client: Client, workshop: Workbench, page: str) -> None:
    html = client.get(address(page, workshop)).content.decode()
    assert "<script>alert" not in html
    assert EVIL not in html


def test_what_was_typed_is_shown(client: Client, workshop: Workbench) -> None:
    html = client.get(f"/job/{JOB}/papers").content.decode()
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html


@pytest.mark.parametrize(
    "door", ["", "measure", "decide", "build", "papers", "data/xlsx", "paper/hand_over", "decide/good"]
)
def test_a_job_that_is_not_there_is_said(client: Client, workshop: Workbench, door: str) -> None:
    answer = client.get(f"/job/no-such/{door}")
    assert answer.status_code in (404, 422)
    assert "Traceback" not in answer.content.decode()


def test_jobs_say_what_each_waits_for_and_are_found(client: Client, workshop: Workbench) -> None:
    html = client.get("/").content.decode()
    for number in (JOB, SMALL):
        assert workshop.view(number).next.words in html
    assert SMALL not in client.get(f"/?search={JOB}").content.decode()
    assert "No job matches" in client.get("/?search=zeppelin").content.decode()


def test_an_empty_workshop_leads_to_its_first_job(client: Client, empty: Workbench) -> None:
    assert "Open the first job" in client.get("/").content.decode()


def test_intake_opens_a_job_and_goes_to_the_bench(client: Client, empty: Workbench) -> None:
    answer = client.post("/open", INTAKE | {"owner": "A. Miller", "phone": "1", "by": "k2"})
    assert (answer.status_code, answer["Location"]) == (302, "/job/26-090/measure")
    assert client.get("/job/26-090/measure").status_code == 200
    lines = [row.line for row in empty.ledgers.rows("26-090")]
    assert "Miller" not in "".join(lines) and '"by":"k2"' in lines[0]


def test_a_refused_intake_keeps_what_was_typed(client: Client, empty: Workbench) -> None:
    answer = client.post("/open", INTAKE | {"engine_number": "", "family": "", "machine": "snow groomer"})
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "engine number" in html and "engine family" in html and 'value="snow groomer"' in html
    assert empty.jobs() == ()


def test_a_taken_number_is_refused_in_words(client: Client, workshop: Workbench) -> None:
    answer = client.post("/open", INTAKE | {"number": JOB})
    assert answer.status_code == 422 and JOB in answer.content.decode()


def test_a_book_with_problems_is_refused_line_by_line(client: Client, empty: Workbench) -> None:
    text = b'[book]\nname = "X"\n[layout]\ncylinders = 0\n[layout.in]\nvalves = 2\nfollower = "bucket"\n'
    answer = client.post("/more/books", {"book": SimpleUploadedFile("x.toml", text)})
    html = answer.content.decode()
    assert answer.status_code == 422 and "x.toml:4" in html and "x.toml:7" in html
    assert empty.library.books() == ()


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"x" * (2 * 1024 * 1024 + 1)])
def test_a_file_that_is_no_book_is_refused(client: Client, empty: Workbench, data: bytes) -> None:
    assert client.post("/more/books", {"book": SimpleUploadedFile("x.toml", data)}).status_code == 422


def test_a_book_is_added_and_shown_by_its_lines(client: Client, workshop: Workbench) -> None:
    text = workshop.library.book(workshop.library.books()[0][0]) or ""
    new = text.replace('edition = "2"', 'edition = "3"', 1)
    answer = client.post("/more/books", {"book": SimpleUploadedFile("c.toml", new.encode())})
    assert answer.status_code == 302
    assert "edition = &quot;3&quot;" in client.get(answer["Location"]).content.decode()


def test_the_shelf_is_replaced_or_left(client: Client, workshop: Workbench) -> None:
    before = workshop.library.shelf()
    bad = SimpleUploadedFile("s.toml", b'[[gauge]]\nid = "X"\n')
    assert client.post("/more/shelf", {"shelf": bad}).status_code == 422
    assert workshop.library.shelf() == before
    good = SimpleUploadedFile("s.toml", b'[rules]\nhour_price = "99.00"\n')
    assert client.post("/more/shelf", {"shelf": good}).status_code == 302
    assert "99.00" in client.get("/rules").content.decode()


def test_a_copy_is_made_and_put_back(client: Client, workshop: Workbench) -> None:
    assert client.post("/copies/make").status_code == 302
    made = workshop.copies.all()[0]
    client.post("/open", INTAKE)
    assert "26-090" in client.get("/").content.decode()
    asked = client.get(f"/copies/{made.name}/restore").content.decode()
    assert "put this copy back" in asked
    assert client.post(f"/copies/{made.name}/restore").status_code == 302
    assert "26-090" not in client.get("/").content.decode()


@pytest.mark.parametrize("name", ["no.sqlite3", "..%2F..%2Fsecret.txt"])
def test_a_copy_that_is_none_is_not_put_back(client: Client, workshop: Workbench, name: str) -> None:
    assert client.post(f"/copies/{name}/restore").status_code == 404


def test_retracting_shows_first_what_would_change_and_writes_nothing(client: Client, workshop: Workbench) -> None:
    before = workshop.ledgers.head(JOB)
    seq = next(e.seq for e in workshop.view(JOB).entries if e.fact == "disposition")
    html = client.get(f"/job/{JOB}/papers?retract={seq}").content.decode()
    for change in workshop.if_retracted(JOB, seq):
        assert change.split(":")[0].split("<")[0][:20] in html
    assert workshop.ledgers.head(JOB) == before


@pytest.mark.parametrize("seq", ["1", "0", "99999", "x", "-1", "²"])
def test_what_cannot_be_retracted_is_not_offered(client: Client, workshop: Workbench, seq: str) -> None:
    answer = client.get(f"/job/{JOB}/papers", {"retract": seq})
    assert answer.status_code == 200 and "Take back entry" not in answer.content.decode()


def test_the_archive_is_the_whole_job(client: Client, workshop: Workbench) -> None:
    answer = client.get(f"/job/{JOB}/data/gudgeon.zip")
    names = zipfile.ZipFile(io.BytesIO(answer.content)).namelist()
    assert "ledger.jsonl" in names and answer["Content-Disposition"].endswith(f'"{JOB}.gudgeon.zip"')


def test_a_paper_is_read_printed_and_handed_over(client: Client, workshop: Workbench) -> None:
    pdf = client.get(f"/job/{JOB}/paper/hand_over.pdf")
    assert pdf["Content-Type"] == "application/pdf" and pdf.content.startswith(b"%PDF-")
    assert client.get(f"/job/{JOB}/paper/hand_over.pdf?size=a3").status_code == 422
    assert client.post(f"/job/{JOB}/paper/hand_over/issued", {"by": "k1"}).status_code == 302
    assert workshop.view(JOB).papers[-1].paper == "hand_over"


def test_a_superseded_paper_says_what_changed(client: Client, workshop: Workbench) -> None:
    client.post(f"/job/{JOB}/paper/hand_over/issued", {"by": "k1"})
    entry = workshop.view(JOB).papers[-1].entry
    assert f"?changed={entry}" not in client.get(f"/job/{JOB}/papers").content.decode()
    workshop.record(JOB, (Note(words="new <battery> advised", where="advised"),), HAND)
    assert f"?changed={entry}" in client.get(f"/job/{JOB}/papers").content.decode()
    html = client.get(f"/job/{JOB}/papers?changed={entry}").content.decode()
    assert f"what changed since entry {entry}" in html
    assert re.search(r'<span class="grey">now</span> [^<]*new &lt;battery&gt; advised', html)
    assert "what changed since" not in client.get(f"/job/{JOB}/papers?changed=x").content.decode()


def test_forms_without_their_token_write_nothing(workshop: Workbench) -> None:
    strict = Client(enforce_csrf_checks=True)
    assert strict.post("/open", INTAKE).status_code == 403
    assert strict.post("/copies/make").status_code == 403
    assert [row.number for row in workshop.jobs()] == [SMALL, JOB]
