"""A workshop to look at, a client for its pages, and a tablet that notes whatever a page should not do."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from django.db import connection
from django.test import Client
from playwright.sync_api import Browser, BrowserContext, Page
from tests.bench.conftest import live as live
from tests.bench.live import Live

from gudgeon.job.entries import Disposition, EstimateApproved, Finding, JobOpened, Note, OperationDone, Reading
from gudgeon.web.shape import bench as server_bench
from gudgeon.wiring.bench import assembled
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.clock import StoryClock

HAND = Hand(by="k1", bench="b1")
VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
EVIL = "<script>alert(1)</script>'\"&"
JOB, SMALL = "26-014", "26-015"


@pytest.fixture
def empty(folder: Path) -> Workbench:
    """A workshop with nothing in it."""
    return assembled(folder, StoryClock("2026-11-25T08:00:00Z"))


@pytest.fixture(scope="session")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the told workshop is kept as a copy, so that it is told once."""
    return tmp_path_factory.mktemp("told") / "told.sqlite3"


@pytest.fixture
def workshop(folder: Path, kept: Path) -> Workbench:
    """A workshop with a job in pieces and a small one, told through the verbs."""
    copies = folder / "copies"
    if not kept.exists():
        wb = assembled(folder, StoryClock("2026-11-25T08:00:00Z"))
        _tell(wb)
        shutil.copy(copies / wb.copies.make().name, kept)
    connection.close()
    for beside in ("-wal", "-shm"):
        (folder / f"gudgeon.sqlite3{beside}").unlink(missing_ok=True)
    shutil.copy(kept, folder / "gudgeon.sqlite3")
    copies.mkdir(exist_ok=True)
    shutil.copy(kept, copies / "2026-11-25T08-00-00Z.sqlite3")
    return assembled(folder, StoryClock("2026-11-25T09:00:00Z", seed="later"))


def _tell(wb: Workbench) -> None:
    demo = files("gudgeon.demo")
    wb.put_shelf(demo.joinpath("shelf.toml").read_text(encoding="utf-8"))
    sha = wb.add_book(demo.joinpath("books", "corrie.toml").read_text(encoding="utf-8"))
    for number, scope in ((JOB, "whole top end"), (SMALL, "valves")):
        opened = JobOpened(
            number=number, engine_number="12", scope=scope, machine="quad 3", hours="412 h", complaint=EVIL
        )
        wb.open_job(opened, sha, HAND)
    feeler = wb.shelf().of_kind("feeler")[0].id
    lash = [
        Reading(measurand="lash", where=valve, text=text, unit="mm", gauge=feeler)
        for valve, text in zip(VALVES, ("0.05/0.06", "0.11/0.12", "0.21/0.22", "0.22/0.23"), strict=True)
    ]
    tester = wb.shelf().of_kind("spring tester")[0].id
    weak = [
        Reading(measurand="spring_load", where=valve, text="150.0", unit="N", gauge=tester)
        for valve in ("c1.in.right", "c1.ex.left", "c1.ex.right")
    ]
    wb.record(SMALL, lash, HAND)
    wb.record(JOB, [*lash, *weak, *_work()], HAND)


def _work() -> tuple[OperationDone | Finding | Disposition | EstimateApproved | Note, ...]:
    return (
        OperationDone(operation="open_cover", where="head"),
        OperationDone(operation="loosen_head", where="head"),
        OperationDone(operation="rag_in", where="engine", detail={"count": "1"}),
        Finding(kind="groove", where="c1.in.left/valve", words=EVIL),
        Disposition(part="orig:c1.in.right/spring", what="renew", reason=EVIL),
        EstimateApproved(amount="640.00", currency="EUR", by=EVIL),
        Note(words=EVIL),
    )


@pytest.fixture
def client(folder: Path) -> Iterator[Client]:
    """Django's own client against the workshop of this test."""
    server_bench.cache_clear()
    yield Client()
    server_bench.cache_clear()


class Tablet:
    """A page and what it did: errors on its console, and requests that left the bench."""

    def __init__(self, context: BrowserContext, url: str) -> None:
        context.add_init_script(
            "document.addEventListener('securitypolicyviolation', e => console.error('policy: ' + e.violatedDirective));"
        )
        self.page: Page = context.new_page()
        self.url = url
        self.wrong: list[str] = []
        self.page.on("pageerror", lambda error: self.wrong.append(str(error)))
        self.page.on(
            "console", lambda said: self.wrong.append(said.text) if said.type in ("error", "warning") else None
        )
        self.page.on(
            "request", lambda asked: None if self._ours(asked.url) else self.wrong.append(f"left: {asked.url}")
        )

    def _ours(self, address: str) -> bool:
        return address.startswith((self.url, "data:", "blob:"))

    def go(self, path: str) -> Page:
        """Open a page of the bench."""
        self.page.goto(self.url + path)
        return self.page


@pytest.fixture
def tablet(chromium: Browser, workshop: Workbench, live: Live) -> Iterator[Tablet]:
    """A tablet before the told workshop; its test fails on any error of a page."""
    context = chromium.new_context(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
    opened = Tablet(context, live.url)
    yield opened
    context.close()
    assert opened.wrong == []
