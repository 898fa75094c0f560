"""On a network nothing but the door itself answers to a bench that is not in; alone on this computer there is no door."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from django.test import Client
from django.urls import get_resolver

from gudgeon.web.door import COOKIE, keeper
from gudgeon.workbench.bench import Workbench

HTML = {"HTTP_ACCEPT": "text/html"}


@pytest.fixture(params=["tls", "plain"])
def network(request: pytest.FixtureRequest, settings: Any, workshop: Workbench) -> Iterator[str]:
    """The workshop on a network."""
    settings.GUDGEON_NETWORK = request.param
    keeper.cache_clear()
    yield request.param
    keeper.cache_clear()


def paired(client: Client, name: str = "north") -> str:
    """Bring a client in; the code that it used."""
    code = keeper().new_code()
    answer = client.post(f"/pair/{code}", {"name": name})
    assert answer.status_code == 302, answer.content.decode()
    return code


def addresses() -> Iterator[str]:
    """Every address of the bench, its holes filled."""
    for pattern in get_resolver().url_patterns:
        route = str(pattern.pattern)  # type: ignore[union-attr]
        for hole, filled in (("<str:number>", "26-014"), ("<int:seq>", "1"), ("<str:code>", "x"), ("<str:bench>", "x")):
            route = route.replace(hole, filled)
        yield "/" + route.replace("<", "").replace(">", "").replace("str:", "")


def test_nothing_is_served_without_pairing(client: Client, network: str) -> None:
    seen = 0
    for address in addresses():
        if address.startswith(("/pair/", "/enter", "/worker.js")):
            continue
        answer = client.get(address, **HTML)  # type: ignore[arg-type]
        assert answer.status_code == 302 and answer.headers["Location"].startswith("/enter?to="), address
        assert client.get(address).status_code == 401, address
        assert client.post(address, {"a": "b"}).status_code == 401, address
        seen += 1
    assert seen > 20


def test_the_entries_address_answers_json_and_never_redirects(client: Client, network: str) -> None:
    answer = client.post("/job/26-014/entries", data=b"{}", content_type="application/json", **HTML)  # type: ignore[arg-type]
    assert answer.status_code == 401
    assert "nothing is lost" in json.loads(answer.content)["problems"][0]["remedy"]


def test_a_code_brings_a_bench_in_and_its_name_stands_as_the_account(client: Client, network: str) -> None:
    code = paired(client)
    cookie = client.cookies[COOKIE]
    assert cookie["httponly"] and cookie["samesite"] == "Lax"
    assert bool(cookie["secure"]) == (network == "tls")
    assert client.get("/", **HTML).status_code == 200  # type: ignore[arg-type]
    entry = {
        "id": "3f1c9f4e-0000-4000-8000-000000000001", "typed_at": "2026-11-25T09:00:00Z", "by": "k1", "bench": "t1",
        "nth": 1, "seen": 1, "body": {"fact": "note/1", "words": "by the north bench"},
    }  # fmt: skip
    landed = client.post("/job/26-014/entries", data=json.dumps(entry), content_type="application/json")
    assert landed.status_code == 200, landed.content
    assert "north" in client.get("/job/26-014/papers", **HTML).content.decode()  # type: ignore[arg-type]
    assert Client().get(f"/pair/{code}").status_code == 410


def test_looking_at_a_code_does_not_use_it_up(client: Client, network: str) -> None:
    code = keeper().new_code()
    for _ in range(3):
        assert Client().get(f"/pair/{code}").status_code == 200
    assert client.post(f"/pair/{code}", {"name": "north"}).status_code == 302


def test_a_bench_that_is_sent_away_is_out_at_its_next_request(client: Client, network: str) -> None:
    paired(client, "north")
    other = Client()
    paired(other, "south")
    shown = client.get("/benches", **HTML).content.decode()  # type: ignore[arg-type]
    assert "north" in shown and "south" in shown
    south = next(b for b in keeper().benches.benches() if b.name == "south")
    assert client.post(f"/benches/{south.id}/end").status_code == 302
    assert other.get("/job/26-014/head").status_code == 401
    assert client.get("/job/26-014/head").status_code == 200
    assert client.post(f"/benches/{south.id}/end").status_code == 422


def test_a_code_is_shown_for_a_camera_and_read_back(client: Client, network: str) -> None:
    paired(client)
    shown = client.post("/benches").content.decode()
    assert "/pair/" in shown and "<svg" in shown


def test_an_account_signs_in_and_goes_where_it_wanted_but_never_elsewhere(client: Client, network: str) -> None:
    keeper().put_account("mara", "a long enough one")
    assert client.post("/enter", {"name": "mara", "password": "wrong"}).status_code == 422
    good = {"name": "mara", "password": "a long enough one"}
    assert client.post("/enter", {**good, "to": "/job/26-014/"}).headers["Location"] == "/job/26-014/"
    for to in ("https://evil.example/", "//evil.example", "javascript:alert(1)", "/\\evil.example"):
        assert Client().post("/enter", {**good, "to": to}).headers["Location"] == "/"


def test_alone_on_this_computer_there_is_no_door(client: Client, workshop: Workbench) -> None:
    assert client.get("/").status_code == 200
    shown = client.get("/benches").content.decode()
    assert "gudgeon serve --lan" in shown
    assert "/pair/" not in client.post("/benches").content.decode()


def test_the_worker_is_served_from_the_root_with_a_version(client: Client, workshop: Workbench) -> None:
    answer = client.get("/worker.js")
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert 'GUDGEON_VERSION = "' in answer.content.decode()
