"""Opening the database: from nothing, by many at once, from what a later version left."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from gudgeon.storage.checking import check

OPEN = """
from gudgeon.problem import Refused
from gudgeon.wiring.bench import copies, workbench
try:
    bench = workbench()
    print(len(bench.jobs()), len(copies().all()))
except Refused as refused:
    print("REFUSED", refused)
"""


def opening(folder: Path, **env: str) -> subprocess.Popen[str]:
    """A process of its own that opens the bench of a folder."""
    seen = {**os.environ, "GUDGEON_DATA": str(folder), **env}
    seen.pop("DJANGO_SETTINGS_MODULE", None)
    return subprocess.Popen([sys.executable, "-c", OPEN], env=seen, stdout=subprocess.PIPE, text=True)


def test_three_that_open_an_empty_workshop_at_once_find_one(tmp_path: Path) -> None:
    children = [opening(tmp_path / "data") for _ in range(3)]
    assert [child.communicate(timeout=60)[0].strip() for child in children] == ["0 0"] * 3
    assert check(tmp_path / "data" / "gudgeon.sqlite3") == ()


def test_a_database_of_a_later_version_is_left_alone(tmp_path: Path) -> None:
    assert opening(tmp_path).communicate(timeout=60)[0].strip() == "0 0"
    with closing(sqlite3.connect(tmp_path / "gudgeon.sqlite3")) as database, database:
        database.execute(
            "INSERT INTO django_migrations (app, name, applied) VALUES ('storage', '0099_later', '2030-01-01')"
        )
    said, _ = opening(tmp_path).communicate(timeout=60)
    assert said.startswith("REFUSED database: The database was made by a later Gudgeon (0099_later).")


def test_older_tables_are_copied_before_they_are_changed(tmp_path: Path) -> None:
    assert opening(tmp_path).communicate(timeout=60)[0].strip() == "0 0"
    with closing(sqlite3.connect(tmp_path / "gudgeon.sqlite3")) as database, database:
        database.execute("DELETE FROM django_migrations WHERE app = 'storage' AND name LIKE '0003%'")
        database.execute("DROP TABLE book_photo")
    assert opening(tmp_path).communicate(timeout=60)[0].strip() == "0 1"
    assert opening(tmp_path).communicate(timeout=60)[0].strip() == "0 1"


def test_what_is_no_database_is_said(tmp_path: Path) -> None:
    (tmp_path / "gudgeon.sqlite3").write_bytes(b"not a database, though long enough to be taken for one at first" * 40)
    said, _ = opening(tmp_path).communicate(timeout=60)
    assert said.startswith("REFUSED database: The database is damaged")


@pytest.mark.parametrize("address", ["mysql://x/y", "postgresql://host:port/name", "postgresql://host", "nonsense"])
def test_an_address_of_no_database_is_said_without_its_password(tmp_path: Path, address: str) -> None:
    said, _ = opening(tmp_path, GUDGEON_DATABASE_URL=address).communicate(timeout=60)
    assert said.startswith("REFUSED GUDGEON_DATABASE_URL: It names no database")
    assert address not in said


def test_a_database_server_that_is_away_is_said(tmp_path: Path) -> None:
    said, _ = opening(tmp_path, GUDGEON_DATABASE_URL="postgresql://u:p@127.0.0.1:9/name").communicate(timeout=60)
    assert said.startswith("REFUSED database: The database does not answer: ")
