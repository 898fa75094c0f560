"""The demo's engine taken through its numbers on a workbench in memory, as far as a test of the plans needs it."""

from __future__ import annotations

from pathlib import Path

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
    PartRemoved,
    Reading,
    Typed,
)
from gudgeon.job.replay import replay
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.plans.run import plan_all
from gudgeon.plans.shape import Given, Line, Plan
from gudgeon.shelf.parse import parse_shelf
from gudgeon.workbench.build import gasket_numbers

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"
VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
IL, IR, EL, ER = VALVES


class Overhaul:
    """The job, one verb a line: entries made as the workbench makes them, replayed only when a plan is asked for."""

    def __init__(self, scope: str = "whole top end", shelf: str = "") -> None:
        self.book = parse_book((DEMO / "books" / "corrie.toml").read_text(encoding="utf-8"), "corrie.toml")
        self.shelf = parse_shelf(shelf or (DEMO / "shelf.toml").read_text(encoding="utf-8"))
        self.gauges = {card.kind: card.id for card in reversed(self.shelf.gauges)}
        self.entries: list[Entry] = []
        self.record(JobOpened(number="26-014", engine_number="0417", scope=scope, altitude="1120 m"))
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
        """The same measurand at all four valves."""
        for valve, text in zip(VALVES, texts.split(), strict=True):
            if text != "-":
                self.read(measurand, valve, text, gauge, point, unit)

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
        state = replay(tuple(self.entries), expand(self.book.layout), numbers=gasket_numbers(self.book))
        assert state.problems == ()
        rules = self.shelf.rules
        return Given(state=state, book=self.book, shelf=self.shelf, rules=rules)

    def plans(self) -> tuple[Plan, ...]:
        """Every plan."""
        return plan_all(self.given)

    def plan(self, key: str) -> Plan:
        """A plan by its key."""
        return next(p for p in self.plans() if p.key == key)

    def line(self, key: str, where: str) -> Line:
        """A line of a plan."""
        return next(line for line in self.plan(key).lines if line.where == where)

    # -- the story, in steps -------------------------------------------------------------------------------------------

    def as_found(self) -> Overhaul:
        """Lash, leak-down, compression; then off with cams and head."""
        self.each("lash", "0.03/0.04 0.11/0.12 0.21/0.22 0.22/0.23", "feeler")
        return self

    def stripped(self) -> Overhaul:
        """Cams, tensioner, head and barrel off."""
        self.do("remove_tensioner", "engine")
        for cam in ("cam.in", "cam.ex"):
            self.do("open_cam_holder", cam)
        self.do("loosen_head", "head")
        self.record(PartRemoved(slot="head/head"))
        return self

    def measured(self) -> Overhaul:
        """Shims, tips, heights, stems, guides, springs, seats."""
        self.each("shim_thickness", "1.845 1.797 1.698 1.752", "MIC-25")
        self.each("tip_height", "37.71 37.60 37.56 37.51", "DM-TIP")
        self.each("installed_height", "34.55 34.47 34.44 34.42", "caliper")
        for valve in VALVES:
            self.do("open_keepers", valve)
        self._bores("stem_diameter", ("4.966", "4.974", "4.956", "4.957"), "MIC-25", "middle y", 0.003)
        self._bores("guide_bore", ("5.060", "5.021", "5.028", "5.026"), "SH-1", "top y", -0.004)
        self.each("spring_load", "171.0 153.6 169.2 170.4", "spring tester", unit="N")
        self.each("spring_free_length", "42.82 41.97 42.81 42.83", "caliper")
        for point in self.points("seat_width"):
            self.each("seat_width", "1.55 1.30 1.35 1.30", "graticule", point)
        return self

    def points(self, measurand: str) -> tuple[str, ...]:
        """The points at which something is read at a valve."""
        return MEASURANDS[measurand].points(expand(self.book.layout), IL)

    def _bores(self, measurand: str, texts: tuple[str, ...], gauge: str, worst: str, step: float) -> None:
        for valve, text in zip(VALVES, texts, strict=True):
            for level in ("top", "middle", "bottom"):
                for axis in "xy":
                    point = f"{level} {axis}"
                    self.read(measurand, valve, text if point == worst else f"{float(text) + step:.3f}", gauge, point)

    def new_parts_in_the_old_seat(self) -> Overhaul:
        """The new intake valve in a new guide, in its old seat: what the bounds start from."""
        self.do("fit_guide", IL)
        self.fit("guide", f"{IL}/guide", "371-1110")
        self.fit("valve", f"{IL}/valve", "371-1301")
        self.read("tip_height", IL, "37.62", "DM-TIP")
        self.read("installed_height", IL, "34.46", "caliper")
        return self

    def back_from_the_shop(self) -> Overhaul:
        """Seats cut at the intake, exhaust lapped, springs renewed, tips read."""
        for valve in (IL, IR):
            self.do("cut_seat", valve)
        for valve in (EL, ER):
            self.do("lap_valve", valve)
        self.fit("spring", f"{IR}/spring", "371-1310")
        self.each("tip_height", "37.91 37.66 37.58 37.52", "DM-TIP")
        return self

    def to_the_shims(self) -> Overhaul:
        """Everything up to the shim plan."""
        return self.as_found().stripped().measured().new_parts_in_the_old_seat().back_from_the_shop()
