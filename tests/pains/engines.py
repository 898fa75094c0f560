"""Four small invented engines, one of each kind of lash setting, on a workbench in memory: what the twenty journeys run on."""

from __future__ import annotations

from tests.workbench.memory import workbench
from tests.workbench.shop import again, gauge

from gudgeon.anatomy import expand
from gudgeon.book.parse import parse_book
from gudgeon.job.entries import (
    Body,
    HoldPassed,
    JobOpened,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    TorqueApplied,
)
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.problem import Refused
from gudgeon.view.job import CharacteristicView, HoldView, JobView, LineView, PlanView
from gudgeon.workbench.bench import Hand

#: Layout by name: what the first page of the book says, what both sides have, which shims, the lever ratio of the lash.
LAYOUTS = {
    "finger": ('cams = "two"\ncam_drive = "chain"', 'follower = "finger"\nlash_read = "cam"\nratio = "1.5"', True, 1.5),
    "bucket": ('cams = "two"\ncam_drive = "chain"', 'follower = "bucket_under"', True, 1.0),
    "rocker": ('cams = "one"\ncam_drive = "chain"', 'follower = "rocker_screw"', False, 1.0),
    "pushrod": ('cams = "one"\ncam_drive = "pushrod"', 'follower = "pushrod_screw"\nratio = "1.3"', False, 1.0),
}
SHIMMED = tuple(name for name, (_, _, shims, _) in LAYOUTS.items() if shims)
CHAINED = ("finger", "bucket", "rocker")
IN, EX = VALVES = ("c1.in", "c1.ex")

