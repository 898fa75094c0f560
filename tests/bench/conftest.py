"""The browser and the running bench, for every test here."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page
from tests.bench.live import Live

# Playwright runs an event loop in this thread; the tests look into the database from it.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"


@pytest.fixture
def live(folder: Path) -> Iterator[Live]:
    """A running bench over the data folder of this test."""
    running = Live(folder)
    yield running
    running.stop()


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A tablet with nothing stored on it."""
    fresh = chromium.new_context(viewport={"width": 1280, "height": 800})
    yield fresh
    fresh.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A page that fails its test on any error in the browser's console."""
    wrong: list[str] = []
    opened = context.new_page()
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    yield opened
    assert not wrong, wrong
