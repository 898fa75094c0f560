"""Pictures of the demo's turning points, for the book of the day; made only when a folder is named."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from playwright.sync_api import Page
from tests.bench.hands import picture
from tests.bench.live import Live
from tests.bench.small import bench

from gudgeon.demo.story import NUMBER, chapters, shelf_text

pytestmark = pytest.mark.browser

#: After which chapter, which page is looked at, and what the picture is called.
TURNS = {
    "measured": ("decide", "decide"),
    "back from the shop": ("", "back"),
    "after two turns": ("decide#plan-shims", "exchanged"),
}


@pytest.mark.skipif("GUDGEON_PICTURES" not in os.environ, reason="GUDGEON_PICTURES names no folder")
def test_pictures_of_the_demo(folder: Path, live: Live, page: Page) -> None:
    """The demo is told, and looked at where it turns."""
    wb = bench(folder)
    wb.put_shelf(shelf_text())
    for chapter, _teller in chapters(wb):
        if chapter in TURNS:
            where, name = TURNS[chapter]
            page.goto(f"{live.url}/job/{NUMBER}/{where}")
            page.wait_for_load_state()
            picture(page, name)
