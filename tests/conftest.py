"""For all tests: a workshop's database in a file of its own, with the settings of a real one."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from django.core.management import call_command
from django.db import connection, connections
from pytest_django import DjangoDbBlocker

from gudgeon.workbench.clock import StoryClock


def point_at(file: Path) -> None:
    """Let Django's connections work on another file."""
    connection.close()
    connections.databases["default"]["NAME"] = file
    connection.settings_dict["NAME"] = file


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: DjangoDbBlocker) -> Path:
    """A migrated database, made once and copied for each test."""
    file = tmp_path_factory.mktemp("empty") / "gudgeon.sqlite3"
    with django_db_blocker.unblock():
        point_at(file)
        call_command("migrate", verbosity=0)
        connection.close()
    return file


@pytest.fixture
def clock() -> StoryClock:
    """A clock that a test sets."""
    return StoryClock("2026-11-25T08:00:00Z")


@pytest.fixture
def folder(tmp_path: Path, empty_file: Path, django_db_blocker: DjangoDbBlocker) -> Iterator[Path]:
    """The data folder of a workshop; Django's connection points at the database in it."""
    was = connections.databases["default"]["NAME"]
    shutil.copy(empty_file, tmp_path / "gudgeon.sqlite3")
    with django_db_blocker.unblock():
        point_at(tmp_path / "gudgeon.sqlite3")
        yield tmp_path
        point_at(Path(was))


@pytest.fixture
def point(folder: Path) -> Callable[[Path], None]:
    """How a test goes on with another database file."""
    return point_at
