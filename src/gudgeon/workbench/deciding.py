"""What is decided, and with what: verdicts worst first, parts with their decisions, orders given and what came of them."""

from __future__ import annotations

from collections import Counter

from msgspec import Struct

from gudgeon.anatomy import say
from gudgeon.job.entries import Body, Disposition, PartFitted, PartReceived, PartsSwapped
from gudgeon.measurands.own import measurands
from gudgeon.plans.shape import Given
from gudgeon.routes.scopes import SCOPES
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.leftovers import OnShelf, on_shelf
from gudgeon.workbench.stack import BAD, GOOD, RANK, SET_WRONG
from gudgeon.workbench.view import CharacteristicView, JobView, LineView, PartView, PlanView

#: What may become of a part, and how a button says it.
DISPOSITIONS = {
    "reuse": "use again",
    "clean": "clean",
    "renew": "renew",
    "machine": "machine",
    "measure_again": "measure again",
}
#: What a loose shim is read by.
SHIM = "shim_thickness"


class LooseView(Struct, frozen=True, kw_only=True):
    """A part that stands in no slot: new in hand, or taken out; the slots it may go into, and what reads a loose shim."""

    part: str
    kind: str
    words: str
    slots: tuple[tuple[str, str], ...]
    gauges: tuple[tuple[str, str], ...] = ()


class PieceView(Struct, frozen=True, kw_only=True):
    """Pieces that came with an order and are not in hand yet, each as a part of its own."""

    number: str
    kind: str
    left: int
    marked: bool


class OrderedView(Struct, frozen=True, kw_only=True):
    """One line of an order: what it is by the book, how many were wanted, came, and came wrong."""

    number: str
    name: str
    count: int
    came: int
    wrong: int

    @property
    def left(self) -> int:
        """How many are still on their way; what came wrong is ordered anew."""
        return max(0, self.count - self.came - self.wrong)


class OrderView(Struct, frozen=True, kw_only=True):
    """An order that was given, and how many of each line came."""

    order: str
    kind: str
    entry: int
    lines: tuple[OrderedView, ...]
    words: tuple[tuple[str, str], ...]
    pieces: tuple[PieceView, ...] = ()

    @property
    def waits(self) -> tuple[OrderedView, ...]:
        """What has not come yet."""
        return tuple(line for line in self.lines if line.left)


class DecideView(Struct, frozen=True, kw_only=True):
    """Everything the page of decisions shows beside the read model."""

    job: JobView
    bad: tuple[CharacteristicView, ...]
    unclear: tuple[CharacteristicView, ...]
    missing: tuple[CharacteristicView, ...]
    spared: tuple[CharacteristicView, ...]
    good: tuple[CharacteristicView, ...]
    asked_of: tuple[PartView, ...]
    others: tuple[PartView, ...]
    loose: tuple[LooseView, ...]
    on_shelf: tuple[OnShelf, ...]
    kinds: tuple[str, ...]
    orders: tuple[OrderView, ...]
    approved: tuple[tuple[str, str, str], ...]
    currency: str
    wider: tuple[tuple[str, str], ...]


def decisions(bench: Workbench, number: str) -> DecideView:
    """The page of decisions of a job."""
    worked = bench.worked(number)
    view, given = worked.view, worked.given
    told = sorted((c for c in view.characteristics if c.asked or c.fresh is not None), key=_rank)
    bad = tuple(c for c in told if c.verdict in BAD)
    asked_of, others = _parts(view, bad)
    return DecideView(
        job=view,
        bad=bad,
        unclear=tuple(c for c in told if c.verdict in ("too close to call", "not comparable")),
        missing=tuple(c for c in told if c.verdict in ("stale", "not measured") and not c.spared),
        spared=tuple(c for c in told if c.spared),
        good=tuple(c for c in told if c.verdict in GOOD),
        asked_of=asked_of,
        others=others,
        loose=loose(given),
        on_shelf=on_shelf(given),
        kinds=tuple(dict.fromkeys(s.kind for s in given.state.anatomy.slots.values())),
        orders=_orders(given),
        approved=tuple((f.amount, f.currency, f.by) for _seq, f in given.state.approvals),
        currency=given.rules.currency,
        wider=tuple((key, words) for key, (words, asks) in SCOPES.items()
                    if key != view.job.scope and set(asks) > set(SCOPES.get(view.job.scope, ("", ()))[1])),
    )  # fmt: skip


def anchor(text: str) -> str:
    """A place or slot as the name of a spot on a page."""
    return text.replace(" ", "_")


def _rank(c: CharacteristicView) -> int:
    return RANK.index(c.verdict) if c.verdict in RANK else len(RANK)


def _parts(view: JobView, bad: tuple[CharacteristicView, ...]) -> tuple[tuple[PartView, ...], tuple[PartView, ...]]:
    """Parts somebody has to decide about or has decided, and the rest."""
    plan = view.plan("dispositions")
    planned = {line.where for line in plan.lines if line.numbers.get("what") != "reuse"} if plan else set()
    places = {c.place for c in bad if c.verdict not in SET_WRONG} if plan is None else set()
    asked = tuple(p for p in view.parts if p.what or p.findings or p.slot in planned or p.slot.split("/")[0] in places)
    return asked, tuple(p for p in view.parts if p not in asked)