BOOK = """
[book]
name = "Pell 110 {name}"
[layout]
cylinders = 1
arrangement = "single"
{drive}
bore = "{bore}"
[layout.in]
valves = 1
{side}
coated = {coated}
[layout.ex]
valves = 1
{side}
[aim]
in = "0.13 mm"
ex = "0.23 mm"
[[spring]]
wire = "2.4 mm"
mean_diameter = "17.6 mm"
active = "5.0"
total = "7.0"
shear_modulus = "80 GPa"
free = "36.0 mm"
at_length = "28.0 mm"
load = "97 N"
solid = "16.8 mm"
spacer = "0.25 mm"
{shims}
"""
SHIMS = """
[[shims]]
smallest = "1.50 mm"
largest = "2.60 mm"
step = "0.05 mm"
part = "P-SHIM"
price = "5.00"
"""
LIMITS = (
    'of = "lash"\nside = "in"\nleast = "0.10 mm"\nmost = "0.16 mm"',
    'of = "lash"\nside = "ex"\nleast = "0.20 mm"\nmost = "0.26 mm"',
    'of = "leak_down"\nmost = "12 %"',
    'of = "compression"\nleast = "700 kPa"',
    'of = "stem_diameter"\nnew = ["5.460 mm", "5.475 mm"]\nleast = "5.440 mm"',
    'of = "guide_bore"\nnew = ["5.500 mm", "5.512 mm"]\nmost = "5.560 mm"',
    'of = "stem_guide_clearance"\nnew = ["0.025 mm", "0.052 mm"]\nmost = "0.080 mm"',
    'of = "seat_width"\nnew = ["0.90 mm", "1.10 mm"]\nmost = "1.50 mm"',
    'of = "tip_height"\nnew = ["39.80 mm", "40.20 mm"]\nmost = "40.90 mm"',
    'of = "installed_height"\nnew = ["27.80 mm", "28.30 mm"]\nmost = "28.80 mm"',
    'of = "spring_load"\nnew = ["92 N", "103 N"]\nleast = "86 N"',
    'of = "chain_length"\nnew = ["127.00 mm", "127.40 mm"]\nmost = "128.90 mm"',
    'of = "bore_diameter"\nnew = ["57.000 mm", "57.015 mm"]\nmost = "57.100 mm"',
    'of = "piston_diameter"\nnew = ["56.955 mm", "56.970 mm"]\nleast = "56.900 mm"',
    'of = "piston_clearance"\nnew = ["0.030 mm", "0.060 mm"]\nmost = "0.120 mm"',
    'of = "squish"\nnew = ["0.80 mm", "1.10 mm"]\nleast = "0.70 mm"',
    'of = "valve_to_piston"\nleast = "1.20 mm"',
    'of = "timing_marks"\nexpect = "in line"',
    'of = "oil_at_cams"\nexpect = "seen"',
    'of = "seal_test"\nexpect = "holds"',
    'of = "contact"\nexpect = "centre"',
)
FASTENERS = (
    'name = "head nuts"\njoint = "head"\nthread = "M8"\ngrade = "8.8"\ncount = 4\ntorque = ["12 N·m", "22 N·m"]'
    '\nthread_state = "oil"\norder = [1, 3, 2, 4]',
    'name = "cap bolts"\njoint = "holder"\nthread = "M6"\ngrade = "8.8"\ncount = 4\ntorque = ["5 N·m", "10 N·m"]'
    '\nthread_state = "dry"',
)  # fmt: skip
PARTS = (
    ("P-SHIM", "shim", '["c1.*/shim"]', "wear", "5.00"),
    ("P-VALVE", "valve", '["c1.*/valve"]', "wear", "30.00"),
    ("P-GUIDE", "guide", '["c1.*/guide"]', "wear", "12.00"),
    ("P-SPRING", "valve spring", '["c1.*/spring"]', "wear", "9.00"),
    ("P-SEAL", "stem seal", '["c1.*/stem seal"]', "always", "3.00"),
    ("P-HEADG", "head gasket", '["head/head gasket"]', "always", "18.00"),
    ("P-BASEG", "base gasket", '["c1/base gasket"]', "always", "6.00"),
    ("P-CLIP", "circlips", '["c1/circlips"]', "always", "2.00"),
    ("P-COVER", "cover seal", "[]", "always", "11.00"),
)
SHELF = (
    '[rules]\nhour_price = "50.00"\ncurrency = "EUR"\nsprings = "one"\n'
    '[[wrench]]\nid = "W-SMALL"\nname = "wrench 2-20"\nlow = "2 N·m"\nhigh = "20 N·m"\nerror = "4 %"\n'
    '[[wrench]]\nid = "W-BIG"\nname = "wrench 10-60"\nlow = "10 N·m"\nhigh = "60 N·m"\nerror = "4 %"\n'
    '[[work]]\nof = "whole top end"\nhours = "4 h"\n[[work]]\nof = "cut_seat"\nprice = "40.00"\n'
    '[[work]]\nof = "fit_guide"\nprice = "45.00"\n'
)
GAUGES = (
    gauge("feel", "feeler", error="0.003 mm", resolution="0.01 mm", low="0.03 mm", high="1 mm")
    + gauge("mic", "micrometer", error="0.002 mm", low="0 mm", high="25 mm", resolution="0.001 mm")
    + gauge("mic-75", "micrometer", error="0.002 mm", low="50 mm", high="75 mm", resolution="0.001 mm")
    + gauge("old-mic", "micrometer", error="0.02 mm", low="0 mm", high="75 mm", resolution="0.01 mm")
    + gauge("hole", "small-hole gauge", low="3 mm", high="13 mm")
    + gauge("dial", "bore gauge", unit="mm", low="50 mm", high="80 mm")
    + gauge("depth", "depth micrometer", low="0 mm", high="80 mm", resolution="0.001 mm")
    + gauge("cal", "caliper", error="0.02 mm", low="0 mm", high="150 mm", resolution="0.01 mm")
    + gauge("load", "spring tester", unit="N", error="1 N", low="10 N", high="500 N")
    + gauge("glass", "graticule", error="0.02 mm", low="0 mm", high="10 mm")
    + gauge("clay", "clay and caliper", error="0.05 mm", low="0.2 mm", high="12 mm")
    + gauge("leak", "leak tester", unit="%", error="1 %", low="0 %", high="100 %")
    + gauge("comp", "compression gauge", unit="kPa", error="15 kPa", low="0 kPa", high="2000 kPa")
)
WITH = {
    "lash": "feel", "shim_thickness": "mic", "tip_height": "depth", "stem_diameter": "mic", "guide_bore": "hole",
    "bore_diameter": "dial", "piston_diameter": "mic-75", "installed_height": "cal", "spring_load": "load",
    "seat_width": "glass", "squish": "mic", "valve_to_piston": "clay", "leak_down": "leak", "compression": "comp",
    "timing_marks": "eye", "oil_at_cams": "eye", "seal_test": "eye", "contact": "eye", "chain_length": "cal",
}  # fmt: skip


def book(name: str, *, bore: str = "iron", coated: str = "false", more: str = "") -> str:
    """The book of one of the four."""
    drive, side, shims, _ = LAYOUTS[name]
    text = BOOK.format(name=name, drive=drive, side=side, bore=bore, coated=coated, shims=SHIMS if shims else "")
    limits = [row for row in LIMITS if name != "pushrod" or "chain_length" not in row]
    text += "".join(f"[[limit]]\n{row}\n" for row in limits)
    text += "".join(f"[[fastener]]\n{row}\n" for row in FASTENERS)
    for number, part, slots, renew, price in PARTS:
        if slots != '["c1.*/shim"]' or shims:
            where = f"slots = {slots}\n" if slots != "[]" else "consumable = true\n"
            text += f'[[part]]\nnumber = "{number}"\nname = "{part}"\n{where}renew = "{renew}"\nprice = "{price}"\n'
    return text + more


