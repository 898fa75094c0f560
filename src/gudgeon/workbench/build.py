"""From what was loaded to the read model: replay, evaluate, plan, and say it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from gudgeon import units
from gudgeon.anatomy import Anatomy, expand, say
from gudgeon.book.book import Book
from gudgeon.book.owning import with_own
from gudgeon.job.entries import Entry, Finding, OwnAdded
from gudgeon.job.order import retracted_ids
from gudgeon.job.replay import replay
from gudgeon.job.state import JobState, Taken
from gudgeon.plans import lash_proof
from gudgeon.plans.fasteners import drawn_up_by
from gudgeon.plans.holds import HoldStatus, standing
from gudgeon.plans.run import plan_all
from gudgeon.plans.shape import Cut, Given, Plan
from gudgeon.problem import Problem, Refused
from gudgeon.routes.own import asks_for
from gudgeon.routes.scopes import SCOPES
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.shape import Verdict
from gudgeon.workbench import view
from gudgeon.workbench.asks import asks_of
from gudgeon.workbench.loading import Loaded
from gudgeon.workbench.next import next_step
from gudgeon.workbench.words import fact_place, fact_words, formula_of


@dataclass(frozen=True, kw_only=True)
class Worked:
    """A job worked through, each part when it is first asked for: a reading that is checked needs no plans."""

    loaded: Loaded
    given: Given

    @cached_property
    def plans(self) -> tuple[Plan, ...]:
        """What every planner says."""
        return plan_all(self.given)

    @cached_property
    def holds(self) -> tuple[HoldStatus, ...]:
        """Where the hold points stand."""
        return standing(self.given)

    @cached_property
    def view(self) -> view.JobView:
        """The read model of screens, papers and commands."""
        return _view(self.loaded, self.given, self.plans, self.holds)


def gasket_numbers(book: Book) -> dict[str, str]:
    """The part numbers an engine of this book comes with, by slot; look-alikes of one slot are left out as unknown."""
    found: dict[str, list[str]] = {}
    for part in book.parts:
        for slot in part.slots:
            found.setdefault(slot, []).append(part.number)
    return {slot: numbers[0] for slot, numbers in found.items() if len(numbers) == 1}


def added_by(entries: Sequence[Entry]) -> tuple[tuple[str, str, Mapping[str, object]], ...]:
    """What a job itself adds to its engine: where it was said, its kind, its row."""
    out = retracted_ids(entries)
    live = ((e.seq, e.typed.body) for e in entries if e.typed.id not in out)
    return tuple((f"entry {seq}", fact.kind, fact.row) for seq, fact in live if isinstance(fact, OwnAdded))


def given_of(loaded: Loaded, book: Book, shelf: Shelf) -> Given:
    """State and verdicts of a job."""
    book, wrong = with_own(book, added_by(loaded.entries))
    anatomy, problems = expand(book.layout), (*loaded.problems, *wrong)
    drawn = drawn_up_by(book, anatomy)
    state = replay(loaded.entries, anatomy, numbers=gasket_numbers(book), fasteners=drawn, problems=problems)
    try:
        rules = Rules.from_pinned(state.rules) if state.rules else shelf.rules
    except Refused:
        rules = shelf.rules
    return Given(state=state, book=book, shelf=shelf, rules=rules)


def work_through(loaded: Loaded, book: Book, shelf: Shelf) -> Worked:
    """The whole job, each part of it once."""
    return Worked(loaded=loaded, given=given_of(loaded, book, shelf))


def _view(loaded: Loaded, given: Given, plans: tuple[Plan, ...], holds: tuple[HoldStatus, ...]) -> view.JobView:
    state, judged = given.state, given.judged
    asked = asks_for(state.scope, state.anatomy)
    characteristics = tuple(_characteristic(v, asked, state.anatomy) for v in judged.verdicts)
    hold_views = tuple(_hold(h) for h in holds)
    plan_views = tuple(_plan(p) for p in plans)
    return view.JobView(
        format="job/1",
        job=_head(given, loaded.number),
        ledger=_ledger(loaded),
        characteristics=characteristics,
        parts=_parts(state),
        holds=hold_views,
        plans=plan_views,
        papers=_papers(state),
        entries=_entries(loaded, state),
        next=next_step(state, asks_of(given, plans), hold_views, plan_views),
        problems=tuple(_problem(p) for p in (*state.problems, *judged.problems, *lash_proof.problems(given))),
    )


def _ledger(loaded: Loaded) -> view.LedgerHead:
    last = loaded.entries[-1] if loaded.entries else None
    at, by = (last.landed_at, last.typed.by) if last else ("", "")
    return view.LedgerHead(head=loaded.head, digest=loaded.digest, verified=loaded.verified, at=at, by=by)


def _head(given: Given, kept_as: str) -> view.JobHead:
    state, book = given.state, given.book
    opened = state.opened
    name, edition, sha = state.book or (book.name, book.edition, "")
    return view.JobHead(
        number=kept_as or (opened.number if opened else ""),
        engine_number=opened.engine_number if opened else "",
        machine=opened.machine if opened else "",
        hours=_hours(opened.hours if opened else ""),
        complaint=opened.complaint if opened else "",
        scope=state.scope,
        scope_name=SCOPES[state.scope][0] if state.scope in SCOPES else state.scope,
        state="stopped" if state.stopped else "closed" if state.closed else "open",
        stopped=state.stopped,
        altitude=opened.altitude if opened else "",
        opened_at=state.entries[0].typed.typed_at if state.entries else "",
        owner=opened.owner if opened else "",
        book=view.BookRef(name=name, edition=edition, sha256=sha),
    )


def _hours(text: str) -> float | None:
    try:
        return units.read(text, "time", unit="h").value if text else None
    except Refused:
        return None


def _characteristic(v: Verdict, asked: tuple[str, ...], anatomy: Anatomy) -> view.CharacteristicView:
    formula, source = formula_of(v.key, anatomy)
    new = None if v.new_low is None and v.new_high is None else (v.new_low, v.new_high)
    found = v.as_found
    return view.CharacteristicView(
        address=v.address,
        key=v.key,
        place=v.place,
        name=v.name,
        unit=v.unit,
        places=v.places,
        value=v.value,
        said=v.said,
        u=v.u,
        low=v.low,
        high=v.high,
        new=new,
        judged_new=v.judged_new,
        page=v.page,
        formula=formula,
        source=source,
        probability=v.probability,
        verdict=v.verdict,
        fresh=v.fresh,
        asked=v.key in asked,
        spared=v.spared,
        reasons=tuple(
            view.ReasonView(entry=r.entry, feature=r.feature, how=r.how, words=str(r.words)) for r in v.reasons
        ),
        notes=tuple(str(n) for n in v.notes),
        points=view.Points(wanted=v.wanted, fresh=v.taken),
        rests_on=v.rests_on,
        gauges=v.gauges,
        budget=tuple(view.BudgetLine(source=label, u=abs(part)) for label, part in v.budget),
        settles=tuple(view.SettlesView(gauge=s.gauge, name=s.name, readings=s.readings) for s in v.settles),
        as_found=view.AsFoundView(
            value=found.value,
            said=found.said,
            verdict=found.verdict,
            rests_on=found.rests_on,
            u=found.u,
            low=found.low,
            high=found.high,
        )
        if found
        else None,
        contradicts=v.contradicts,
    )


def _parts(state: JobState) -> tuple[view.PartView, ...]:
    findings: dict[str, list[str]] = {}
    for evidence in state.evidence:
        if isinstance(evidence.fact, Finding) and evidence.part:
            findings.setdefault(evidence.part, []).append(evidence.fact.words or evidence.fact.kind)
    for ruined, seq in state.unusable.items():
        findings.setdefault(ruined, []).append(f"no longer usable: work its material forbids, entry {seq}")
    single = state.anatomy.layout.cylinders == 1
    found = []
    for slot, part in state.slots.items():
        known = state.parts.get(part or "")
        what = state.dispositions.get(part or "")
        found.append(
            view.PartView(
                slot=slot,
                name=say(slot, single=single),
                kind=state.anatomy.slots[slot].kind,
                part=part,
                number=known.number if known else "",
                mark=known.mark if known else "",
                thickness=known.thickness if known else "",
                out=slot in state.out,
                new=bool(part) and not str(part).startswith("orig:"),
                what=what[1].what if what else "",
                reason=what[1].reason if what else "",
                findings=tuple(findings.get(part or "", ())),
            )
        )
    return tuple(found)


def _hold(h: HoldStatus) -> view.HoldView:
    return view.HoldView(
        hold=h.hold.key,
        name=h.hold.name,
        hides=h.hold.hides,
        state=h.state,
        needs=h.needs,
        asks=h.hold.asks,
        words=tuple(str(r) for r in h.reasons),
        entry=h.entry,
        override=h.override,
    )


def _plan(plan: Plan) -> view.PlanView:
    return view.PlanView(
        key=plan.key,
        name=plan.name,
        state=plan.state,
        lines=tuple(
            view.LineView(
                where=line.where,
                name=say(line.where) if line.where else "",
                what=str(line.what),
                numbers=dict(line.numbers),
                because=tuple(str(b) for b in line.because),
            )
            for line in plan.lines
        ),
        needs=plan.needs,
        buys=tuple(
            view.BuyView(
                number=b.number,
                name=b.name,
                count=b.count,
                slots=b.slots,
                because=str(b.because),
                sure=b.sure,
                price=b.price,
            )
            for b in plan.buys
        ),
        machines=tuple(_cut(c) for c in plan.machines),
        rests_on=plan.rests_on,
        reasons=tuple(str(r) for r in plan.reasons),
    )


def _cut(cut: Cut) -> view.CutView:
    return view.CutView(
        where=cut.where,
        name=say(cut.where),
        what=str(cut.what),
        to_reach=tuple(str(t) for t in cut.to_reach),
        low_mm=cut.low_mm,
        high_mm=cut.high_mm,
        never_over_mm=cut.never_over_mm,
        because=tuple(str(b) for b in cut.bound_because),
        forbidden=tuple(str(f) for f in cut.forbidden),
        encloses=cut.encloses,
        measures=cut.measures,
    )


def _papers(state: JobState) -> tuple[view.PaperView, ...]:
    """The papers that were handed over; whether the job has moved on since is found out by making them anew."""
    return tuple(
        view.PaperView(paper=fact.paper, entry=seq, content=fact.content, superseded=False)
        for seq, fact in state.papers
    )


def _entries(loaded: Loaded, state: JobState) -> tuple[view.EntryView, ...]:
    taken = {t.entry.seq: t for t in state.readings}
    digests = {row.seq: row.digest.hex()[:8] for row in loaded.rows}
    found = []
    for entry in loaded.entries:
        body, reading = entry.typed.body, taken.get(entry.seq)
        out = entry.typed.id in state.retracted
        found.append(
            view.EntryView(
                seq=entry.seq,
                id=entry.typed.id,
                at=entry.typed.typed_at,
                by=entry.typed.by,
                bench=entry.typed.bench,
                fact=str(body.__struct_config__.tag).split("/")[0],
                words=fact_words(body),
                where=fact_place(body),
                digest=digests.get(entry.seq, ""),
                retracted=out,
                counts="retracted" if out else counts_of(reading),
                reasons=tuple(str(r.words) for r in reading.reasons) if reading else (),
            )
        )
    return tuple(found)


def counts_of(taken: Taken | None) -> str:
    """What became of a reading, in a word or two."""
    if taken is None:
        return ""
    if not taken.fresh:
        return "stale"
    if taken.unmet:
        return "; ".join(str(why) for why in taken.unmet)
    if taken.trial:
        return "plans only: " + "; ".join(str(t) for t in taken.trial)
    return "read under another belief" if taken.other_belief else "fresh"


def _problem(problem: Problem) -> view.ProblemView:
    return view.ProblemView(where=problem.where, what=str(problem.what), remedy=str(problem.remedy))
