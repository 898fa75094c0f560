"""The same story gives the same ledger, byte for byte, in memory and in a database, and never touches a real workshop."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from telling import all_three, whole

from gudgeon.demo.run import BACK, HALFWAY, JOBS, NUMBER, WAITING
from gudgeon.workbench.bench import Workbench


@pytest.fixture(scope="module")
def told() -> Workbench:
    """All four jobs, in memory."""
    return all_three()


def test_told_twice_it_is_the_same(told: Workbench) -> None:
    assert told.ledgers.head(NUMBER) == whole().bench.ledgers.head(NUMBER)


def test_four_jobs_stand_where_the_story_leaves_them(told: Workbench) -> None:
    assert {row.number for row in told.jobs()} == set(JOBS)
    halfway, waiting = told.view(HALFWAY), told.view(WAITING)
    assert (halfway.job.scope, halfway.job.engine_number) == ("valves", "0422")
    assert (halfway.open != (), halfway.next.words) == (True, "shim thickness, exhaust right")
    assert (waiting.job.scope, waiting.job.book.name) == ("cylinder", "Tarn 174")
    gap = waiting.at("ring_gap@c1.ring.top")
    assert gap is not None
    assert (gap.verdict, waiting.next.words) == ("past limit", "wait for order P-3")
    assert [p for number in JOBS for p in told.view(number).problems] == []


def test_the_engine_that_comes_back_knows_what_its_overhaul_read(told: Workbench) -> None:
    """Two cams, four followers, read at 412 and 520 hours: enough for their own rates; the one chain says too little."""
    plan = told.view(BACK).plan("interval")
    assert plan is not None
    assert {(line.numbers["key"], line.numbers["readings"], line.numbers["lives"]) for line in plan.lines} == {
        ("base_circle", 4, 2),
        ("follower_bore", 8, 4),
    }
    assert plan.reasons[0] == "measure again by 628 h: base circle, cam exhaust"
    assert "too little to say" in plan.reasons[1]


def gudgeon(folder: Path, *words: str, home: Path) -> subprocess.CompletedProcess[str]:
    """The command as a user runs it, in a home of its own."""
    env = {k: v for k, v in os.environ.items() if not k.startswith(("GUDGEON_", "DJANGO_"))} | {"HOME": str(home)}
    command = [sys.executable, "-m", "gudgeon", "demo", "--no-serve", "--data", str(folder), *words]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=300, env=env)


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, subprocess.CompletedProcess[str]]:
    """The demo told into a real database."""
    home = tmp_path_factory.mktemp("home")
    folder = home / "shown"
    return home, folder, gudgeon(folder, home=home)


Shown = tuple[Path, Path, subprocess.CompletedProcess[str]]


def test_the_command_tells_prints_and_writes_the_record(shown: Shown, told: Workbench) -> None:
    home, folder, ran = shown
    assert (ran.returncode, ran.stderr) == (0, "")
    assert told.ledgers.head(NUMBER).digest.hex()[:12] in ran.stdout  # the database holds what memory holds
    assert "open: 0" in ran.stdout
    assert (folder / f"hand-over-{NUMBER}.pdf").read_bytes().startswith(b"%PDF")
    assert not (home / "gudgeon-data").exists()


def test_told_already_it_is_only_shown(shown: Shown) -> None:
    home, folder, ran = shown
    again = gudgeon(folder, home=home)
    assert again.returncode == 0
    assert "Telling" not in again.stdout
    assert again.stdout.splitlines()[1:3] == ran.stdout.splitlines()[2:4]


def test_a_folder_with_other_jobs_is_left_alone(tmp_path: Path) -> None:
    data = tmp_path / "workshop"
    env = os.environ | {"GUDGEON_DATA": str(data), "HOME": str(tmp_path)}
    book = Path(__file__).resolve().parents[2] / "src/gudgeon/demo/books/corrie.toml"
    words = ["job", "open", "7", "--book", str(book), "--engine", "0500"]
    subprocess.run([sys.executable, "-m", "gudgeon", *words], check=True, env=env, capture_output=True, timeout=120)
    ran = gudgeon(data, home=tmp_path)
    assert ran.returncode == 1
    assert "holds other jobs" in ran.stderr
    assert "Traceback" not in ran.stderr
