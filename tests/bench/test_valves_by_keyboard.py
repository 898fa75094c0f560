"""A valves job from intake to hand-over: by keyboard alone, then by touch alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from tests.bench.hands import Finger, Keys
from tests.bench.live import Live
from tests.bench.valves import came_to_its_end, shelved, walk

pytestmark = pytest.mark.browser


def test_from_intake_to_hand_over_by_keys_alone(folder: Path, live: Live, page: Page) -> None:
    """No mouse: every button, list and field on the way is reached by Tab and pressed by Return."""
    wb = shelved(folder)
    walk(Keys(page, live.url))
    came_to_its_end(wb, page, live.url, folder)


def test_from_intake_to_hand_over_by_touch_alone(folder: Path, live: Live, chromium: Browser) -> None:
    """No mouse and no keys beside those that a tablet shows: everything is large and near enough to be tapped."""
    wb = shelved(folder)
    tablet = chromium.new_context(viewport={"width": 1024, "height": 768}, has_touch=True)
    try:
        page = tablet.new_page()
        walk(Finger(page, live.url))
        came_to_its_end(wb, page, live.url, folder)
    finally:
        tablet.close()
