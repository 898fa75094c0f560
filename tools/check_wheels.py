"""Prove that nobody needs a compiler: every pinned requirement has a wheel for the usual desktop systems.

pip itself is asked, once for each system and Python, whether it could install the hashed file from wheels alone. A file
that passed is remembered by its digest in `.venv`, so that the question is asked again only when the pins change.
"""

import hashlib
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
REMEMBERED = ROOT / ".venv" / "wheels-proved"
SYSTEMS = {
    "Linux x86_64": ("manylinux2014_x86_64", "manylinux_2_17_x86_64", "manylinux_2_27_x86_64", "manylinux_2_28_x86_64"),
    "Linux aarch64": (
        "manylinux2014_aarch64",
        "manylinux_2_17_aarch64",
        "manylinux_2_27_aarch64",
        "manylinux_2_28_aarch64",
    ),
    "macOS arm64": ("macosx_14_0_arm64",),
    "macOS x86_64": ("macosx_14_0_x86_64",),
    "Windows amd64": ("win_amd64",),
}
PYTHONS = ("3.11", "3.12", "3.13")
# What is installed to run is asked everywhere; what is installed to develop, on Linux alone.
DEMANDS = (("requirements.txt", tuple(SYSTEMS)), ("requirements-dev.txt", ("Linux x86_64",)))
# Plain Python, offered as source alone, and needed by a test only: nobody needs a compiler for it either.
SOURCE_ONLY = {"requirements.txt": (), "requirements-dev.txt": ("miniball",)}


def asked(name: str) -> str:
    """The pins that must be wheels. pip judges markers by the machine it runs on, so they go: a stricter question."""
    text = (ROOT / name).read_text(encoding="utf-8")
    for package in SOURCE_ONLY[name]:
        text = re.sub(rf"^{package}==.*\n(    .*\n)*", "", text, flags=re.MULTILINE)
    return re.sub(r" ;[^\\\n]*\\", r" \\", text)


def ask(pins: Path, system: str, python: str) -> str:
    """Return what pip holds against installing the pins there, or nothing."""
    command = [sys.executable, "-m", "pip", "install", "--quiet", "--dry-run", "--ignore-installed", "--no-deps"]
    command += [
        "--only-binary",
        ":all:",
        "--require-hashes",
        "--requirement",
        str(pins),
        "--target",
        str(pins.parent / "nowhere"),
    ]
    command += ["--implementation", "cp", "--python-version", python]
    for tag in SYSTEMS[system]:
        command += ["--platform", tag]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    if ran.returncode == 0:
        return ""
    errors = [line for line in ran.stderr.splitlines() if line.startswith("ERROR")]
    return re.sub(r"\w+://\S+", "…", " ".join(errors) or ran.stderr.strip()[-400:])


def failures(name: str, systems: tuple[str, ...]) -> list[str]:
    """Ask for every system and Python, four at a time."""
    with tempfile.TemporaryDirectory() as folder:
        pins = Path(folder) / name
        pins.write_text(asked(name), encoding="utf-8")
        places = [(system, python) for system in systems for python in PYTHONS]
        with ThreadPoolExecutor(max_workers=4) as pool:
            answers = list(pool.map(lambda place: ask(pins, *place), places))
    return [
        f"{name}, {system}, Python {python}: {answer}"
        for (system, python), answer in zip(places, answers, strict=True)
        if answer
    ]


def digest(name: str, systems: tuple[str, ...]) -> str:
    """What was proved: these pins, on these systems, for these Pythons."""
    return hashlib.sha256(repr((name, systems, PYTHONS, asked(name))).encode()).hexdigest()


def main() -> int:
    """Print one line per requirements file; exit 1 if a wheel is missing."""
    proved = set(REMEMBERED.read_text(encoding="utf-8").split()) if REMEMBERED.exists() else set()
    bad: list[str] = []
    for name, systems in DEMANDS:
        key = digest(name, systems)
        found = [] if key in proved else failures(name, systems)
        bad += found
        if not found:
            proved.add(key)
            print(f"{name}: every pin has a wheel for {', '.join(systems)}; Python {', '.join(PYTHONS)}")
    REMEMBERED.parent.mkdir(exist_ok=True)
    REMEMBERED.write_text("\n".join(sorted(proved)) + "\n", encoding="utf-8")
    print("\n".join(bad), file=sys.stderr, end="\n" if bad else "")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
