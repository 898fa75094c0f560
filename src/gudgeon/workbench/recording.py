"""The record of a job: what papers need beyond the screens' read model, worked out only when a paper is made."""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.book.fasteners import FastenerRow
from gudgeon.book.parts import PartRow
from gudgeon.job.entries import Arrived, Entry, Finding, GoNoGo, OperationDone, Reading, Retraction, TorqueApplied
from gudgeon.job.state import JobState, Taken
from gudgeon.measurands.own import measurands
from gudgeon.operations.own import operations
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused, caution
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.view import record as view
from gudgeon.view.job import JobView
from gudgeon.workbench.asks import point_words
from gudgeon.workbench.blanks import blanks_of
from gudgeon.workbench.build import Worked, counts_of
from gudgeon.workbench.loose import loose_parts
from gudgeon.workbench.wear import wear_views
from gudgeon.workbench.words import fact_words, joint_words


def recorded(worked: Worked) -> view.JobRecord:
    """The job as papers see it."""
    seen = worked.view
    whole = {name: getattr(seen, name) for name in JobView.__struct_fields__}
    return view.JobRecord(**whole, record=record_of(worked.given))


def record_of(given: Given) -> view.RecordView:
    """Everything of the job that only papers need."""
    state = given.state
    live = tuple(e for e in state.entries if e.typed.id not in state.retracted)
    return view.RecordView(
        cards=_cards(state),
        readings=tuple(_reading(state, t) for t in state.readings),
        work=tuple(_work(state, e, e.typed.body) for e in live if isinstance(e.typed.body, OperationDone)),
        torques=_torques(state),
        fasteners=tuple(_fastener(row) for row in given.book.fasteners),
        blanks=blanks_of(given),
        findings=_findings(state),
        decisions=_decisions(state),
        orders=_orders(state),
        approvals=tuple(
            view.ApprovalView(seq=seq, at=_at(state, seq), amount=fact.amount, currency=fact.currency, by=fact.by)
            for seq, fact in state.approvals
        ),
        notes=_notes(state),
        left=_left(state),
        loose=loose_parts(state),
        retractions=_retractions(state),
        cautions=_cautions(given),
        wear=wear_views(given),
        rules=given.rules.pinned(),
        catalogue=tuple(_book_part(row) for row in given.book.parts),
    )


def _by_seq(state: JobState) -> dict[int, Entry]:
    return {e.seq: e for e in state.entries}


def _at(state: JobState, seq: int) -> str:
    return next((e.typed.typed_at for e in state.entries if e.seq == seq), "")


def _cards(state: JobState) -> tuple[view.CardView, ...]:
    zeros = {fact.gauge: fact for _seq, fact in state.zeros}
    found = []
    for gauge, pinned in state.gauges.items():
        try:
            card = GaugeCard.from_pinned(pinned)
        except Refused:
            continue
        zero = zeros.get(gauge)
        said = "" if zero is None else f"{zero.text} {zero.unit}, {'holds' if zero.holds else 'drifted'}"
        found.append(
            view.CardView(
                id=card.id,
                name=card.name,
                kind=card.kind,
                unit=card.unit,
                error=_error(card),
                source=card.source,
                due=card.due,
                zero=said,
            )
        )
    return tuple(found)


def _error(card: GaugeCard) -> str:
    """How well the gauge knows what it shows, as its card says it."""
    if card.certificate_u is not None:
        known = f"certificate ± {card.certificate_u} (k = {card.k:g})"
    else:
        known = " and ".join(f"± {part}" for part in (card.permissible_error, card.per_cent) if part is not None)
    return f"{known}; repeats {card.repeatability}, {card.study}" if card.study else known


def _reading(state: JobState, taken: Taken) -> view.ReadingView:
    fact, kind = taken.fact, measurands(state.anatomy).get(taken.fact.measurand)
    typed = fact if isinstance(fact, Reading) else None
    return view.ReadingView(
        seq=taken.entry.seq,
        at=taken.entry.typed.typed_at,
        by=taken.entry.typed.by,
        measurand=fact.measurand,
        name=kind.name if kind else fact.measurand,
        place=fact.where,
        part=taken.part,
        where=part_words(state, fact.where[5:]) if fact.where.startswith("part:") else _say(state, fact.where),
        point=point_words(fact.point),
        text=f"{fact.size} {'enters' if fact.enters else 'does not enter'}" if isinstance(fact, GoNoGo) else fact.text,
        unit=fact.unit,
        gauge=fact.gauge,
        temperature=typed.temperature if typed else "",
        confirmed=typed.confirmed if typed else (),
        counts=counts_of(taken),
        reasons=tuple(str(r.words) for r in taken.reasons),
    )


def _work(state: JobState, entry: Entry, fact: OperationDone) -> view.WorkView:
    kind = operations(state.anatomy).get(fact.operation)
    return view.WorkView(
        seq=entry.seq,
        at=entry.typed.typed_at,
        by=entry.typed.by,
        operation=fact.operation,
        place=fact.where,
        where=_say(state, fact.where),
        words=kind.did if kind else fact.operation,
        detail=dict(fact.detail),
        late=fact.because if fact.before else "",
    )


def _torques(state: JobState) -> tuple[view.TorqueView, ...]:
    return tuple(
        view.TorqueView(
            seq=one.entry.seq,
            at=one.entry.typed.typed_at,
            by=one.entry.typed.by,
            joint=one.fact.joint,
            where=joint_words(one.fact.joint, single=state.anatomy.layout.cylinders == 1),
            stage=one.fact.stage,
            of=one.fact.of,
            setting=one.fact.setting,
            unit=one.fact.unit,
            wrench=one.fact.wrench,
            final=one.fact.stage == one.fact.of,
            fresh=one.fresh and one.fact.joint.split("#")[0] not in state.open_joints,
        )
        for one in state.evidence
        if isinstance(one.fact, TorqueApplied)
    )


