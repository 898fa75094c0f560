"""The command line as a whole: exit codes, refusals in words and JSON, and what is loaded to answer."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from gudgeon.cli import main as cli
from gudgeon.cli.main import main

HEAVY = ("django", "pydantic", "msgspec", "typst", "numpy", "scipy")
SHIM = ["calc", "shim", "shim=1.85mm", "lash=0.02mm", "low=0.10mm", "high=0.15mm"]


def test_help_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    text = capsys.readouterr().out
    for verb, line, _ in cli.COMMANDS:
        assert f"{verb} " in text
        assert line in text


def test_unknown_command_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clac"]) == 2
    assert "Did you mean calc?" in capsys.readouterr().err


def test_no_words_start_the_bench(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[list[str]] = []

    def ran(verb: str, module: str, words: list[str]) -> int:
        seen.append([verb, *words])
        return 0

    monkeypatch.setattr(cli, "_run", ran)
    main([])
    main(["--port", "8001"])
    assert seen == [["serve", "--open"], ["serve", "--open", "--port", "8001"]]


def test_usage_error_exits_2() -> None:
    with pytest.raises(SystemExit) as ended:
        main(["calc", "shim", "--nonsense"])
    assert ended.value.code == 2


def test_refused_in_words_and_in_json(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = ["calc", "shim", "shim=1.85N", "lash=0.02mm", "lo=0.10mm", "high=0.15mm"]
    assert main(wrong) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "Did you mean low?" in said.err
    assert main([*wrong, "--json"]) == 1
    said = capsys.readouterr()
    assert said.err == ""
    problems = json.loads(said.out)["problems"]
    assert [set(p) for p in problems] == [{"where", "what", "remedy"}] * 2


@pytest.mark.parametrize("place", [2, 3, 6])
def test_json_may_stand_anywhere(place: int, capsys: pytest.CaptureFixture[str]) -> None:
    words = [*SHIM[:place], "--json", *SHIM[place:]]
    assert main(words) == 0
    answer = json.loads(capsys.readouterr().out)
    assert list(answer) == ["results", "method", "source", "validity", "notes"]
    assert answer["results"][0] == {"name": "shim", "value": pytest.approx(1.745), "unit": "mm"}


def _loaded(words: list[str]) -> set[str]:
    code = (
        "import sys, io, contextlib\n"
        "from gudgeon.__main__ import main\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        f"    sys.argv = ['gudgeon', *{words!r}]\n"
        "    main()\n"
        "print(' '.join(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return {name.split(".")[0] for name in done.stdout.split()}


@pytest.mark.parametrize("words", [["--help"], ["calc", "--help"], ["calc", "shim", "--help"], SHIM, [*SHIM, "--json"]])
def test_nothing_heavy_is_loaded(words: list[str]) -> None:
    assert not _loaded(words) & set(HEAVY)


def _process(words: list[str], **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "gudgeon", *words], capture_output=True, env={**os.environ, **environment}, check=False
    )


def test_an_old_terminal_encoding_is_no_crash() -> None:
    done = _process(
        ["calc", "seat-sink", "seat-angle=30", "removed=0.1mm", "valve-diameter=30mm"], PYTHONIOENCODING="ascii"
    )
    assert done.returncode == 0
    assert "cm³" in done.stdout.decode("utf-8")


def test_a_reader_that_leaves_is_no_crash() -> None:
    line = f"{sys.executable} -m gudgeon calc --help | true"
    done = subprocess.run(["bash", "-c", f"set -o pipefail; {line}"], capture_output=True, check=False)
    assert done.stderr == b""


def test_calc_without_a_name_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["calc"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "shim" in said.err


def test_what_is_printed_says_how_and_from_where(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(SHIM) == 0
    text = capsys.readouterr().out
    assert "shim " in text and "1.745 mm" in text
    for word in ("Method: ", "Source: ", "Valid: "):
        assert word in text
    assert main(["calc", "shim", "--help"]) == 0
    text = capsys.readouterr().out
    assert "measured-at" in text and "gudgeon calc shim shim=1.85mm" in text


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out.startswith("gudgeon ")
