"""A technician who does what the bench says and nothing else: reads what is asked, decides what is planned, orders, fits, draws up.

He never overrides, never invents a size and never guesses: where the bench neither asks, plans nor gives a reason, it failed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from itertools import count
from pathlib import Path
from random import Random

from tests.torture.hands import HAND, JOB, Hands, done
from tests.torture.worn import Worn
from tests.workbench.memory import StoryClock, workbench

from gudgeon.job.entries import (
    Arrived,
    ArrivedWrong,
    Body,
    EstimateApproved,
    HoldPassed,
    JobClosed,
    JobOpened,
    Ordered,
    PartFitted,
    PartReceived,
    Reading,
    TorqueApplied,
)
from gudgeon.plans.shape import Buy, Line, Plan
from gudgeon.workbench.asks import asks_of
from gudgeon.workbench.deciding import act_of
from gudgeon.workbench.doing import joints

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"
BOOKS = ("corrie", "scree", "gully", "tarn")
#: How often a job is one of these: the more there is to a job, the seldomer it comes.
SCOPES = {"valves": 16, "leak test": 8, "cylinder": 6, "head out": 4, "whole top end": 4}
#: Of the engine with sixteen valves big jobs come seldomer still: one takes as long as thirty small ones.
SELDOM = {"gully": {"head out": 1, "whole top end": 1}}
#: Nobody goes round the bench more often in one job; what is still open then goes in a circle.
ROUNDS = 150


@cache
def _text(name: str) -> str:
    return (DEMO / name).read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """How a job ended: finished, stopped for a reason that the bench gave, or failed: then the bench did."""

    seed: int
    how: str
    words: str
    book: str
    scope: str
    readings: int = 0
    entries: int = 0
    rounds: int = 0


class Technician(Hands):
    """One engine and the hands that work it; a seed makes both."""

    def __init__(self, seed: int, scope: str = "") -> None:
        random = Random(seed)
        self.seed, self.book = seed, BOOKS[seed % len(BOOKS)]
        often = SCOPES | SELDOM.get(self.book, {})
        self.scope = scope or random.choices(tuple(often), tuple(often.values()))[0]
        engine = Worn(random, wear=random.uniform(0.1, 0.9), bad=random.choice((0.0, 0.01, 0.05)))
        super().__init__(workbench(), engine, random)
        quick = random.random() < 0.5
        shelf = _text("shelf.toml").replace("[rules]\n", '[rules]\nmeasuring = "quick"\n' if quick else "[rules]\n", 1)
        self.bench.put_shelf(shelf)
        sha = self.bench.add_book(_text(f"books/{self.book}.toml"))
        self.bench.open_job(JobOpened(number=JOB, engine_number="0300", scope=self.scope, machine="worn"), sha, HAND)
        self.orders, self.sent_wrong = count(1), set[str]()

    # -- the job ---------------------------------------------------------------------------------------------------------

    def work(self) -> Ended:
        """Round after round, until nothing is left, the bench gives a reason, or nothing moves."""
        for n in range(ROUNDS):
            route = self.plan("route")
            if route is None or route.state == "nothing to do":
                return self.finished(n)
            before = self.head
            self.round(route)
            if self.head == before:
                return self.given_up(n)
        return self.ended("failed", f"in a circle: {self.bench.view(JOB).next.words} | {self.refused}", ROUNDS)

    def round(self, route: Plan) -> None:
        """The first of these that moves the job."""
        line = next(x for x in route.lines if dict(x.numbers)["state"] == "next")
        proof = self.plan("proof")
        if proof is not None and proof.state == "ready":
            self.set_cams()
            return
        asks = asks_of(self.given, self.worked.plans)
        if not (self.measure(asks) or self.decide() or self.buy(line) or self.fit()):
            self.follow(route)

    def finished(self, n: int) -> Ended:
        """Every hold passed on evidence, none against it; then the job is closed."""
        odd = [h.hold.key for h in self.worked.holds if h.state not in ("passed", "not needed")]
        if odd or not self.land(JobClosed()):
            return self.ended("failed", f"the route is done, but {odd or self.refused}", n)
        return self.ended("finished", "", n)

    def given_up(self, n: int) -> Ended:
        """Stopped for what a plan itself says is impossible; without such words the bench left him alone."""
        reasons = [f"{p.name}: {p.reasons[0]}" for p in self.worked.plans if p.state == "impossible" and p.reasons]
        if not reasons:
            return self.ended("failed", f"nothing moves: {self.bench.view(JOB).next.words} | {self.refused}", n)
        self.land(JobClosed(outcome="stopped", reason=reasons[0]))
        return self.ended("stopped", reasons[0], n)

    def ended(self, how: str, words: str, rounds: int) -> Ended:
        readings = sum(isinstance(e.typed.body, Reading) for e in self.given.state.entries)
        return Ended(seed=self.seed, how=how, words=words, book=self.book, scope=self.scope, readings=readings,
                     entries=self.head, rounds=rounds)  # fmt: skip

    # -- deciding and buying ---------------------------------------------------------------------------------------------

    def decide(self) -> bool:
        """What becomes of the parts, as planned."""
        if self.plan("dispositions") is None:
            return False
        view = self.worked.view
        plan = view.plan("dispositions")
        acts = [act_of(view, plan, line) for line in plan.lines] if plan else []
        return self.land(*(act[1] for act in acts if act is not None))

    def buy(self, line: Line) -> bool:
        """The owner's word when it is asked for, then what is to be ordered; it comes at once, now and then wrong."""
        estimate, hold = self.plan("estimate"), str(dict(line.numbers).get("hold", ""))
        if (estimate is not None and estimate.state == "waits") or (hold == "H5b" and not self.given.state.approvals):
            return self.land(EstimateApproved(amount="99999", currency=self.given.rules.currency, by="owner"))
        order = self.plan("order")
        if order is None or self.too_early(hold):
            return False
        rows = [dict(x.numbers) for x in order.lines]
        wanted = Counter[str]()
        for n in rows:
            if n["to_order"] and n["sure"] and n["number"]:
                wanted[str(n["number"])] += int(float(n["to_order"] or 0))
        if not wanted:
            return False
        name = f"P-{next(self.orders)}"
        wrong = next((w for w in wanted if self.random.random() < 0.05 and w not in self.sent_wrong), "")
        self.sent_wrong.add(wrong)
        came = {k: v for k, v in wanted.items() if k != wrong}
        return (
            self.land(Ordered(order=name, kind="parts", lines=dict(wanted)))
            and (not came or self.land(Arrived(order=name, lines=came)))
            and (not wrong or self.land(ArrivedWrong(order=name, number=wrong, count=wanted[wrong], what="broken")))
        )

    def too_early(self, hold: str) -> bool:
        """Nothing is bought before the bottom end is accepted and the owner said yes, where a job has these holds."""
        before = {"H5", "H5b"}
        return any(h.hold.key in before and h.state in ("open", "undone") for h in self.worked.holds)

    def fit(self) -> bool:
        """Every new part that is here and can be reached goes in."""
        order, bodies = self.plan("order"), list[Body]()
        if order is None:
            return False
        status = {(str(dict(x.numbers)["number"]), x.where): str(dict(x.numbers)["status"]) for x in order.lines}
        shims = {s.part for s in self.given.book.shim_systems}
        for b in order.buys:
            if (
                status.get((b.number, b.slots[0] if b.slots else "")) in ("arrived", "on the shelf")
                and b.number not in shims
            ):
                bodies += self.parts_of(b)
        return self.land(*bodies)

    def parts_of(self, buy: Buy) -> list[Body]:
        """The entries that put what was bought into its slots."""
        state, found = self.given.state, list[Body]()
        if not all(self.reached(slot) for slot in buy.slots):
            return []
        for slot in dict.fromkeys(buy.slots):
            part = state.slots.get(slot) or ""
            fates = self.plan("dispositions")
            go = any(x.where == slot and dict(x.numbers).get("what") == "renew" for x in (fates.lines if fates else ()))
            if part and not part.startswith("orig:") and not state.used.get(part) and not go:
                continue
            if state.anatomy.slots[slot].kind == "guide":
                continue  # the shop fits it
            received = PartReceived(
                kind=state.anatomy.slots[slot].kind, number=self.number(buy.number, slot), order="P"
            )
            found += [received, PartFitted(part="", slot=slot)]
        return found

    def number(self, number: str, slot: str) -> str:
        """The piece of a kit that goes here."""
        pieces = [r.number for r in self.given.book.parts_in(slot) if number in (r.number, r.kit)]
        return pieces[0] if pieces else number

    def reached(self, slot: str) -> bool:
        """Whether its joint stands open, or it has none."""
        state = self.given.state
        if slot not in state.anatomy.slots:
            return False
        return all(self.open(j.place, j.name) for j in state.anatomy.slots[slot].joints)

    def open(self, place: str, name: str) -> bool:
        """Whether a joint is apart; those that no tool opens come apart with the one behind which they lie."""
        anatomy, opened = self.given.state.anatomy, self.given.state.open_joints
        behind = {"rings": "base", "pin": "base", "follower shaft": "holder", "pushrod": "head"}
        if name == "guide axis":
            return f"{place} keepers" in opened
        if name == "shim":
            cam = anatomy.cam(place)
            return f"{cam} holder" in opened or not anatomy.layout.side(place).lift_cam
        place = anatomy.head(place) if name == "pushrod" else place
        return f"{place} {behind.get(name, name)}" in opened

    # -- hands -----------------------------------------------------------------------------------------------------------

    def follow(self, route: Plan) -> None:
        """What the route has next, as far as nothing that it does hides what a hold asks for."""
        needs = {h.hold.key: h.needs for h in self.worked.holds}
        stepped = signed = False
        for n in (n for n in (dict(x.numbers) for x in route.lines) if n["state"] != "done"):
            hold = str(n.get("hold", ""))
            if hold and not stepped and not needs[hold]:
                self.land(HoldPassed(hold=hold))
                needs, signed = {h.hold.key: h.needs for h in self.worked.holds}, True
                continue
            if signed:
                return  # what was signed lets something be bought or fitted first
            if hold or n.get("plan"):
                if not stepped and n["state"] == "next":
                    self.stop_at(hold, str(n.get("plan", "")))
                return
            stepped = True
            joint = str(n["joint"]) if n["phase"] == "build" else ""
            if not (joint and self.draw_up(joint)):
                self.do(str(n["operation"]), str(n["place"]))

    def stop_at(self, hold: str, plan: str) -> None:
        """A hold that waits, or a plan that is carried out here."""
        if hold:
            self.bring_all(hold)
        else:
            self.as_planned(plan)

    def do(self, operation: str, place: str, **detail: str) -> bool:
        return self.land(done(operation, place, **detail))

    def draw_up(self, joint: str) -> bool:
        """Every stage that the book gives for a joint."""
        found = next((j for j in joints(self.given) if j.joint == joint), None)
        moved = False
        for s in found.stages if found else ():
            if not s.entry:
                moved |= self.land(TorqueApplied(joint=s.joint, stage=s.stage, of=s.of, setting=s.setting, unit=s.unit,
                                                 wrench=s.wrench))  # fmt: skip
        return moved

    def bring_all(self, key: str) -> bool:
        """What a hold asks for and hands can bring; the rest must come from readings and plans."""
        hold = next(h for h in self.worked.holds if h.hold.key == key)
        if not hold.needs:
            return self.land(HoldPassed(hold=key))
        self.refused = f"{key}: {'; '.join(hold.needs)}"
        brought = [self.bring(key, need) for need in hold.needs]
        return any(brought)

    def bring(self, key: str, need: str) -> bool:
        """What a hold asks for in words: a joint drawn up, a wash, cure time, a trial with cams in."""
        state = self.given.state
        if need.startswith("joint "):
            return self.close(need.removeprefix("joint "))
        if need.startswith("not drawn up: "):
            return self.draw_up(need.rsplit(", ", 1)[-1])
        if need.startswith("not washed since"):
            return self.do("wash", "engine") or self.do("wash", "head")
        if need.startswith("cure of "):
            self.wait(60 * int(float(need.removeprefix("cure of ").split(" ")[0]) + 1))
            return self.land(HoldPassed(hold=key))
        if need.startswith("hold "):
            return self.bring_all(need.split(" ")[1])
        if need.startswith(("squish@", "valve_to_piston@")):
            return self.trial(state.open_joints)
        return False

    def close(self, joint: str) -> bool:
        """A joint drawn up, or closed by hand where the book gives it no torque."""
        place, _, name = joint.rpartition(" ")
        by_hand = {"keepers": "seat_keepers", "cover": "tighten_cover", "plug": "plug_in", "tensioner": "release_tensioner",
                   "holder": "tighten_cam_holder", "sprocket": "tighten_sprocket", "head": "tighten_head",
                   "base": "tighten_base"}  # fmt: skip
        return self.draw_up(joint) or (name in by_hand and self.do(by_hand[name], place))

    def trial(self, opened: Iterable[str]) -> bool:
        """Cams in as they were and two turns, so that squish and valve to piston can be read."""
        shut = [self.close(j) for j in opened if j.endswith((" holder", " sprocket", " tensioner"))]
        return any([*shut, self.do("turn_forwards", "engine", turns="2")]) if shut else False

    def set_cams(self) -> None:
        """Marks that are off: tensioner out, sprockets off; the route closes them again."""
        self.uncover()
        for cam in self.given.state.anatomy.cams:
            self.do("open_sprocket", cam)

    def wait(self, minutes: int) -> None:
        """Time passes: a locker cures, a parcel comes."""
        clock = self.bench.clock
        assert isinstance(clock, StoryClock)
        for _ in range(minutes):
            clock.now()

    # -- plans that hands carry out --------------------------------------------------------------------------------------

    def as_planned(self, key: str) -> bool:
        plan = self.plan(key)
        if plan is None:
            return False
        match key:
            case "shims":
                return self.shims(plan)
            case "machining":
                return self.shop(plan)
            case _:
                self.refused = f"{key}: {plan.state}"
                return False

    def shims(self, plan: Plan) -> bool:
        """Holders off where they are shut, then the set, shelf and shop first, every new one measured."""
        anatomy, opened = self.given.state.anatomy, self.given.state.open_joints
        rows = [dict(x.numbers) for x in plan.lines if dict(x.numbers).get("moved")]
        lift = dict.fromkeys(
            anatomy.cam(str(n["valve"])) for n in rows if anatomy.layout.side(str(n["valve"])).lift_cam
        )
        shut = [c for c in lift if f"{c} holder" not in opened]
        if shut:
            self.uncover()
            lifted = [self.do("open_cam_holder", c) for c in shut]
            return all(lifted)
        screws = [dict(x.numbers) for x in plan.lines if dict(x.numbers).get("turned")]
        fits: list[Body] = [done("adjust_screw", str(n["valve"])) for n in screws]
        for n in rows:
            fits += self.shim(n)
        return self.land(*fits)

    def shim(self, n: dict[str, float | str | bool | None]) -> list[Body]:
        slot, origin, shim = f"{n['valve']}/shim", str(n["from"]), str(n["shim"])
        if origin in ("buy", "shelf"):
            system = next((s for s in self.given.book.shim_systems), None)
            size = f"{n['thickness_mm']:.3f} mm" if origin == "shelf" else f"{n['thickness_mm']:.2f} mm"
            return [PartReceived(kind="shim", number=system.part if system else "", thickness=size,
                                 order="shelf" if origin == "shelf" else "P"), PartFitted(part="", slot=slot)]  # fmt: skip
        return [PartFitted(part=shim, slot=slot)]

    def uncover(self) -> None:
        """The tensioner comes out before any holder."""
        layout = self.given.state.anatomy.layout
        if layout.cam_drive in ("chain", "belt") and "engine tensioner" not in self.given.state.open_joints:
            self.do("remove_tensioner", "engine")

    def shop(self, plan: Plan) -> bool:
        """The head goes out with its order and comes back: guides before seats, now and then cut too far."""
        anatomy, bodies = self.given.state.anatomy, list[Body]()
        for cut in plan.machines:
            if cut.where in anatomy.valves:
                bodies += self.seat(cut.where, guide="guide_bore" in cut.measures)
            else:
                operation = "skim_head" if cut.where in anatomy.heads else self.barrel(str(cut.what))
                bodies.append(done(operation, cut.where))
        if not bodies:
            self.refused = f"machining: {plan.state}, {', '.join(str(r) for r in plan.reasons)}; {plan.needs}"
            return False
        return self.land(done("sent_out", "head/head", order="M-1"), *bodies,
                         done("came_back", "head/head", order="M-1", untouched="head/head"), done("wash", "engine"))  # fmt: skip

    def barrel(self, what: str) -> str:
        return "rebore" if what.startswith("bore") else "skim_barrel"

    def seat(self, valve: str, *, guide: bool) -> list[Body]:
        found: list[Body] = []
        if guide:
            found += [
                done("fit_guide", valve),
                PartReceived(kind="guide", order="P"),
                PartFitted(part="", slot=f"{valve}/guide"),
                done("ream_guide", valve),
            ]
        return [*found, done("cut_seat", valve)]
