"""Wear over hours from the command line, in a real database: earlier jobs are known at once, the family when asked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.demo.story import book_text, shelf_text
from gudgeon.wiring.bench import workbench


def say(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """Exit code, output, errors."""
    code = main([str(word) for word in words])
    seen = capsys.readouterr()
    return code, seen.out, seen.err


def visit(capsys: pytest.CaptureFixture[str], book: str, number: str, hours: str, gap: str, engine: str) -> None:
    words = ("job", "open", number, "--book", book, "--engine", engine, "--scope", "cylinder", "--hours", hours)
    assert say(capsys, *words)[0] == 0
    reading = ("measurand=ring_gap", "where=c1.ring.top", f"text={gap}", "unit=mm", "gauge=FEEL-1")
    code, _out, err = say(capsys, "job", "record", number, *reading)
    assert code == 0, err


def test_a_third_visit_says_when_the_fourth_is_due(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wb = workbench()
    wb.put_shelf(shelf_text())
    book = wb.add_book(book_text("corrie"), "corrie")
    for number, hours, gap, engine in (
        ("1", "100", "0.25", "AB-1"),
        ("2", "200", "0.30", "ab 1"),
        ("3", "300", "0.35", "AB1"),
    ):
        visit(capsys, book, number, hours, gap, engine)
    code, out, _err = say(capsys, "job", "show", "3", "--plan", "interval", "--json")
    assert code == 0
    plan = json.loads(out)
    assert plan["reasons"][0].startswith("measure again by 500 h: ring gap")
    assert plan["lines"][0]["numbers"]["due_h"] == 500.0
    assert say(capsys, "job", "earlier", "3")[1] == "earlier jobs read: 2\n"
    code, _out, err = say(capsys, "job", "earlier", "3", "--family")
    assert code != 0 and "No other engine of Corrie 371" in err
    visit(capsys, book, "5", "150", "0.28", "CD-2")
    assert say(capsys, "job", "earlier", "5", "--family")[1] == "earlier jobs read: 3\n"
    assert "of its family" in say(capsys, "job", "show", "5", "--plan", "interval", "--json")[1]
    code, _out, err = say(capsys, "job", "open", "4", "--book", book, "--engine", "AB-1", "--hours", "40")
    assert code != 0 and "fewer than the 300 h" in err
    assert (
        say(capsys, "job", "open", "4", "--book", book, "--engine", "AB-1", "--hours", "40", "--another-meter")[0] == 0
    )
