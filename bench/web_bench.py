"""What a tablet waits for and what it loads: one reading from Return to its verdict beside a bare page of the same server,
bytes and requests of the first and the next page, a workshop of many jobs, and a job of many entries."""

from __future__ import annotations

import gzip
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
from typing import TypeVar

Told = TypeVar("Told")
ROUNDS = 60
FEW = 20
#: What the design promises, in bytes on the wire.
FIRST_PAGE, NEXT_READING = 200_000, 15_000
JOBS = ENTRIES = 2_000
SMALL, LARGE = "26-015", "bench-large"


def rows() -> Iterator[tuple[str, float, float | None]]:
    """Ratios at the median and at p95 on a job of the demo's size; then weights, and the same pages of a large workshop."""
    with tempfile.TemporaryDirectory() as folder:
        few = _with_server(Path(folder), TELL, lambda port: [*_measured(port), *_weighed(port)])
        yield from few
        small = dict(_with_server(Path(folder), "", _timed))
        large = dict(_with_server(Path(folder), GROW, lambda port: _timed(port, LARGE)))
    for page, seconds in large.items():
        yield f"{page}, {JOBS} jobs and {ENTRIES} entries / few, median", seconds / small[page], None
        yield f"{page}, {JOBS} jobs and {ENTRIES} entries, median, ms", seconds * 1000, None


def _with_server(folder: Path, told: str, look: Callable[[int], Told]) -> Told:
    port = _free()
    server = _serve(folder, port, told)
    try:
        return look(port)
    finally:
        server.send_signal(signal.SIGTERM)
        server.wait(timeout=20)


def _timed(port: int, job: str = SMALL) -> dict[str, float]:
    line = http.client.HTTPConnection("127.0.0.1", port)
    cookie, _token = _page(line, "/")
    pages = {
        "list of jobs": "/",
        "engine": f"/job/{job}/",
        "measure": f"/job/{job}/measure",
        "papers": f"/job/{job}/papers",
    }
    return {name: _times(lambda at=at: _get(line, at, cookie), FEW)[FEW // 2] for name, at in pages.items()}  # type: ignore[misc]


def _weighed(port: int) -> Iterator[tuple[str, float, float | None]]:
    """The wire as a fresh tablet sees it: the page, and each file that the page and its styles name."""
    line = http.client.HTTPConnection("127.0.0.1", port)
    page = _body(line, "/job/26-014/measure")
    html = gzip.decompress(page).decode()
    named = list(dict.fromkeys(re.findall(r'(?:src|href)="(/static/[^"]+)"', html)))
    fonts = [f"/static/fonts/gudgeon-sans-{weight}.woff2" for weight in ("regular", "semibold", "bold")]
    files = [len(_body(line, path)) for path in named + fonts]
    yield "first page, bytes / promise", (len(page) + sum(files)) / FIRST_PAGE, 1.0
    yield "first page, requests", 1 + len(files), None
    yield "next page, files kept, bytes", len(_body(line, "/job/26-014/decide")), None
    yield "next page, files kept, requests", 1, None
    fragment = len(_body(line, "/job/26-014/measure?m=recession&at=c1.in.left", fragment=True))
    yield "next reading, bytes / promise", fragment / NEXT_READING, 1.0
    yield "next reading, requests", 2, None


def _body(line: http.client.HTTPConnection, path: str, *, fragment: bool = False) -> bytes:
    line.request("GET", path, headers={"Accept-Encoding": "gzip", **({"HX-Request": "true"} if fragment else {})})
    answer = line.getresponse()
    body = answer.read()
    assert answer.status == 200, path
    return body


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


TELL = "from gudgeon.wiring.bench import workbench; from gudgeon.demo.run import tell; tell(workbench())"
GROW = f"""
from gudgeon.job.entries import JobOpened, Note, Reading
from gudgeon.wiring.bench import workbench
from gudgeon.workbench.bench import Hand
bench, hand = workbench(), Hand(by="b", bench="b")
sha = bench.view("{SMALL}").job.book.sha256
for n in range({JOBS}):
    bench.open_job(JobOpened(number=f"bench-{{n:04}}", engine_number=str(n), scope="valves", machine=f"sled {{n}}"), sha, hand)
bench.open_job(JobOpened(number="{LARGE}", engine_number="1", scope="valves", machine="sled"), sha, hand)
feeler = bench.shelf().of_kind("feeler")[0].id
valves = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
read = [Reading(measurand="lash", where=valves[n % 4], text="0.12/0.13", unit="mm", gauge=feeler) for n in range({ENTRIES})]
bench.record("{LARGE}", read, hand)
"""


def _serve(folder: Path, port: int, told: str) -> subprocess.Popen[bytes]:
    env = {**os.environ, "GUDGEON_DATA": str(folder)}
    if told:
        subprocess.run([sys.executable, "-c", told], env=env, check=True, stdout=subprocess.DEVNULL)
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
