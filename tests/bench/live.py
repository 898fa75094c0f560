"""A real server as a child process on a free port, and Debian's Chromium looking at it."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

from playwright.sync_api import Page, expect

CHROMIUM = "/usr/bin/chromium"
ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]


class Live:
    """A bench that runs: its address, and its data folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"
        self._start()

    def _start(self) -> None:
        env = {**os.environ, "GUDGEON_DATA": str(self.folder)}
        words = [sys.executable, "-m", "gudgeon", "serve", "--port", str(self.port)]
        self.process = subprocess.Popen(words, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for _ in range(200):
            try:
                urllib.request.urlopen(f"{self.url}/static/mark.svg", timeout=1)
            except OSError:
                time.sleep(0.1)
            else:
                return
        raise AssertionError("the bench did not start")

    def stop(self) -> None:
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(timeout=20)

    def start_again(self) -> None:
        self._start()


def typed(page: Page, text: str) -> None:
    """What a gauge on the wire sends: characters, then Return."""
    page.keyboard.type(text)
    page.keyboard.press("Enter")


def empty_queue(page: Page, timeout: float = 15_000) -> None:
    """Wait until the tablet's queue is empty."""
    expect(page.locator("#queue-state")).to_have_text("empty", timeout=timeout)
