"""The pinned files hold what the project asks for, with hashes, and say nothing of where it was fetched."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
ASKED = {"requirements.txt": PROJECT["dependencies"], "requirements-dev.txt": PROJECT["optional-dependencies"]["dev"]}


def plain(requirement: str) -> str:
    """The name of a requirement, spelled as the pinned files spell it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[\[<>=!~; ]", requirement)[0]).lower()


def pins(name: str) -> dict[str, str]:
    """Each pinned name and its version."""
    lines = re.findall(
        r"^([\w.-]+)(?:\[[\w,]+\])?==(\S+)", (ROOT / name).read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    return {plain(package): version for package, version in lines}


@pytest.mark.parametrize("name", ASKED)
def test_what_the_project_asks_for_is_pinned(name: str) -> None:
    missing = sorted({plain(requirement) for requirement in ASKED[name]} - set(pins(name)))
    assert missing == [], "run: make requirements"


def test_both_files_pin_the_same_versions() -> None:
    run, develop = pins("requirements.txt"), pins("requirements-dev.txt")
    assert {package: develop[package] for package in run if package in develop} == {
        package: version for package, version in run.items() if package in develop
    }


@pytest.mark.parametrize("name", ASKED)
def test_every_line_is_a_pin_or_a_hash(name: str) -> None:
    lines = (ROOT / name).read_text(encoding="utf-8").splitlines()
    odd = [
        line
        for line in lines
        if not re.match(r"[\w.\[\],-]+==\S+( ; .+)? \\$|    --hash=sha256:[0-9a-f]{64}( \\)?$", line)
    ]
    assert odd == []
    assert sum("==" in line and "hash" not in line for line in lines) == len(pins(name))
