"""Two benches over TLS: paired by a code, cut off and loaded again, each seeing the other's entries."""

from __future__ import annotations

import base64
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.hashes import SHA256
from playwright.sync_api import Browser, BrowserContext, Page, expect
from tests.bench.live import ARGS, CHROMIUM, empty_queue, typed
from tests.bench.small import open_small, texts

pytestmark = pytest.mark.browser


class Network:
    """A bench on a network: its address, and the codes it shows."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.folder, self.words = folder, words
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.start()

    def start(self) -> None:
        env = {**os.environ, "GUDGEON_DATA": str(self.folder), "PYTHONUNBUFFERED": "1"}
        call = [sys.executable, "-m", "gudgeon", "serve", "--lan", "--port", str(self.port), *self.words]
        self.process = subprocess.Popen(call, env=env, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        said = ""
        assert self.process.stdout is not None
        for line in self.process.stdout:
            said += line
            if line.startswith("The bench is at"):
                break
        self.code = re.findall(r"/pair/(\S+)", said)[0]
        self.said = said
        scheme = "http" if "--plain" in self.words else "https"
        self.url = f"{scheme}://localhost:{self.port}"
        for _ in range(200):
            with socket.socket() as probe:
                probe.settimeout(1)
                if probe.connect_ex(("127.0.0.1", self.port)) == 0:
                    return
            time.sleep(0.1)
        raise AssertionError("the bench did not start")

    def stop(self) -> None:
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(timeout=20)


@pytest.fixture
def network(folder: Path) -> Iterator[Network]:
    """The workshop's bench with its own authority."""
    running = Network(folder)
    yield running
    running.stop()


@pytest.fixture
def trusting(chromium: Browser, network: Network) -> Iterator[Browser]:
    """A browser that trusts this bench's certificate alone, as one would after installing the authority."""
    cert = x509.load_pem_x509_certificate((network.folder / "tls" / "bench.pem").read_bytes())
    public = cert.public_key().public_bytes(serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo)
    pin = base64.b64encode(sha256(public).digest()).decode()
    args = [*ARGS, f"--ignore-certificate-errors-spki-list={pin}"]
    opened = chromium.browser_type.launch(executable_path=CHROMIUM, args=args)
    yield opened
    opened.close()


def paired(network: Network, context: BrowserContext, code: str, name: str) -> Page:
    """A tablet that has pointed its camera at a code."""
    page = context.new_page()
    page.goto(f"{network.url}/pair/{code}")
    page.get_by_label("what it is called").fill(name)
    page.get_by_role("button", name="pair").click()
    expect(page.locator("h1")).to_have_text("Jobs")
    return page


def at_work(network: Network, page: Page) -> None:
    page.goto(f"{network.url}/job/T-1/measure")
    expect(page.locator("#question")).not_to_be_empty()


def test_cut_off_loaded_again_and_back(network: Network, trusting: Browser) -> None:
    """Four readings, the third and fourth after a reload without a network; all land in order, none is asked twice."""
    wb = open_small(network.folder)
    context = trusting.new_context(viewport={"width": 1280, "height": 800})
    page = paired(network, context, network.code, "north")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    at_work(network, page)
    page.reload()  # the keeper of pages is in charge from here
    at_work(network, page)
    network.stop()
    context.set_offline(True)
    typed(page, "0.11/0.12")
    typed(page, "0.12/0.13")
    page.reload()
    expect(page.locator("#queue-state")).to_contain_text("2 waiting")
    expect(page.locator("#question")).to_have_text("Exhaust left")
    typed(page, "0.21/0.22")
    typed(page, "0.22/0.23")
    expect(page.locator("#queue-state")).to_contain_text("4 waiting")
    network.start()
    context.set_offline(False)
    empty_queue(page, 30_000)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13", "0.21/0.22", "0.22/0.23"]
    context.close()


def test_two_benches_see_each_other_and_one_is_sent_away(network: Network, trusting: Browser) -> None:
    wb = open_small(network.folder)
    north = trusting.new_context(viewport={"width": 1280, "height": 800})
    south = trusting.new_context(viewport={"width": 1280, "height": 800})
    laptop = paired(network, north, network.code, "north")
    laptop.goto(f"{network.url}/benches")
    laptop.get_by_role("button", name="pair a tablet").click()
    address = laptop.locator(".address").inner_text()
    tablet = paired(network, south, address.rsplit("/", 1)[1], "south")
    at_work(network, laptop)
    at_work(network, tablet)
    before = laptop.locator("#ledger-cell").inner_text()
    typed(tablet, "0.11/0.12")
    expect(laptop.locator("#ledger-cell")).not_to_have_text(before, timeout=2_500)
    typed(laptop, "0.12/0.13")
    empty_queue(laptop)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13"]
    assert {wb.loaded("T-1").entries[n].account for n in (-1, -2)} == {"north", "south"}
    laptop.goto(f"{network.url}/benches")
    laptop.locator("li", has_text="south").get_by_role("button", name="send away").click()
    expect(laptop.locator("li", has_text="south")).to_have_count(0)
    typed(tablet, "0.21/0.22")
    expect(tablet.locator("#queue-state")).to_contain_text("not paired any more", timeout=10_000)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13"]
    north.close()
    south.close()


def test_the_page_with_the_certificate_carries_nothing_else(network: Network) -> None:
    """The authority itself, its fingerprint as printed at the start, and 404 for whatever else is asked."""
    at = re.findall(r"certificate from (\S+)", network.said)[0]
    mark = re.findall(r"fingerprint \(SHA-256\): (\S+)", network.said)[0]
    with urllib.request.urlopen(at, timeout=10) as page:
        assert mark in page.read().decode()
    with urllib.request.urlopen(f"{at}bench.crt", timeout=10) as loaded:
        cert = x509.load_pem_x509_certificate(loaded.read())
    assert cert.fingerprint(SHA256()).hex(":").upper() == mark
    for other in ("authority.key", "../authority.key", "job/T-1/", "entries"):
        with pytest.raises(urllib.error.HTTPError, match="404"):
            urllib.request.urlopen(at + other, timeout=10)


def test_plainly_served_a_tablet_is_told_to_keep_the_page_open(folder: Path, chromium: Browser) -> None:
    """The host name is not the loop-back's, so no certificate means that a reload while cut off is lost."""
    running = Network(folder, "--plain")
    try:
        address = re.findall(r"(http://\S+)pair/", running.said)[0]
        context = chromium.new_context(viewport={"width": 1280, "height": 800})
        page = context.new_page()
        page.goto(f"{address}pair/{running.code}")
        page.get_by_label("what it is called").fill("north")
        page.get_by_role("button", name="pair").click()
        expect(page.locator("#keep-open")).to_contain_text("keep this page open")
        context.close()
    finally:
        running.stop()