def _say(state: JobState, place: str) -> str:
    """A place in words; the only cylinder needs no number."""
    return say(place, single=state.anatomy.layout.cylinders == 1)


def _fastener(row: FastenerRow) -> view.FastenerView:
    return view.FastenerView(
        name=row.name,
        joint=row.joint,
        place=row.place,
        count=row.count,
        thread=row.thread,
        grade=row.grade,
        stages=tuple(str(stage) for stage in row.torque),
        angle=str(row.angle) if row.angle is not None else "",
        thread_state=row.thread_state,
        under_head=row.under_head,
        locker=row.locker,
        cure=str(row.cure) if row.cure is not None else "",
        washer=" ".join(w for w in (row.washer, row.washer_side) if w),
        renew=row.renew,
        retighten=row.retighten,
        order=row.order,
        positions_mm=row.positions_mm,
        page=row.page,
        note=row.note,
    )


def _book_part(row: PartRow) -> view.BookPartView:
    return view.BookPartView(
        number=row.number,
        name=row.name,
        price=str(row.price) if row.price is not None else "",
        renew=row.renew,
        look_alike=row.look_alike,
    )


def _findings(state: JobState) -> tuple[view.FindingView, ...]:
    return tuple(
        view.FindingView(
            seq=one.entry.seq,
            at=one.entry.typed.typed_at,
            where=_say(state, one.fact.where) if not one.fact.where.startswith("part:") else "part",
            kind=one.fact.kind,
            words=one.fact.words,
            photos=len(one.fact.photos),
            pictures=one.fact.photos,
            stands=one.fresh and bool(one.part) and bool(state.slot_of(one.part)),
        )
        for one in state.evidence
        if isinstance(one.fact, Finding)
    )


def part_words(state: JobState, part: str) -> str:
    """A part by the place it was made for, or stands in."""
    if part.startswith("orig:"):
        return _say(state, part.removeprefix("orig:"))
    slot, known = state.slot_of(part), state.parts.get(part)
    return f"new {_say(state, slot)}" if slot else f"new {known.kind if known else 'part'}"


def _decisions(state: JobState) -> tuple[view.DecisionView, ...]:
    return tuple(
        view.DecisionView(
            seq=seq, part=part, where=part_words(state, part), what=fact.what.replace("_", " "), reason=fact.reason
        )
        for part, (seq, fact) in state.dispositions.items()
    )


def _orders(state: JobState) -> tuple[view.OrderView, ...]:
    came: dict[str, dict[str, int]] = {}
    for _seq, arrived in state.arrived:
        _add(came.setdefault(arrived.order, {}), arrived)
    return tuple(
        view.OrderView(
            seq=seq,
            at=_at(state, seq),
            order=fact.order,
            kind=fact.kind,
            lines=dict(fact.lines),
            words=dict(fact.words),
            arrived=came.get(fact.order, {}),
        )
        for seq, fact in state.orders
    )


def _add(so_far: dict[str, int], arrived: Arrived) -> None:
    for number, count in arrived.lines.items():
        so_far[number] = so_far.get(number, 0) + count


def _notes(state: JobState) -> tuple[view.NoteView, ...]:
    entries = _by_seq(state)
    return tuple(
        view.NoteView(
            seq=seq,
            at=entries[seq].typed.typed_at,
            by=entries[seq].typed.by,
            where=fact.where if fact.where in ("advised", "not done", "") else _say(state, fact.where),
            words=fact.words,
            photos=len(fact.photos),
            pictures=fact.photos,
        )
        for seq, fact in state.notes
        if seq in entries
    )


def _left(state: JobState) -> tuple[view.LeftPartView, ...]:
    """The parts the engine came with that stand in it no longer; what was carried inside another one goes with it."""
    found = []
    for part in state.parts.values():
        if not part.id.startswith("orig:") or state.slot_of(part.id):
            continue
        decided = state.dispositions.get(part.id)
        found.append(
            view.LeftPartView(
                part=part.id,
                where=part_words(state, part.id),
                kind=part.kind,
                number=part.number,
                mark=part.mark,
                thickness=part.thickness,
                reason=decided[1].reason if decided else "",
            )
        )
    return tuple(found)


def _retractions(state: JobState) -> tuple[view.RetractionView, ...]:
    by_id = {e.typed.id: e for e in state.entries}
    found = []
    for entry in state.entries:
        fact = entry.typed.body
        if not isinstance(fact, Retraction):
            continue
        target = by_id.get(fact.entry)
        found.append(
            view.RetractionView(
                seq=entry.seq,
                of=target.seq if target else 0,
                words=fact_words(target.typed.body) if target else "",
                reason=fact.reason,
                stands=entry.typed.id not in state.retracted,
            )
        )
    return tuple(found)


def _cautions(given: Given) -> tuple[view.CautionView, ...]:
    """Every caution that the engine calls for: the trade's, then the book's own."""
    anatomy = given.state.anatomy
    trade = [(m.key, m.name, m.caution) for m in measurands(anatomy).values() if m.caution and m.where(anatomy)]
    trade += [(o.key, o.name, o.caution) for o in operations(anatomy).values() if o.caution and o.where(anatomy)]
    names = {key: name for key, name, _words in trade}
    own = [(c.at, names.get(c.at, c.at), c.words) for c in given.book.cautions]
    return tuple(view.CautionView(at=at, name=name, words=caution(words)) for at, name, words in (*trade, *own))
