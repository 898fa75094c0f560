"""What a job left over, counted on its page and taken in the next job: a journey over the screens."""

from __future__ import annotations

import json
import uuid
from importlib.resources import files

from django.test import Client

from gudgeon.job.entries import Arrived, Disposition, JobClosed, JobOpened, Ordered, PartReceived
from gudgeon.workbench.bench import Hand, Workbench

HAND = Hand(by="k1", bench="b1")
PAGE = "/job/{}/papers"


def opened(wb: Workbench, number: str) -> None:
    sha = wb.add_book(files("gudgeon.demo").joinpath("books", "corrie.toml").read_text(encoding="utf-8"))
    wb.open_job(JobOpened(number=number, engine_number="12", scope="head out", machine="quad"), sha, HAND)


def test_left_over_to_the_shelf_and_into_the_next_job(client: Client, empty: Workbench) -> None:
    opened(empty, "A")
    valve = empty.book(empty.loaded("A").book()).parts_in("c1.ex.left/valve")[0]
    empty.record("A", [Ordered(order="O-1", kind="parts", lines={valve.number: 2}),
                       Arrived(order="O-1", lines={valve.number: 2})], HAND)  # fmt: skip
    assert "left." not in client.get(PAGE.format("A")).content.decode(), "an open job leaves nothing over yet"
    empty.record("A", [JobClosed(reason="given to another")], HAND)
    page = client.get(PAGE.format("A")).content.decode()
    assert f'name="left.{valve.number}"' in page and 'value="2"' in page and "Left over" in page
    bad = client.post("/job/A/leftovers", {f"left.{valve.number}": "7"})
    assert bad.status_code == 422 and "7 of 2 left over cannot be" in bad.content.decode()
    assert empty.shelf().leftovers == ()
    assert client.post("/job/A/leftovers", {f"left.{valve.number}": "2"}).status_code == 302
    assert [(row.number, row.count, row.job) for row in empty.shelf().leftovers] == [(valve.number, 2, "A")]
    assert "Left over" not in client.get(PAGE.format("A")).content.decode()
    assert 'value="A"' in client.get("/shelf").content.decode(), "the grid keeps which job it came from"

    opened(empty, "B")
    empty.record("B", [Disposition(part="orig:c1.ex.left/valve", what="renew", reason="bent")], HAND)
    decide = client.get("/job/B/decide").content.decode()
    assert "2 on the shelf" in decide and '"order":"shelf"' in decide
    body = {"fact": "part_received/1", "kind": "valve", "order": "shelf", "number": valve.number}
    head = empty.loaded("B").head
    typed = {"id": str(uuid.uuid4()), "typed_at": "2026-11-25T08:00:00Z", "by": "k1", "bench": "t", "nth": 1, "seen": head,
             "body": body}  # fmt: skip
    assert client.post("/job/B/entries", json.dumps(typed), content_type="application/json").status_code in (200, 201)
    assert [row.count for row in empty.shelf().leftovers] == [1]
    assert isinstance(empty.loaded("B").entries[-1].typed.body, PartReceived)