def loose(given: Given) -> tuple[LooseView, ...]:
    """Every part that stands in no slot."""
    state = given.state
    read_by = measurands(state.anatomy)[SHIM].gauges
    gauges = tuple((g.id, g.name) for g in given.shelf.gauges if g.kind in read_by)
    standing = {part for part in state.slots.values() if part}
    single = state.anatomy.layout.cylinders == 1
    found = []
    for part in state.parts.values():
        if part.id in standing:
            continue
        slots = tuple((s.name, say(s.name, single=single)) for s in state.anatomy.slots.values() if s.kind == part.kind)
        what = ", ".join(t for t in (part.number, part.mark, part.thickness) if t)
        whence = (
            f"entry {part.received}" if part.received else f"from {say(part.id.removeprefix('orig:'), single=single)}"
        )
        found.append(LooseView(part=part.id, kind=part.kind, slots=slots, gauges=gauges if part.kind == "shim" else (),
                               words=f"{part.kind} {what}".strip() + f" ({whence})"))  # fmt: skip
    return tuple(found)


def _orders(given: Given) -> tuple[OrderView, ...]:
    state, came, wrong = given.state, Counter[tuple[str, str]](), Counter[tuple[str, str]]()
    for _seq, arrived in state.arrived:
        came.update({(arrived.order, number): count for number, count in arrived.lines.items()})
    for _seq, bad in state.wrong:
        wrong[bad.order, bad.number] += bad.count
    names = {row.number: row.name for row in given.book.parts}
    names |= {system.part: "shim" for side in ("in", "ex") if (system := given.book.shims_for(side))}
    return tuple(
        OrderView(
            order=fact.order,
            kind=fact.kind,
            entry=seq,
            lines=tuple(
                OrderedView(number=n, name=names.get(n.split(" ")[0], ""), count=count,
                            came=came[fact.order, n], wrong=wrong[fact.order, n])
                for n, count in fact.lines.items()
            ),
            words=tuple(fact.words.items()),
            pieces=_pieces(given, fact.order, {n: came[fact.order, n] for n in fact.lines}),
        )
        for seq, fact in state.orders
    )  # fmt: skip


def _pieces(given: Given, order: str, came: dict[str, int]) -> tuple[PieceView, ...]:
    """What came and is a part with a place of its own: a ring set is its rings, a shim is known by its mark."""
    state, slots = given.state, given.state.anatomy.slots
    bodies = [e.typed.body for e in state.entries if e.typed.id not in state.retracted]
    in_hand = Counter((b.number, b.kind) for b in bodies if isinstance(b, PartReceived) and b.order == order)
    shims = {system.part for side in ("in", "ex") if (system := given.book.shims_for(side))}
    found: dict[tuple[str, str], int] = {(number, "shim"): count for number, count in came.items() if number in shims}
    for row in (r for r in given.book.parts if r.number in came):
        group = next(iter(row.groups()), ())
        for kind, each in Counter(slots[s].kind for s in group if s in slots).items():
            found[row.number, kind] = each * came[row.number]
    return tuple(
        PieceView(number=number, kind=kind, left=count - in_hand[number, kind], marked=kind == "shim")
        for (number, kind), count in found.items()
        if count > in_hand[number, kind]
    )


def act_of(view: JobView, plan: PlanView, line: LineView) -> tuple[str, Body] | None:
    """The entry that does what a line of a plan says, with the words of its button; none where hands are needed first."""
    match plan.key:
        case "dispositions":
            return _decided(view, line)
        case "shims":
            return _fitted(view, plan, line)
        case _:
            return None


def _decided(view: JobView, line: LineView) -> tuple[str, Body] | None:
    what = line.numbers.get("what")
    part = next((p for p in view.parts if p.slot == line.where), None)
    if part is None or part.part is None or not isinstance(what, str) or what not in DISPOSITIONS or part.what == what:
        return None
    reason = "; ".join(line.because) or line.what
    return DISPOSITIONS[what], Disposition(part=part.part, what=what, reason=reason)  # type: ignore[arg-type]


def _fitted(view: JobView, plan: PlanView, line: LineView) -> tuple[str, Body] | None:
    shim, valve = line.numbers.get("shim"), line.numbers.get("valve")
    if not line.numbers.get("moved") or line.numbers.get("buy") or not isinstance(shim, str):
        return None
    slot, whence = f"{valve}/shim", str(line.numbers.get("from", ""))
    known = {p.part for p in view.parts} | {shim if shim.count("-") == 4 else ""}
    if shim not in known:
        return None
    back = next((other for other in plan.lines if other.where == whence), None)
    if back is not None and back.numbers.get("from") == valve:
        words = f"exchanged with {say(whence, single=True)}"
        return words, PartsSwapped(slot=slot, other=f"{whence}/shim")
    return "fitted", PartFitted(part=shim, slot=slot)
