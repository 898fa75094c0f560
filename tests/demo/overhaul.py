"""The demo's engine taken through its numbers on a workbench in memory, as far as a test of the plans needs it."""

from __future__ import annotations

from pathlib import Path

from gudgeon.job.entries import PartRemoved
from gudgeon.measurands.catalogue import MEASURANDS
from plan_bench import PlanBench

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"
VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
IL, IR, EL, ER = VALVES


class Overhaul(PlanBench):
    """The job, one verb a line."""

    def __init__(self, scope: str = "whole top end") -> None:
        book = (DEMO / "books" / "corrie.toml").read_text(encoding="utf-8")
        super().__init__(book, (DEMO / "shelf.toml").read_text(encoding="utf-8"), scope, altitude="1120 m")

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
        return MEASURANDS[measurand].points(self.anatomy, IL)

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
