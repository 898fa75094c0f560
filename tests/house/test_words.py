"""Words that have no place in the tree, and names of the demo's story that have none outside it."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
# Each pattern holds a letter in brackets, so that this file does not match itself.
FORBIDDEN = {
    "a registry's host": r"py[p]i\.org|pythonhoste[d]\.|index-ur[l]\s*=?\s*http",
    "a path of one machine": r"(?<![\w.])/wor[k]/|(?<![\w.])/tm[p]/\w|/hom[e]/[a-z]+/|/roo[t]/|\.\./share[d]\b",
}
NAMES = r"\b(Corri[e]|Scre[e]|Gull[y]|Tar[n])\b"
# Numbers of the story that nothing else would have: readings, tip heights, shims, money.
NUMBERS = (
    *("371.01", "36.166", "11.26", "39.6075", "39.5695", "39.5805", "39.5995"),
    *("37.71", "37.91", "37.86", "37.94", "37.62", "1.845", "1.797", "1.698", "1.752", "1.503", "1.652"),
    *("88.026", "88.013", "88.011", "88.019", "87.946", "34.812", "34.621", "127.92", "153.6"),
    *("630.80", "258.80", "0417", "0422"),
)
STORY = NAMES + "|" + "|".join(rf"(?<![\w.]){re.escape(number)}(?![\w.]*\d)" for number in NUMBERS)
TEXT = {
    ".py",
    ".md",
    ".toml",
    ".txt",
    ".html",
    ".js",
    ".css",
    ".typ",
    ".json",
    ".csv",
    ".svg",
    ".yml",
    ".cfg",
    ".ini",
    "",
}


def tree() -> list[Path]:
    """Every text file that is, or would be, committed."""
    listed = ["git", "-C", str(ROOT), "ls-files", "--cached", "--others", "--exclude-standard"]
    names = subprocess.run(listed, capture_output=True, text=True, check=True).stdout.splitlines()
    paths = (ROOT / name for name in names if name != "LICENSE")
    return [path for path in paths if path.suffix in TEXT and path.is_file()]


def matches(pattern: str, paths: list[Path]) -> list[str]:
    """Where a pattern stands, as file:line: text."""
    found = []
    for path in paths:
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
            if re.search(pattern, line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()[:120]}")
    return found


@pytest.mark.parametrize("what", FORBIDDEN)
def test_the_tree_is_free_of(what: str) -> None:
    assert matches(FORBIDDEN[what], tree()) == []


def test_the_story_stays_in_the_demo() -> None:
    source = ROOT / "src" / "gudgeon"
    outside = [path for path in tree() if path.is_relative_to(source) and not path.is_relative_to(source / "demo")]
    assert outside
    assert matches(STORY, outside) == []


@pytest.mark.parametrize(
    ("pattern", "line"),
    [
        (FORBIDDEN["a registry's host"], "https://py" + "pi.org/simple"),
        (FORBIDDEN["a path of one machine"], 'open("/wor' + 'k/main/x")'),
        (FORBIDDEN["a path of one machine"], "see ../shar" + "ed/design.md"),
        (STORY, "the Cor" + "rie 371"),
        (STORY, "thickness = 1.8" + "45"),
        (STORY, "number 04" + "17,"),
    ],
)
def test_the_patterns_bite(pattern: str, line: str) -> None:
    assert re.search(pattern, line)


@pytest.mark.parametrize("line", ["Screen", "a.jobs/work/list", "11.845", "1.8451", "x0417", "Gullyfoot"])
def test_the_patterns_let_pass(line: str) -> None:
    assert not re.search(STORY, line)
    assert not any(re.search(pattern, line) for pattern in FORBIDDEN.values())
