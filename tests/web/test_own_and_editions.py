"""Something of our own, and another edition, through the screens: shown before, written by an entry, refused in words."""

from __future__ import annotations

import pytest
from django.test import Client

from gudgeon.workbench.bench import Workbench
from web.conftest import EVIL, SMALL

GAP = {"kind": "measure", "name": "reed petal gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "most": "0.20",
       "by": "k1"}  # fmt: skip


def newer(workshop: Workbench) -> str:
    text = workshop.library.book(workshop.loaded(SMALL).book())
    assert text is not None
    return workshop.add_book(text.replace('edition = "', 'edition = "newer ', 1))


def test_an_own_measure_is_asked_like_every_other(client: Client, workshop: Workbench) -> None:
    head = workshop.loaded(SMALL).head
    answer = client.post(f"/job/{SMALL}/own", GAP)
    assert (answer.status_code, workshop.loaded(SMALL).head) == (302, head + 1)
    html = client.get(answer.headers["Location"]).content.decode()
    assert "reed petal gap" in html


@pytest.mark.parametrize("cells", [
    {"kind": "step", "name": "blow the jets out", "at": "c1"},
    {"kind": "check", "name": "petals flat", "at": "c1/piston"},
])  # fmt: skip
def test_an_own_step_and_check_are_written_down(client: Client, workshop: Workbench, cells: dict[str, str]) -> None:
    answer = client.post(f"/job/{SMALL}/own", cells | {"by": "k1"})
    assert answer.status_code == 302, answer.content.decode()[:3000]
    assert cells["name"] in client.get(f"/job/{SMALL}/build").content.decode()


@pytest.mark.parametrize("cells", [
    {"name": ""}, {"name": EVIL}, {"at": "moon"}, {"unit": "psi"}, {"most": "0,2,0"}, {"least": "0.3"}, {"kind": "x"},
    {"kind": "part/1"}, {"name": "lash"}, {"extra": "1"},
])  # fmt: skip
def test_a_wrong_own_thing_is_refused_in_words(client: Client, workshop: Workbench, cells: dict[str, str]) -> None:
    head = workshop.loaded(SMALL).head
    answer = client.post(f"/job/{SMALL}/own", GAP | cells)
    html = answer.content.decode()
    assert (answer.status_code, workshop.loaded(SMALL).head) == (422, head)
    assert "Not done:" in html and EVIL not in html


def test_what_differs_is_seen_before_the_job_changes_its_edition(client: Client, workshop: Workbench) -> None:
    sha, head = newer(workshop), workshop.loaded(SMALL).head
    html = client.get(f"/job/{SMALL}/edition?to={sha}").content.decode()
    assert "newer " in html and "judge the job by this edition" in html
    assert workshop.loaded(SMALL).head == head, "looking changes nothing"
    assert client.post(f"/job/{SMALL}/edition", {"to": sha, "by": "k1"}).status_code == 302
    assert workshop.loaded(SMALL).book() == sha


@pytest.mark.parametrize("to", ["", "0" * 64, EVIL])
def test_an_edition_that_is_not_kept_is_refused(client: Client, workshop: Workbench, to: str) -> None:
    own = workshop.loaded(SMALL).book()
    answer = client.post(f"/job/{SMALL}/edition", {"to": to, "by": "k1"})
    assert answer.status_code == 422 and EVIL not in answer.content.decode()
    assert client.post(f"/job/{SMALL}/edition", {"to": own, "by": "k1"}).status_code == 422
    assert client.get("/job/none/edition").status_code == 404 and client.get("/job/none/own").status_code == 404
    assert workshop.loaded(SMALL).book() == own
