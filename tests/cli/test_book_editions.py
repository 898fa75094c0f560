"""A book of a layout, a book as JSON, the schema, and a job put on another edition, from the command line."""

import json
from pathlib import Path

import pytest

import gudgeon
from gudgeon.cli.main import main


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("GUDGEON_DATA", str(tmp_path / "none"))
    return tmp_path


def test_a_book_of_a_layout_and_the_words_of_layouts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "own.toml"
    assert main(["book", "new", "Fellrigg 212", "--layout", "vtwin, 4v, finger, plated", "--out", str(file)]) == 0
    assert main(["book", "check", str(file)]) == 0
    capsys.readouterr()
    assert main(["book", "show", str(file), "--json"]) == 0
    shown = json.loads(capsys.readouterr().out)
    assert shown["format"] == "book/1" and shown["places"]["c2.in.left"] == "cylinder 2 intake left"
    assert shown["tables"]["layout"]["bore"] == "plated" and "c1.in.left/shim" in shown["slots"]
    assert main(["book", "new", "--list"]) == 0
    assert "followers: bucket-over, bucket-under, finger" in capsys.readouterr().out


def test_a_layout_that_is_none_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["book", "new", "X", "--layout", "single, 4v, fingr"]) == 1
    assert "Did you mean finger?" in capsys.readouterr().err
    assert main(["book", "new", "X"]) == 1
    assert "--layout" in capsys.readouterr().err


def test_the_schema_is_the_file_that_editors_read(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["book", "schema"]) == 0
    kept = Path(gudgeon.__file__).parent / "book" / "book.schema.json"
    assert capsys.readouterr().out == kept.read_text(encoding="utf-8")