class Job:
    """One job on one of the four, in a few verbs."""

    def __init__(
        self, layout: str, scope: str = "whole top end", *, text: str = "", more: str = "", **engine: str
    ) -> None:
        self.bench, self.number, self.hand = workbench(), "P-1", Hand(by="mara", bench="north")
        text = text or book(layout, more=more, **engine)
        self.anatomy, self.factor = expand(parse_book(text).layout), LAYOUTS[layout][3]
        self.bench.put_shelf(SHELF + GAUGES)
        sha = self.bench.add_book(text)
        self.bench.open_job(
            JobOpened(number=self.number, engine_number="12", scope=scope, machine="pump"), sha, self.hand
        )

    # -- what a technician does -----------------------------------------------------------------------------------------

    def write(self, *bodies: Body, by: str = "") -> str:
        """Facts, landed through every check; the id of the last."""
        hand = Hand(by=by or self.hand.by, bench=self.hand.bench)
        return self.bench.record(self.number, bodies, hand)[-1].id

    def read(self, measurand: str, where: str, text: str, *, point: str | None = None, gauge: str = "", unit: str = "",
             by: str = "", temperature: str = "") -> None:  # fmt: skip
        """The same figure at every point of a measurand, or at one."""
        kind = MEASURANDS[measurand]
        points = kind.points(self.anatomy, where) if point is None and not where.startswith("part:") else (point or "",)
        bodies = [Reading(measurand=measurand, where=where, point=p, text=text, unit=unit or kind.unit,
                          gauge=gauge or WITH[measurand], temperature=temperature) for p in points]  # fmt: skip
        self.write(*bodies, by=by)

    def do(self, operation: str, *places: str, **detail: str) -> None:
        """Work done."""
        self.write(*(OperationDone(operation=operation, where=w, detail=detail) for w in places or ("engine",)))

    def receive(self, kind: str, *, number: str = "", mark: str = "", order: str = "") -> str:
        """A new part in hand; its id."""
        return self.write(PartReceived(kind=kind, number=number, mark=mark, order=order))

    def fit(self, part: str, slot: str) -> None:
        """A part into a slot."""
        self.write(PartFitted(part=part, slot=slot))

    def sign(self, *holds: str, override: str = "") -> None:
        """Holds passed on their evidence, or against it."""
        self.write(*(HoldPassed(hold=h, override=override) for h in holds))

    def draw_up(
        self, joint: str, setting: str, *, stage: int = 1, of: int = 1, unit: str = "N·m", wrench: str = "W-SMALL"
    ) -> None:
        """One stage of a joint."""
        self.write(TorqueApplied(joint=joint, stage=stage, of=of, setting=setting, unit=unit, wrench=wrench))

    def refuses(self, body: Body) -> str:
        """The words of a refusal; nothing landed."""
        before = len(self.bench.ledgers.rows(self.number))
        try:
            self.write(body)
        except Refused as wrong:
            assert len(self.bench.ledgers.rows(self.number)) == before
            return str(wrong)
        raise AssertionError(f"it landed: {body}")

    # -- whole chapters -------------------------------------------------------------------------------------------------

    def cams_out(self) -> None:
        """Tensioner, then every holder."""
        if self.anatomy.has("engine/tensioner"):
            self.do("remove_tensioner")
        self.do("open_cam_holder", *self.anatomy.cams)

    def cams_in(self) -> None:
        """Every holder, then the tensioner."""
        self.do("tighten_cam_holder", *self.anatomy.cams)
        if self.anatomy.has("engine/tensioner"):
            self.do("release_tensioner")

    def closed_and_proved(self) -> None:
        """Cams in, two turns, marks, lash in its windows."""
        self.cams_in()
        self.do("turn_forwards", turns="2")
        self.marks()
        self.read("lash", IN, "0.13/0.14")
        self.read("lash", EX, "0.23/0.24")

    def marks(self, word: str = "in line") -> None:
        """The marks of every cam."""
        for cam in self.anatomy.cams:
            self.read("timing_marks", cam, word)

    # -- what the bench says --------------------------------------------------------------------------------------------

    @property
    def view(self) -> JobView:
        """The read model."""
        return self.bench.view(self.number)

    def at(self, address: str) -> CharacteristicView:
        """One characteristic."""
        found = self.view.at(address)
        assert found is not None, address
        return found

    def plan(self, key: str) -> PlanView:
        """One plan."""
        found = self.view.plan(key)
        assert found is not None, key
        return found

    def line(self, key: str, where: str) -> LineView:
        """One line of a plan."""
        return next(line for line in self.plan(key).lines if line.where == where)

    def hold(self, key: str) -> HoldView:
        """One hold."""
        return next(h for h in self.view.holds if h.hold == key)

    def after_weeks(self) -> Job:
        """The same job on a workbench that has kept nothing."""
        later = object.__new__(Job)
        later.__dict__.update(self.__dict__, bench=again(self.bench))
        return later
