"""One reading from Return to its verdict in the page, beside a bare page of the same server in the same run."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

ROUNDS = 60


def rows() -> Iterator[tuple[str, float, float | None]]:
    """Ratios at the median and at p95 on a job of the demo's size, and how a job ten times as long compares."""
    with tempfile.TemporaryDirectory() as folder:
        port = _free()
        server = _serve(Path(folder), port)
        try:
            yield from _measured(port)
        finally:
            server.send_signal(signal.SIGTERM)
            server.wait(timeout=20)


def _measured(port: int) -> Iterator[tuple[str, float, float | None]]:
    line = http.client.HTTPConnection("127.0.0.1", port)
    cookie, token = _page(line, "/job/26-014/measure")
    bare = _times(lambda: _get(line, "/no-such-page", cookie), ROUNDS)
    small = _times(lambda: _reading(line, "26-014", cookie, token), ROUNDS)
    yield "Return to verdict / bare page, median", small[ROUNDS // 2] / bare[ROUNDS // 2], None
    yield "Return to verdict / bare page, p95", small[int(ROUNDS * 0.95)] / bare[int(ROUNDS * 0.95)], None
    yield "Return to verdict, median, ms", small[ROUNDS // 2] * 1000, None
    yield "Return to verdict, p95, ms", small[int(ROUNDS * 0.95)] * 1000, None


def _reading(line: http.client.HTTPConnection, job: str, cookie: str, token: str) -> None:
    body = {
        "fact": "reading/1",
        "measurand": "recession",
        "where": "c1.in.left",
        "text": "0.62",
        "unit": "mm",
        "gauge": "DM-1",
    }
    typed = {
        "id": str(uuid.uuid4()),
        "typed_at": "2026-11-25T08:00:00Z",
        "by": "b",
        "bench": "b",
        "nth": 1,
        "seen": 0,
        "body": body,
    }
    headers = {"Cookie": cookie, "X-CSRFToken": token, "Content-Type": "application/json"}
    line.request("POST", f"/job/{job}/entries", json.dumps(typed), headers)
    answer = line.getresponse()
    said = answer.read()
    assert answer.status == 200, said
    _get(line, f"/job/{job}/measure?m=recession&at=c1.in.left", cookie, fragment=True)


def _get(line: http.client.HTTPConnection, path: str, cookie: str, *, fragment: bool = False) -> None:
    line.request("GET", path, headers={"Cookie": cookie, **({"HX-Request": "true"} if fragment else {})})
    line.getresponse().read()


def _page(line: http.client.HTTPConnection, path: str) -> tuple[str, str]:
    line.request("GET", path)
    answer = line.getresponse()
    answer.read()
    token = re.search(r"csrftoken=([^;]+)", answer.headers["Set-Cookie"])
    assert token
    return f"csrftoken={token[1]}", token[1]


def _times(work: Callable[[], None], rounds: int) -> list[float]:
    found = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return sorted(found)


def _free() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _serve(folder: Path, port: int) -> subprocess.Popen[bytes]:
    env = {**os.environ, "GUDGEON_DATA": str(folder)}
    tell = "from gudgeon.wiring.bench import workbench; from gudgeon.demo.run import tell; tell(workbench())"
    subprocess.run([sys.executable, "-c", tell], env=env, check=True, stdout=subprocess.DEVNULL)
    words = [sys.executable, "-m", "gudgeon", "serve", "--port", str(port)]
    server = subprocess.Popen(words, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    for _ in range(200):
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{port}/static/mark.svg", timeout=1)
        except OSError:
            time.sleep(0.1)
        else:
            return server
    raise SystemExit("the bench did not start")
