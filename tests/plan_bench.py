"""A job as a bench writes it, without storage: entries in order, replayed when a plan is asked for."""

from __future__ import annotations

from gudgeon.anatomy import expand
from gudgeon.book.parse import parse_book
from gudgeon.job.entries import (
    Body,
    Entry,
    GaugePinned,
    JobOpened,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    Typed,
)
from gudgeon.job.replay import replay
from gudgeon.plans.fasteners import drawn_up_by
from gudgeon.plans.run import plan_all
from gudgeon.plans.shape import Given, Line, Plan
from gudgeon.shelf.parse import parse_shelf
from gudgeon.workbench.build import gasket_numbers


class PlanBench:
    """The job, one verb a line."""

    def __init__(self, book: str, shelf: str, scope: str, *, engine_number: str = "0417", altitude: str = "") -> None:
        self.book, self.shelf = parse_book(book, "book.toml"), parse_shelf(shelf)
        self.gauges = {card.kind: card.id for card in reversed(self.shelf.gauges)}
        self.anatomy = expand(self.book.layout)
        self.entries: list[Entry] = []
        self.record(JobOpened(number="26-014", engine_number=engine_number, scope=scope, altitude=altitude))
        self.record(*(GaugePinned(gauge=card.id, card=card.pinned()) for card in self.shelf.gauges))

    def record(self, *bodies: Body) -> str:
        """Land facts; the id of the last."""
        for body in bodies:
            seq = len(self.entries) + 1
            at = f"2026-11-{1 + seq // 600:02d}T{seq // 60 % 10 + 8:02d}:{seq % 60:02d}:00Z"
            typed = Typed(id=f"e{seq:06d}", typed_at=at, by="k1", bench="b1", nth=seq, seen=seq - 1, body=body)
            self.entries.append(Entry(seq=seq, landed_at=at, account="local", typed=typed))
        return self.entries[-1].typed.id

    def read(self, measurand: str, where: str, text: str, gauge: str, point: str = "", unit: str = "mm") -> None:
        """One reading with the shelf's gauge of a kind, or of an id."""
        self.record(Reading(measurand=measurand, where=where, point=point, text=text, unit=unit,
                            gauge=self.gauges.get(gauge, gauge)))  # fmt: skip

    def each(self, measurand: str, texts: str, gauge: str, point: str = "", unit: str = "mm") -> None:
        """The same measurand at every valve; a dash leaves one out."""
        for valve, text in zip(self.anatomy.valves, texts.split(), strict=True):
            if text != "-":
                self.read(measurand, valve, text.replace("_", " "), gauge, point, unit)

    def do(self, operation: str, where: str, **detail: str) -> None:
        """Work done."""
        self.record(OperationDone(operation=operation, where=where, detail=detail))

    def fit(self, kind: str, slot: str, number: str = "", mark: str = "", order: str = "P-1") -> str:
        """A new part received and fitted."""
        part = self.record(PartReceived(kind=kind, number=number, mark=mark, order=order))
        self.record(PartFitted(part=part, slot=slot))
        return part

    @property
    def given(self) -> Given:
        """What planners see."""
        fasteners = drawn_up_by(self.book, self.anatomy)
        state = replay(tuple(self.entries), self.anatomy, numbers=gasket_numbers(self.book), fasteners=fasteners)
        assert state.problems == ()
        return Given(state=state, book=self.book, shelf=self.shelf, rules=self.shelf.rules)

    def plans(self) -> tuple[Plan, ...]:
        """Every plan."""
        return plan_all(self.given)

    def plan(self, key: str) -> Plan:
        """A plan by its key."""
        return next(p for p in self.plans() if p.key == key)

    def line(self, key: str, where: str) -> Line:
        """A line of a plan."""
        return next(line for line in self.plan(key).lines if line.where == where)
