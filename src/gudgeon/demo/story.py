"""The finished job of the story, chapter by chapter; a test may stop after any of them and look."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from gudgeon.demo.found import FIRST_HALF
from gudgeon.demo.rebuilt import SECOND_HALF
from gudgeon.demo.teller import Teller
from gudgeon.job.entries import JobOpened
from gudgeon.workbench.bench import Hand, Workbench

NUMBER = "26-014"
HAND = Hand(by="k1", bench="demo")
CHAPTERS = (*FIRST_HALF, *SECOND_HALF)


def book_text(name: str) -> str:
    """One of the invented books."""
    return (Path(__file__).parent / "books" / f"{name}.toml").read_text(encoding="utf-8")


def shelf_text() -> str:
    """The invented workshop's shelf."""
    return (Path(__file__).parent / "shelf.toml").read_text(encoding="utf-8")


def chapters(bench: Workbench) -> Iterator[tuple[str, Teller]]:
    """Tell the story; after each chapter its name, and who tells it."""
    opened = JobOpened(
        number=NUMBER,
        engine_number="0417",
        scope="whole top end",
        machine="quad 3",
        hours="412 h",
        complaint="hard to start when warm",
        altitude="1120 m",
        owner="station",
    )
    bench.open_job(opened, bench.add_book(book_text("corrie"), "corrie.toml"), HAND)
    teller = Teller(bench, NUMBER, HAND)
    for name, chapter in CHAPTERS:
        chapter(teller)
        teller.wait(minutes=20)
        yield name, teller
