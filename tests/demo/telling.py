"""The story told into memory: whole, chapter by chapter, or with something typed otherwise."""

from __future__ import annotations

import fcntl
import io
import os
import pickle
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TypeVar

import pypdf

from gudgeon.demo import run
from gudgeon.demo.run import BEGINS, STEP_SECONDS
from gudgeon.demo.story import NUMBER, chapters, shelf_text
from gudgeon.demo.teller import Teller
from gudgeon.job.entries import Body
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.build import Worked
from gudgeon.workbench.clock import StoryClock
from gudgeon.workbench.ports import Landed
from gudgeon.workbench.view import JobView
from workbench.memory import MemoryLedgers, MemoryLibrary, MemoryPeople, MemoryPictures, NoCopies

Made = TypeVar("Made")
IL, IR, EL, ER = VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


def as_it_is(body: Body) -> Body:
    """Nothing typed otherwise."""
    return body


class Retyped(Workbench):
    """A workbench in memory on which a hand types some things otherwise than the story does."""

    def __init__(self, fact: Callable[[Body], Body] = as_it_is, book: Callable[[str], str] = str) -> None:
        clock = StoryClock(BEGINS, "demo", STEP_SECONDS)
        super().__init__(
            ledgers=MemoryLedgers(clock),
            library=MemoryLibrary(),
            pictures=MemoryPictures(),
            copies=NoCopies(),
            people=MemoryPeople(),
            clock=clock,
        )
        self.fact, self.text_of = fact, book

    def add_book(self, text: str, name: str = "book") -> str:
        return super().add_book(self.text_of(text), name)

    def record(self, number: str, bodies: Sequence[Body], hand: Hand) -> tuple[Landed, ...]:
        return super().record(number, [self.fact(body) for body in bodies], hand)


@dataclass(kw_only=True)
class Told:
    """The story as far as it was told: the job after each chapter, and who told it."""

    bench: Workbench
    teller: Teller
    after: dict[str, Worked] = field(default_factory=dict)

    def view(self, chapter: str) -> JobView:
        """The job as it stood after a chapter."""
        return self.after[chapter].view

    def words(self, chapter: str) -> dict[str, tuple[str, str]]:
        """Value and verdict of everything judged, by address."""
        return {c.address: (c.said, c.verdict) for c in self.view(chapter).characteristics}


def tell(bench: Workbench, until: str = "handed over") -> Told:
    """Tell the story up to a chapter."""
    bench.put_shelf(shelf_text())
    story, told = chapters(bench), None
    for name, teller in story:
        told = told or Told(bench=bench, teller=teller)
        told.after[name] = bench.worked(NUMBER)
        if name == until:
            return told
    raise AssertionError(until)


def once(name: str, make: Callable[[], Made]) -> Made:
    """What takes long to make, made by the first test process that asks, and a copy of it for each that asks."""
    shared = os.environ.get("GUDGEON_SHARED", "")
    if not shared:
        return make()
    file = Path(shared) / f"{name}.pickle"
    with file.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not file.exists():
            file.write_bytes(pickle.dumps(make()))
    made: Made = pickle.loads(file.read_bytes())
    return made


@cache
def whole() -> Told:
    """The story as it is; shared by tests that only look."""
    return once("whole", lambda: tell(Retyped()))


def _all_three() -> Workbench:
    bench = Retyped()
    assert run.tell(bench) == NUMBER
    return bench


def all_three() -> Workbench:
    """A workbench with all jobs of the demo, to be written in."""
    return once("all three", _all_three)


def words_of(pdf: bytes) -> str:
    """What another reader finds in a paper."""
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages)
