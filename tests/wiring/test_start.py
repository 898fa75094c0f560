"""The bench as a process: it starts, answers, keeps its copies, moves off a taken port, and ends when told."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import django_htmx
import pytest

from gudgeon.problem import Refused
from gudgeon.storage.checking import check
from gudgeon.wiring.start import free_port, start

#: A file that an app brings along: served without having been collected.
STATIC = Path(django_htmx.__file__).parent
SCRIPT = sorted(file.relative_to(STATIC).as_posix() for file in STATIC.glob("static/**/*.min.js"))[0]
START = "import sys; from gudgeon.wiring.start import start; start(port=int(sys.argv[1]), say=lambda s: print(s, flush=True))"


def main_guarded(folder: Path) -> Path:
    """The worker is spawned, so the start must stand in a file that can be imported again."""
    file = folder / "run_bench.py"
    file.write_text(f"if __name__ == '__main__':\n    {START}\n", encoding="utf-8")
    return file


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[[int], tuple[subprocess.Popen[str], str, list[str]]]]:
    """Start a bench at a port; gives the process, its address, and what it said until it served."""
    running: list[subprocess.Popen[str]] = []

    def begin(port: int) -> tuple[subprocess.Popen[str], str, list[str]]:
        seen = {**os.environ, "GUDGEON_DATA": str(tmp_path / "data")}
        seen.pop("DJANGO_SETTINGS_MODULE", None)
        command = [sys.executable, str(main_guarded(tmp_path)), str(port)]
        child = subprocess.Popen(
            command, env=seen, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, start_new_session=True
        )
        running.append(child)
        assert child.stdout is not None
        said: list[str] = []
        for line in child.stdout:
            said.append(line.strip())
            found = re.search(r"http://\S+", line)
            if found:
                return child, found[0], said
        raise AssertionError("\n".join(said))

    yield begin
    for child in running:
        if child.poll() is None:
            child.kill()
            child.wait()


def answer(address: str) -> int:
    """The status of a page, asked until the server listens."""
    for _ in range(100):
        try:
            with urllib.request.urlopen(address, timeout=10) as got:
                return int(got.status)
        except urllib.error.HTTPError as said:
            return said.code
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.1)
    raise AssertionError(f"{address} never answered")


def end(child: subprocess.Popen[str], how: str) -> None:
    """As a terminal does on Ctrl+C (to all of the group), or as a service manager does."""
    if how == "Ctrl+C":
        os.killpg(child.pid, signal.SIGINT)
    else:
        child.send_signal(getattr(signal, how))


@pytest.mark.parametrize("how", ["Ctrl+C", "SIGINT", "SIGTERM"])
def test_a_bench_starts_answers_and_ends_with_a_copy(
    tmp_path: Path, serve: Callable[[int], tuple[subprocess.Popen[str], str, list[str]]], how: str
) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        child, address, said = serve(port)
    assert any("is taken" in line for line in said)
    assert f":{port}/" not in address
    assert any("Checked copy" in line for line in said)
    assert answer(f"{address}{SCRIPT}") == 200
    end(child, how)
    rest, _ = child.communicate(timeout=8)
    assert child.returncode == 0, rest
    assert "Checked copy" in rest
    assert "Traceback" not in rest
    data = tmp_path / "data"
    assert len(list((data / "copies").iterdir())) == 2
    assert [check(copy) for copy in (data / "copies").iterdir()] == [(), ()]
    assert sorted(file.name for file in data.iterdir()) == [
        ".opening",
        "copies",
        "gudgeon.sqlite3",
        "pictures",
        "secret.txt",
    ]


def test_a_killed_bench_leaves_no_server_behind(
    serve: Callable[[int], tuple[subprocess.Popen[str], str, list[str]]],
) -> None:
    child, address, _ = serve(8000)
    assert answer(f"{address}{SCRIPT}") == 200
    child.kill()
    child.wait()
    port = int(address.rsplit(":", 1)[1].strip("/"))
    for _ in range(100):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) != 0:
                return
        time.sleep(0.1)
    raise AssertionError("the worker still serves")


def test_on_a_network_never_without_pairing() -> None:
    with pytest.raises(Refused, match="with pairing only"):
        start(host="0.0.0.0")


def test_no_free_port_is_said() -> None:
    with pytest.raises(Refused, match="No port from 65536"):
        free_port("127.0.0.1", 65536)
