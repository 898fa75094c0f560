"""Papers, ledger, books and copies from the command line, in a real data folder: exit codes, words, and nothing half written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.job.entries import JobOpened, Note, Reading
from gudgeon.wiring.bench import workbench
from gudgeon.workbench.bench import Workbench
from workbench.engine import BOOK, HAND, SHELF


@pytest.fixture
def bench(folder: Path) -> Workbench:
    """A real workshop with one valves job."""
    wb = workbench()
    wb.put_shelf(SHELF)
    wb.open_job(JobOpened(number="T-1", engine_number="7", machine="pump 2"), wb.add_book(BOOK), HAND)
    lash = Reading(measurand="lash", where="c1.in.left", text="0.12/0.13", unit="mm", gauge="FEEL")
    wb.record("T-1", (lash,), HAND)
    return wb


def say(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit code, output, errors."""
    code = main(list(words))
    seen = capsys.readouterr()
    return code, seen.out, seen.err


def test_a_paper_is_written_handed_over_and_checked(
    bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "h.pdf"
    assert say(capsys, "paper", "hand_over", "T-1", "--out", str(file), "--issue")[0] == 0
    assert file.read_bytes().startswith(b"%PDF")
    code, out, _err = say(capsys, "paper", "check", str(file))
    assert code == 0 and "The job still says the same." in out
    assert "handed over: entry" in say(capsys, "paper", "--list", "T-1")[1]
    bench.record("T-1", (Note(words="a hose to renew", where="advised"),), HAND)
    code, out, _err = say(capsys, "paper", "check", str(file))
    assert code == 1 and "now: a hose to renew" in out.replace("– ", "")
    assert "superseded" in say(capsys, "paper", "--list", "T-1")[1]


def test_a_page_and_letter_paper(bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "p.html"
    assert say(capsys, "paper", "bench_sheet", "T-1", "--out", str(page))[0] == 0
    assert page.read_text(encoding="utf-8").startswith("<!doctype html>")
    assert say(capsys, "paper", "check", str(page))[0] == 0
    assert say(capsys, "paper", "job_card", "T-1", "--size", "letter", "--out", str(tmp_path / "l.pdf"))[0] == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("paper", "invoice", "T-1", "--out", "x.pdf"), "There is no paper invoice"),
        (("paper", "hand_over", "T-1"), "Name a file"),
        (("paper", "hand_over", "T-9", "--out", "x.pdf"), "no such job"),
        (("paper", "hand_over"), "needs its kind and its job"),
        (("paper", "check", "nowhere.pdf"), "cannot be read"),
        (("paper", "hand_over", "T-1", "--out", "no/such/folder/x.pdf"), "cannot be written"),
        (("ledger", "verify", "T-9"), "no such job"),
        (("ledger", "verify", "T-1", "--against", "zz"), "is no digest"),
        (("ledger", "verify", "T-1", "--against", "00000000"), "rewritten or cut"),
        (("restore",), "not said which copy"),
        (("restore", "old"), "no copy old"),
        (("book", "show", "nowhere"), "Neither a file nor a kept book"),
    ],
)
def test_what_is_refused_says_why_and_writes_nothing(
    bench: Workbench,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    said: str,
) -> None:
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    code, _out, err = say(capsys, *words)
    assert code == 1 and said in err
    assert list(work.iterdir()) == []


def test_a_ledger_is_verified_against_the_digest_on_a_paper(
    bench: Workbench, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, _err = say(capsys, "ledger", "verify", "T-1")
    digest = out.splitlines()[-1]
    grouped = " ".join(digest[i : i + 4] for i in range(0, 16, 4))
    assert code == 0 and "is one of its own" in say(capsys, "ledger", "verify", "T-1", "--against", grouped)[1]
    found = json.loads(say(capsys, "ledger", "verify", "T-1", "--json")[1])
    assert found == {"job": "T-1", "entries": bench.ledgers.head("T-1").seq, "digest": digest, "verified": True}


def test_a_copy_brings_back_what_was(bench: Workbench, capsys: pytest.CaptureFixture[str]) -> None:
    head = bench.ledgers.head("T-1").seq
    (made,) = json.loads(say(capsys, "backup", "--json")[1])
    assert made["checked"] and made["name"] in say(capsys, "backup", "--list")[1]
    bench.record("T-1", (Note(words="later"),), HAND)
    code, _out, err = say(capsys, "restore", made["name"])
    assert code == 1 and "add --yes" in err and workbench().ledgers.head("T-1").seq == head + 1
    assert say(capsys, "restore", made["name"], "--yes")[0] == 0
    assert workbench().ledgers.head("T-1").seq == head


def test_a_book_is_checked_with_line_and_sum(tmp_path: Path, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "b.toml"
    file.write_text(BOOK, encoding="utf-8")
    code, out, _err = say(capsys, "book", "check", str(file))
    assert code == 0 and "not checked: torques within the wrenches" in out and "0 errors" in out
    file.write_text(BOOK.replace('new = ["4.475 mm", "4.490 mm"]', 'new = ["4.490 mm", "4.475 mm"]'), encoding="utf-8")
    code, out, _err = say(capsys, "book", "check", str(file))
    line = 1 + BOOK.splitlines().index('new = ["4.475 mm", "4.490 mm"]')
    assert code == 1 and f"b.toml:{line}" in out and "swapped" in out
    found = json.loads(say(capsys, "book", "check", str(file), "--json")[1])
    assert found["findings"][0]["severity"] == "error"


def test_the_shelf_of_the_workshop_joins_the_check(
    bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "b.toml"
    file.write_text(BOOK.replace('torque = ["20 N·m", "40 N·m"]', 'torque = ["20 N·m", "90 N·m"]'), encoding="utf-8")
    out = say(capsys, "book", "check", str(file))[1]
    assert "not checked: torques" not in out and "No wrench here is proved at 90 N·m" in out


def test_books_are_kept_shown_and_compared(
    bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "b.toml"
    file.write_text(BOOK.replace('edition = "1"', 'edition = "2"'), encoding="utf-8")
    assert say(capsys, "book", "import", str(file))[0] == 0
    assert "Test 125, edition 2" in say(capsys, "book", "list")[1]
    assert 'edition = "2"' in say(capsys, "book", "show", str(file))[1]
    code, out, _err = say(capsys, "book", "diff", "Test 125", str(file))
    assert code in (0, 1) and ("no difference" in out or "edition" in out)


def test_a_check_makes_no_data_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("GUDGEON_DATA", str(tmp_path / "none"))
    file = tmp_path / "b.toml"
    file.write_text(BOOK, encoding="utf-8")
    assert say(capsys, "book", "check", str(file))[0] == 0
    assert not (tmp_path / "none").exists()
