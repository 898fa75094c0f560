"""What a record rests on, in the same tables wherever it is shown: judged sizes, readings, torque, gauges, ledger."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.papers.blocks import Block, Heading, KeyValues, Para, Table, Together
from gudgeon.papers.common import (
    DASH,
    GOOD,
    as_found,
    bounds,
    day,
    grouped,
    moment,
    spans,
    split,
    strip,
    value,
    with_unit,
)
from gudgeon.view.job import CharacteristicView
from gudgeon.view.record import CardView, FastenerView, JobRecord, ReadingView, TorqueView


def looked_at(view: JobRecord) -> tuple[CharacteristicView, ...]:
    """What was judged at all, now or as found."""
    return tuple(c for c in view.characteristics if c.verdict != "not measured" or c.as_found is not None)


def changed(c: CharacteristicView) -> bool:
    """Whether the job changed it: another reading counts now than the one as found, and says something else."""
    return (
        c.as_found is not None
        and c.as_found.rests_on != c.rests_on
        and (c.as_found.said, c.as_found.verdict)
        != (
            c.said,
            c.verdict,
        )
    )


def shown_large(c: CharacteristicView) -> bool:
    """Whether it earns its strips: it failed at some time, was put right, or lies near its wall."""
    if c.value is None or (c.low is None and c.high is None):
        return False
    failed = c.verdict not in (*GOOD, "not measured") or (c.as_found is not None and c.as_found.verdict not in GOOD)
    other = changed(c) and c.as_found is not None and c.as_found.verdict != c.verdict
    return failed or other or near(c) or (c.key == "lash" and changed(c))


def near(c: CharacteristicView) -> bool:
    """Whether less than a quarter of the way from new to the wall is left (common practice, no source)."""
    if c.value is None or c.new is None or c.verdict not in GOOD:
        return False
    low, high = c.new
    if c.high is not None and high is not None and high < c.high:
        return (c.high - c.value) < 0.25 * (c.high - high)
    if c.low is not None and low is not None and c.low < low:
        return (c.value - c.low) < 0.25 * (low - c.low)
    return False


def strips(found: Iterable[CharacteristicView]) -> Table:
    """Before and after, each on its limit strip."""
    rows = []
    for c in found:
        what, place = split(c)
        facts = "\n".join(w for w in (what, place, bounds(c), f"page {c.page}" if c.page else "") if w)
        rows.append((facts, strip(c, before=True) if c.as_found else DASH, strip(c)))
    return Table(head=("what, where, book", "as found", "now"), rows=tuple(rows), widths=(1.05, 1.3, 1.3), dense=True)


def sizes(found: Iterable[CharacteristicView]) -> Table:
    """One line each: as found, now, what the book says, and the entries it rests on."""
    rows = []
    for c in found:
        what, place = split(c)
        before = as_found(c).removesuffix(f" {c.unit}") if changed(c) else ""
        rows.append((what, place, before, value(c), bounds(c), c.verdict, spans(c.rests_on)))
    head = ("what", "where", "as found", "now", "book", "verdict", "entries")
    return Table(head=head, rows=tuple(rows), widths=(3.2, 2, 1.4, 2.8, 4.7, 1.7, 1.5), dense=True)


def readings(found: Iterable[ReadingView], *, whole: bool = False) -> Table:
    """Readings as typed, in their order, day by day; `whole` groups them by their gauge, too, and says what became of each."""
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for r in found:
        date, _, hour = moment(r.at).partition(" ")
        over = " · ".join(w for w in (r.gauge if whole else "", date, r.by) if w)
        if not groups or groups[-1][1] != over:
            groups.append((len(rows), over))
        what = ", ".join(w for w in (r.name, r.where, r.point) if w)
        typed = with_unit(r.text, "" if r.text.endswith(r.unit) else r.unit)
        entry = " · ".join(w for w in (str(r.seq), hour) if w)
        rows.append((entry, what, typed, _became(r) if whole else r.gauge))
    head = ("entry", "what, where", "as typed", "counts" if whole else "gauge")
    widths = (1.1, 4, 1.5, 4.4) if whole else (1.1, 5, 1.5, 1.5)
    return Table(head=head, rows=tuple(rows), widths=widths, dense=True, groups=tuple(groups))


def _became(r: ReadingView) -> str:
    more = [f"at {r.temperature}"] if r.temperature else []
    more += [f"asked again ({', '.join(r.confirmed).replace('_', ' ')}), confirmed"] if r.confirmed else []
    why = "; ".join(dict.fromkeys(r.reasons))
    return "; ".join([r.counts + (f": {why}" if why and r.counts == "stale" else ""), *more])


def gauges(cards: Iterable[CardView], used: Iterable[str]) -> Table:
    """The gauges that were used, with how well each knows what it shows."""
    wanted = set(used)
    rows = tuple(
        (c.id, c.name, c.error, c.source + (f", due {c.due}" if c.due else ""), c.zero) for c in cards if c.id in wanted
    )
    head = ("gauge", "name", "may be off by", "known from", "zero")
    return Table(head=head, rows=rows, widths=(1, 2, 1.6, 2.2, 1.2), dense=True)


def joint_rows(view: JobRecord) -> tuple[tuple[str, str, str, str, str], ...]:
    """Each joint that was tightened: stages as set, wrench, what the book says, and whether it still counts."""
    found: dict[str, list[TorqueView]] = {}
    for t in view.record.torques:
        found.setdefault(t.joint, []).append(t)
    rows = []
    for joint, taken in found.items():
        last = [t for t in taken if t.seq >= max((u.seq for u in taken if u.stage == 1), default=0)]
        set_to = " – ".join(_plain(t.setting, t.unit) for t in last) + f" {last[-1].unit}"
        closed = last[-1].final
        state = (
            "final"
            if closed and last[-1].fresh
            else ("opened again since" if closed else f"left at stage {last[-1].stage}")
        )
        book = "; ".join(fastener_words(f) for f in _book_of(view, joint))
        entries = f"entries {spans(t.seq for t in last)}"
        wrenches = ", ".join(dict.fromkeys(t.wrench for t in last if t.wrench))
        rows.append((last[-1].where, set_to, wrenches, book or DASH, f"{state}; {entries}"))
    return tuple(rows)


def _plain(setting: str, unit: str) -> str:
    return setting.removesuffix(unit).strip()


def _book_of(view: JobRecord, joint: str) -> list[FastenerView]:
    whole, _, fastener = joint.partition("#")
    place, _, name = whole.partition(" ")
    found = [f for f in view.record.fasteners if f.joint == name and f.place in ("", place)]
    return [f for f in found if fastener in ("", f.name)] or [
        f for f in view.record.fasteners if f.name == (fastener or name)
    ]


def fastener_words(f: FastenerView) -> str:
    """A fastener as the book has it: count, thread, grade, stages, state."""
    count = f"{f.count} × " if f.count > 1 else ""
    thread = " ".join(w for w in (f.thread, f.grade) if w)
    stages = " – ".join((*(s.rsplit(" ", 1)[0] for s in f.stages[:-1]), *f.stages[-1:]))
    angle = f"+ {f.angle}" if f.angle else ""
    under = f.under_head if f.under_head != f.thread_state else ""
    state = f"thread {f.thread_state}" + (f", under the head {under}" if under else "") if f.thread_state else ""
    locker = f"locker {f.locker}" + (f", cure {f.cure}" if f.cure else "") if f.locker else ""
    renew = {"always": "new every time", "once": "new once used", "by length": "new by its length"}.get(f.renew, "")
    said = ", ".join(
        w for w in (thread, " ".join(w for w in (stages, angle) if w), state, locker, f.washer, renew) if w
    )
    return f"{count}{f.name}: {said}" if said else f"{count}{f.name}"


def torque(view: JobRecord) -> tuple[Block, ...]:
    """The torque evidence, or that there is none."""
    rows = joint_rows(view)
    if not rows:
        return (Para("No joint was tightened in this job."),)
    head = ("joint", "set to", "wrench", "book", "stands")
    return (Table(head=head, rows=rows, widths=(1.6, 1.6, 0.9, 3.4, 1.7), dense=True),)


def ledger(view: JobRecord) -> tuple[Block, ...]:
    """Where the ledger stands, so that any later change before this entry shows."""
    facts = (
        ("ledger", f"{view.ledger.head} entries, last of {day(view.ledger.at)}"),
        ("digest", grouped(view.ledger.digest)),
        ("book", f"{view.job.book.name}, edition {view.job.book.edition}, {grouped(view.job.book.sha256[:16])}"),
    )
    words = (
        "This digest, held against the job (gudgeon ledger verify, with --against), shows any change made before it."
    )
    return (Together((Heading("Ledger", 2), KeyValues(facts), Para(words, "context"))),)
