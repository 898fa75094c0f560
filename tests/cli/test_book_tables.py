"""Limits from a table, books like one another and what differs, from the command line: exit codes, words, JSON."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main

BOOK = """\
# mine
[book]
name = "Fellrigg 212"
[layout]
cylinders = 1
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"
"""


def test_a_table_goes_into_a_book_and_a_dry_run_writes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book, table = tmp_path / "own.toml", tmp_path / "t.csv"
    book.write_text(BOOK, encoding="utf-8")
    table.write_text("Item;New mm;Limit\nSeat width;0,9–1,1;1,5\nFuel cock;1–2;3\n", encoding="utf-8")
    words = ["book", "import", str(table), "--into", str(book), "--json"]
    assert main([*words, "--dry-run"]) == 1
    assert book.read_text(encoding="utf-8") == BOOK
    assert [f["fate"] for f in json.loads(capsys.readouterr().out)] == ["kept", "skipped"]
    assert main(words) == 1
    assert 'most = "1.5 mm"' in book.read_text(encoding="utf-8")


def test_a_book_like_another_and_what_differs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book, other = tmp_path / "own.toml", tmp_path / "new.toml"
    book.write_text(BOOK, encoding="utf-8")
    assert main(["book", "new", "Fellrigg 250", "--like", str(book), "--out", str(other)]) == 0
    assert main(["book", "diff", str(book), str(other)]) == 1
    assert "book, name: Fellrigg 212 → Fellrigg 250" in capsys.readouterr().out
    assert main(["book", "diff", str(book), str(book)]) == 0
    assert main(["book", "new", "X", "--like", str(book), "--out", str(other)]) == 1
