"""For all tests: a workshop's database in a file of its own, with the settings of a real one, and never the real one."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from django.conf import settings
from django.core.management import call_command
from django.db import connection, connections
from pytest_django import DjangoDbBlocker

from gudgeon.workbench.clock import StoryClock

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def point_at(file: Path) -> None:
    """Let Django, and processes that a test starts, work in another data folder and database."""
    connection.close()
    connections.databases["default"]["NAME"] = file
    connection.settings_dict["NAME"] = file
    settings.GUDGEON_DATA = file.parent
    os.environ["GUDGEON_DATA"] = str(file.parent)


@pytest.fixture(scope="session", autouse=True)
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where a test lands that asks for no folder: not in the home folder."""
    if "PYTEST_XDIST_WORKER" in os.environ:  # the folder over those of the workers belongs to this run alone
        os.environ["GUDGEON_SHARED"] = str(tmp_path_factory.getbasetemp().parent)
    file = tmp_path_factory.mktemp("elsewhere") / "gudgeon.sqlite3"
    point_at(file)
    return file


@pytest.fixture(scope="session")
def empty_file(elsewhere: Path, django_db_blocker: DjangoDbBlocker) -> Path:
    """A migrated database, made once and copied for each test."""
    file = elsewhere.with_name("empty.sqlite3")
    with django_db_blocker.unblock():
        point_at(file)
        call_command("migrate", verbosity=0)
        point_at(elsewhere)
    return file


@pytest.fixture
def clock() -> StoryClock:
    """A clock that a test sets."""
    return StoryClock("2026-11-25T08:00:00Z")


@pytest.fixture
def folder(tmp_path: Path, elsewhere: Path, empty_file: Path, django_db_blocker: DjangoDbBlocker) -> Iterator[Path]:
    """The data folder of a workshop; Django's connection points at the database in it. In place of pytest-django's `db`."""
    shutil.copy(empty_file, tmp_path / "gudgeon.sqlite3")
    with django_db_blocker.unblock():
        point_at(tmp_path / "gudgeon.sqlite3")
        yield tmp_path
        point_at(elsewhere)


@pytest.fixture
def point(folder: Path) -> Callable[[Path], None]:
    """How a test goes on with another database file."""
    return point_at


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for all: a second driver would not start beside the first."""
    from playwright.sync_api import sync_playwright
    from tests.bench.live import ARGS, CHROMIUM

    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"  # the driver runs an event loop in this thread
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGS)
        yield browser
        browser.close()
