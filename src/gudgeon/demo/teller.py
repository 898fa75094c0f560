"""The hands of the story: short words for what a bench writes, all of it through the workbench's verbs."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.demo.readings import UNITS, Row
from gudgeon.job.entries import (
    Body,
    Finding,
    HoldPassed,
    Note,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    TorqueApplied,
)
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.clock import StoryClock
from gudgeon.workbench.papers import issue

#: What readings were taken under, in the keys of their measurand; sizes of parts were all taken clean, in the room.
NEEDS = {
    "lash": ("cold", "tdc", "holder"),
    "squish": ("clean", "turned"),
    "valve_to_piston": ("clean", "turned"),
    "timing_marks": ("turned",),
    "contact": ("clean",),
    "seal_test": (),
    "oil_at_cams": (),
    "leak_down": (),
    "compression": (),
}
ROOM = ("clean", "room")


class Teller:
    """One job as one pair of hands writes it; `named` keeps the parts and entries that later chapters speak of.

    What is written lands at the next pause: a bench that checks and judges once a breath tells the story faster.
    """

    def __init__(self, bench: Workbench, number: str, hand: Hand) -> None:
        self.bench, self.number, self.hand = bench, number, hand
        self.named: dict[str, str] = {}
        self._written: list[tuple[str, Body]] = []

    def write(self, *bodies: Body, name: str = "") -> None:
        """Facts for the ledger; the first may have a name by which later chapters know it."""
        self._written += [(name if not n else "", body) for n, body in enumerate(bodies)]

    def land(self) -> None:
        """Land what was written."""
        written, self._written = self._written, []
        if written:
            landed = self.bench.record(self.number, [body for _, body in written], self.hand)
            self.named.update({name: one.id for (name, _), one in zip(written, landed, strict=True) if name})

    def id(self, name: str) -> str:
        """The id of what was written under this name."""
        if name not in self.named:
            self.land()
        return self.named[name]

    def wait(self, *, minutes: float = 0, hours: float = 0) -> None:
        """Let the story's time pass."""
        self.land()
        if isinstance(self.bench.clock, StoryClock):
            self.bench.clock.go_on(minutes=minutes + 60 * hours)

    def morning(self, days: int = 1) -> None:
        """Go on at eight in the morning, so many days later."""
        self.land()
        hour, minute = self.bench.clock.now()[11:16].split(":")
        self.wait(hours=24 * days + 8 - int(hour), minutes=-int(minute))

    def read(self, rows: Iterable[Row], temperature: str = "") -> None:
        """Readings, one after the other."""
        readings = [
            Reading(
                measurand=measurand,
                where=where,
                point=point,
                text=text,
                unit=UNITS.get(gauge, "mm"),
                gauge=gauge,
                temperature=temperature,
                needs=NEEDS.get(measurand, ROOM),
            )
            for measurand, where, point, text, gauge in rows
        ]
        self.write(*readings)

    def do(self, operation: str, *places: str, name: str = "", **detail: str) -> None:
        """Work done, at one place or several."""
        done = (OperationDone(operation=operation, where=w, detail=detail) for w in places or ("engine",))
        self.write(*done, name=name)

    def receive(self, name: str, kind: str, *, number: str = "", mark: str = "", order: str = "") -> None:
        """A new part in hand, under a name for later chapters."""
        self.write(PartReceived(kind=kind, number=number, mark=mark, order=order), name=name)

    def fit(self, part: str, slot: str, name: str = "") -> None:
        """A part that was received, by its name, into a slot."""
        self.write(PartFitted(part=self.id(part), slot=slot), name=name)

    def fit_own(self, part: str, slot: str, name: str = "") -> None:
        """A part that the engine came with, by the slot it came in, into a slot."""
        self.write(PartFitted(part=f"orig:{part}", slot=slot), name=name)

    def torque(self, joint: str, settings: str, wrench: str, name: str = "") -> None:
        """A joint drawn up, stage by stage."""
        stages = settings.split()
        drawn = (
            TorqueApplied(joint=joint, stage=n, of=len(stages), setting=text, unit="N·m", wrench=wrench)
            for n, text in enumerate(stages, 1)
        )
        self.write(*drawn, name=name)

    def sign(self, *holds: str) -> None:
        """Hold points passed on their evidence."""
        self.write(*(HoldPassed(hold=hold) for hold in holds))

    def find(self, kind: str, where: str, words: str = "") -> None:
        """Something seen or heard."""
        self.write(Finding(kind=kind, where=where, words=words))

    def note(self, words: str, where: str = "") -> None:
        """Words for whoever reads this later."""
        self.write(Note(words=words, where=where))

    def hand_out(self, kind: str) -> None:
        """A paper handed over as the job stands."""
        self.land()
        issue(self.bench, self.number, kind, self.hand)
