"""The hands of the story: short words for what a bench writes, all of it through the workbench's verbs."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.demo.readings import EYE, UNITS, Row
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

#: What the readings of a kind were taken under, in the keys of their measurand.
NEEDS = {"lash": ("cold", "tdc", "holder"), "squish": ("clean", "turned"), "valve_to_piston": ("clean", "turned")}
ROOM = ("clean", "room")


class Teller:
    """One job as one pair of hands writes it; `ids` keeps the parts and entries that later chapters speak of."""

    def __init__(self, bench: Workbench, number: str, hand: Hand) -> None:
        self.bench, self.number, self.hand = bench, number, hand
        self.ids: dict[str, str] = {}

    def write(self, *bodies: Body) -> str:
        """Land facts; the id of the first."""
        return self.bench.record(self.number, bodies, self.hand)[0].id

    def wait(self, *, minutes: float = 0, hours: float = 0, days: float = 0) -> None:
        """Let the story's time pass."""
        if isinstance(self.bench.clock, StoryClock):
            self.bench.clock.go_on(minutes=minutes + 60 * hours + 1440 * days)

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
                needs=NEEDS.get(measurand, () if gauge == EYE else ROOM),
            )
            for measurand, where, point, text, gauge in rows
        ]
        self.write(*readings)
        self.wait(minutes=2 * len(readings))

    def do(self, operation: str, *places: str, **detail: str) -> str:
        """Work done, at one place or several; the first entry's id."""
        done = [OperationDone(operation=operation, where=w, detail=detail) for w in places or ("engine",)]
        self.wait(minutes=5 * len(done))
        return self.write(*done)

    def receive(self, name: str, kind: str, *, number: str = "", mark: str = "", order: str = "") -> None:
        """A new part in hand, under a name for later chapters."""
        self.ids[name] = self.write(PartReceived(kind=kind, number=number, mark=mark, order=order))

    def fit(self, part: str, slot: str) -> str:
        """A part into a slot: one that was received, by its name, or one that the engine came with, by its slot."""
        return self.write(PartFitted(part=self.ids.get(part, f"orig:{part}"), slot=slot))

    def renew(self, slot: str, kind: str, *, number: str, order: str) -> None:
        """A new part received and fitted at once."""
        self.receive(slot, kind, number=number, order=order)
        self.fit(slot, slot)

    def torque(self, joint: str, settings: str, wrench: str) -> str:
        """A joint drawn up, stage by stage; the first entry's id."""
        stages = settings.split()
        self.wait(minutes=3 * len(stages))
        return self.write(
            *(
                TorqueApplied(joint=joint, stage=n, of=len(stages), setting=text, unit="N·m", wrench=wrench)
                for n, text in enumerate(stages, 1)
            )
        )

    def sign(self, *holds: str) -> None:
        """Hold points passed on their evidence."""
        self.write(*(HoldPassed(hold=hold) for hold in holds))

    def find(self, kind: str, where: str, words: str) -> None:
        """Something seen or heard."""
        self.write(Finding(kind=kind, where=where, words=words))

    def note(self, words: str, where: str = "") -> None:
        """Words for whoever reads this later."""
        self.write(Note(words=words, where=where))
