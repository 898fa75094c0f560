"""Every calculator on the web: its example gives what the command line gives, filled in by the address, and refuses in words."""

from __future__ import annotations

import html as entities
import re
from urllib.parse import urlencode

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from tests.web.conftest import EVIL, JOB

from gudgeon.calculators.asking import pairs, work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE
from gudgeon.workbench.bench import Workbench


def words(answer: object) -> str:
    return entities.unescape(answer.content.decode())  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", CALCULATORS)
def test_the_example_gives_what_the_command_line_gives(client: Client, empty: Workbench, name: str) -> None:
    kind = calculator(name)
    files = {key.name for key in kind.keys if key.dimension == FILE}
    typed = {key: kind.example_file if key in files else text for key, text in pairs(kind.example.split(" "))}
    expected = work_out(kind, typed.items())
    sent: dict[str, object] = {
        key: SimpleUploadedFile("points.csv", text.encode()) if key in files else text for key, text in typed.items()
    }
    answer = client.post(f"/calc/{name}", sent)
    said = words(answer)
    assert answer.status_code == 200, re.findall(r'class="problem.*', said)
    assert expected.source in said and expected.method in said
    for result in expected.results:
        assert result.name in said
        if isinstance(result.value, float):
            assert f"{abs(result.value):.6g}" in said
    if not files & set(typed):
        assert "Answer" in words(client.get(f"/calc/{name}?{urlencode(typed)}")), "the address fills the form"


def test_what_is_wrong_is_said_and_what_was_typed_stays(client: Client, empty: Workbench) -> None:
    answer = client.post("/calc/shim", {"shim": EVIL, "lash": "0.02", "low": "0.10", "high": "0.15"})
    assert answer.status_code == 422
    assert EVIL not in answer.content.decode() and EVIL in words(answer)
    assert "is missing" in words(client.post("/calc/shim", {"shim": "1.85"}))
    picture = SimpleUploadedFile("p.csv", b"\xff\xd8\x00\x01")
    assert client.post("/calc/flatness", {"points": picture}).status_code == 422
    assert client.get("/calc/nothing").status_code == 404
    assert client.get("/calc").status_code == client.get("/calc/shim").status_code == 200


def test_back_leads_to_a_job_and_nowhere_else(client: Client, empty: Workbench) -> None:
    assert f'href="/job/{JOB}/measure"' in client.get(f"/calc/shim?back=/job/{JOB}/measure").content.decode()
    assert "elsewhere" not in re.sub(r"<input[^>]*>", "", client.get("/calc/shim?back=//elsewhere").content.decode())
