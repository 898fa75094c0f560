"""The owner's words for a job: what the record says, in the order in which an owner asks."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.figures.lash_set import LashRow, lash_set
from gudgeon.papers.blocks import Block, Columns, Figure, KeyValues, Para, Table
from gudgeon.papers.common import (
    DASH,
    GOOD,
    as_found,
    as_found_bounds,
    bounds,
    day,
    engine,
    grouped_by,
    number,
    shim_words,
    split,
    value,
)
from gudgeon.papers.evidence import joint_rows, near
from gudgeon.routes.holds import FIRST_LOOKS_H
from gudgeon.view.job import CharacteristicView, PartView
from gudgeon.view.record import JobRecord, WorkView

#: Work that every job has and no owner asks about; a kind of work that is not named here stands on the owner's page.
ROUTINE = (
    *(
        "open_",
        "loosen_",
        "release_",
        "remove_",
        "plug_",
        "rag_",
        "turn_",
        "tap_",
        "seat_keepers",
        "sent_out",
        "came_back",
    ),
    *("found", "dropped", "tighten_", "wash", "clean", "oil_before", "heat_head", "fill_fluids"),
)
#: What an owner expects to read of every filling.
EXPECTED = {"oil": "oil", "filter": "oil filter", "air filter": "air filter", "plug": "plug and its gap"}
MOST_LINES = 12
FEW = 8


def facts(view: JobRecord) -> KeyValues:
    """Which engine, and what was asked for."""
    job, approved = view.job, view.record.approvals
    hours = f"{job.hours:g} h" if job.hours is not None else ""
    pairs = [("engine", ", ".join(w for w in (engine(view), job.machine, hours) if w))]
    pairs += [("asked for", job.complaint or job.scope_name)]
    if approved:
        last = approved[-1]
        pairs += [("approved", f"{last.amount} {last.currency} by {last.by}, {day(last.at)}")]
    return KeyValues(tuple(pairs))


def found(view: JobRecord) -> tuple[str, ...]:
    """What was wrong when it came in, and what was seen."""
    bad = [c for c in view.characteristics if c.as_found is not None and c.as_found.verdict not in GOOD]
    later = [c for c in view.characteristics if c not in bad and c.verdict not in (*GOOD, "not measured", "stale")]
    sizes = _judged([(c, as_found(c), c.as_found.verdict if c.as_found else "", as_found_bounds(c)) for c in bad])
    sizes += _judged([(c, value(c), c.verdict, bounds(c)) for c in later])
    seen = [f"{f.where}: {f.kind}" + (f", {f.words}" if f.words else "") for f in view.record.findings]
    return cut((*seen, *sizes), 9) or ("Nothing past its limit, and nothing seen that was written down.",)


def _judged(found: list[tuple[CharacteristicView, str, str, str]]) -> list[str]:
    """Judged sizes as sentences; what failed alike at several places is one of them."""
    alike: dict[tuple[str, str, str], list[tuple[str, str]]] = {}
    for c, size, verdict, limits in found:
        what, place = split(c)
        alike.setdefault((what, verdict, "" if limits in ("", DASH) else f" ({limits})"), []).append((place, size))
    lines = []
    for (what, verdict, limits), places in alike.items():
        if len(places) == 1:
            ((place, size),) = places
            lines.append(f"{what}, {place}: {size if size == verdict else f'{size}, {verdict}'}{limits}")
        else:
            lines.append(
                f"{what}, {verdict}{limits}: "
                + ", ".join(f"{place} {'' if size == verdict else size}".strip() for place, size in places)
            )
    return lines


def cut(lines: Iterable[str], most: int = MOST_LINES) -> tuple[str, ...]:
    """As many lines as a page bears; the rest is counted and stands in the evidence."""
    whole = tuple(" ".join(line.split()) for line in lines)
    shown = tuple(line if len(line) <= 240 else f"{line[:239]}…" for line in whole)
    if len(shown) <= most:
        return shown
    return (*shown[: most - 1], f"and {len(shown) - most + 1} more, in the evidence and the technical record")


def routine(work: WorkView) -> bool:
    """Whether an owner would not ask about it."""
    return work.operation.startswith(ROUTINE)


def done(view: JobRecord) -> tuple[str, ...]:
    """The work, by what it was."""
    work = grouped_by((w.words, "" if w.place == "engine" else w.where) for w in view.record.work if not routine(w))
    return cut(work) or ("No part was worked.",)


def renewed(view: JobRecord) -> tuple[str, ...]:
    """The parts that are new, by name and number, with the place of each."""
    new = [p for p in view.parts if p.new and p.kind != "shim" and "/" not in (p.part or "")]
    shims = [p for p in view.parts if p.new and p.kind == "shim"]
    lines = grouped_by((_part_name(p), _place(p)) for p in new)
    if shims:
        lines.append(f"{len(shims)} shim{'s' if len(shims) > 1 else ''}, by place below")
    return cut(lines) or ("No part.",)


def _part_name(part: PartView) -> str:
    return " ".join(w for w in (part.kind, part.number) if w)


def _place(part: PartView) -> str:
    return part.name.removesuffix(f" {part.kind}") if part.name != part.kind else ""


def filled(view: JobRecord) -> tuple[str, ...]:
    """Fluids, filters, plug: what went in last."""
    last: dict[str, str] = {}
    for work in view.record.work:
        if work.operation == "fill_fluids":
            last |= work.detail
    if not last:
        return ("Nothing was filled, or it was not written down: look before the first start.",)
    missing = [words for key, words in EXPECTED.items() if key not in last]
    words = [f"{what.replace('_', ' ')}: {_named(view, amount)}" for what, amount in last.items()]
    return cut((*words, *((f"not written down: {', '.join(missing)}",) if missing else ())))


def _named(view: JobRecord, text: str) -> str:
    """What was typed, a part number in it said with its name."""
    found = next((p for p in view.record.catalogue if p.number in text.split()), None)
    return f"{found.name}, {text}" if found else text


def tightened(view: JobRecord) -> tuple[str, ...]:
    """Each joint with its last setting and the wrench."""
    whole = joint_rows(view)
    counts = [row for row in whole if row[-1].startswith("final")]
    rows = grouped_by(
        (f"{set_to}{f', wrench {wrench}' if wrench else ''}", where) for where, set_to, wrench, _b, _s in counts
    )
    rows += [
        f"{where}: {state.split(';')[0]}" for where, _set, _w, _b, state in whole if _still_open(view, where, state)
    ]
    return cut(rows, FEW) or ("No joint was tightened, or it was not written down.",)


def _still_open(view: JobRecord, where: str, state: str) -> bool:
    """Whether a joint stands open: it was left at a stage, and no later tightening of the same joint is final."""
    return not state.startswith("final") and any(
        t.where == where
        and not any(o.final and o.fresh and _joint(o.joint) == _joint(t.joint) for o in view.record.torques)
        for t in view.record.torques
    )


def _joint(joint: str) -> str:
    return joint.split("#")[0]


def not_done(view: JobRecord) -> tuple[str, ...]:
    """What was left, what has to be looked at, and what is advised: said openly, because nobody asks for it."""
    notes = [n.words for n in view.record.notes if n.where in ("not done", "advised")]
    standing = [
        f"Left as seen: {f.where}, {f.kind}" + (f", {f.words}" if f.words else "")
        for f in view.record.findings
        if f.stands
    ]
    decided = [
        f"To be measured again: {d.where} ({d.reason})" for d in view.record.decisions if d.what == "measure again"
    ]
    decided += [f"Used again, decided: {d.where} ({d.reason})" for d in view.record.decisions if d.what == "reuse"]
    open_now = [c for c in view.characteristics if c.asked and c.verdict not in GOOD]
    unread = [c for c in open_now if c.verdict in ("not measured", "stale")]
    words = _judged([(c, value(c), c.verdict, bounds(c)) for c in open_now if c not in unread])
    words += grouped_by(((_unread(c), split(c)[1]) for c in unread), FEW // 2)
    soon = [f"Near its limit: {c.name}, {value(c)} ({bounds(c)})" for c in view.characteristics if near(c)]
    holds = [f"Not signed: {h.name}" for h in view.holds if h.state in ("open", "undone")]
    scope = f"Outside {view.job.scope_name} nothing was looked at." if view.job.scope != "whole top end" else ""
    doubts = [f"In doubt: {p.where}: {p.what}" for p in view.problems]
    lines = cut((*notes, *doubts, *standing, *decided, *words, *soon, *holds), MOST_LINES)
    return (*lines, *((scope,) if scope else ())) or ("Nothing was left undone of what this job covers.",)


def _unread(c: CharacteristicView) -> str:
    what = split(c)[0]
    if c.spared:
        return f"Not measured, the worst of its kind being far from its limit: {what}"
    return f"Not measured: {what}" if c.verdict == "not measured" else f"Measured before later work, not again: {what}"


def signed_against(view: JobRecord) -> tuple[str, ...]:
    """Hold points that were passed against their evidence, and why."""
    return cut(f"{h.name}: {h.override} (entry {h.entry})" for h in view.holds if h.override)


def lash_rows(view: JobRecord) -> tuple[CharacteristicView, ...]:
    """The valves whose lash was read."""
    return tuple(c for c in view.characteristics if c.key == "lash" and (c.verdict != "not measured" or c.as_found))


def lash(view: JobRecord) -> tuple[Block, ...]:
    """Lash as set, with its shim by position; many valves stand in two tables side by side."""
    rows = lash_rows(view)
    if not rows:
        return (Para("Not read in this job.", "dense"),)
    windows = dict.fromkeys(f"{'intake' if '.in' in c.place else 'exhaust'} {_window(c)}" for c in rows)
    below = Para(f"window: {', '.join(windows)}", "dense")
    if len(rows) <= FEW:
        return (_lash_table(view, rows), below)
    half = (len(rows) + 1) // 2
    return (Columns(((_lash_table(view, rows[:half]),), (_lash_table(view, rows[half:]),))), below)


def _lash_table(view: JobRecord, rows: tuple[CharacteristicView, ...]) -> Table:
    cells = tuple(
        (split(c)[1].replace("cylinder", "cyl."), plain(as_found(c), c), _left(c), shim_words(view, c.place))
        for c in rows
    )
    return Table(head=("valve", "found", "set", "shim"), rows=cells, widths=(1.9, 1, 1.9, 1.8), dense=True)


def plain(text: str, c: CharacteristicView) -> str:
    """A size without its unit, where the whole table is in one."""
    return text.removesuffix(f" {c.unit}")


def _left(c: CharacteristicView) -> str:
    if c.verdict in ("not measured", "stale"):
        return "not read since" if c.verdict == "stale" else DASH
    return plain(value(c), c) if c.verdict == "in setting" else f"{plain(value(c), c)}, {c.verdict}"


def _window(c: CharacteristicView) -> str:
    return f"{number(c.low, 2)} – {number(c.high, 2)} {c.unit}"


def lash_figure(view: JobRecord) -> Figure | None:
    """Every lash in its window, before and after; nothing without windows."""
    rows = []
    for c in lash_rows(view):
        if c.low is not None and c.high is not None and c.low < c.high:
            before = c.as_found.value if c.as_found else None
            shim = shim_words(view, c.place).split(" · ")[-1]
            rows.append(LashRow(name=split(c)[1], low=c.low, high=c.high, found=before, left=_as_left(c), shim=shim))
    if not rows:
        return None
    words = "; ".join(f"{split(c)[1]} found {as_found(c)}, left {value(c)}" for c in lash_rows(view))
    return Figure(svg=lash_set(tuple(rows), "lash, as found and as left"), alt=words, width_mm=150)


def _as_left(c: CharacteristicView) -> float | None:
    return None if c.verdict in ("not measured", "stale") else c.value


def unfinished(view: JobRecord) -> tuple[str, ...]:
    """That the job still has open ends, said before anything else."""
    n = len(view.open)
    return (f"Not finished: readings and signatures still open in this job: {n}.",) if n else ()


def next_due(view: JobRecord) -> tuple[str, ...]:
    """Running in and the next look."""
    hours = view.job.hours
    looks = " and ".join(f"{hours + h:g} h" for h in FIRST_LOOKS_H) if hours is not None else " and ".join(
        f"{h:g} h from now" for h in FIRST_LOOKS_H)  # fmt: skip
    again = [f"{f.name} ({f.retighten})" for f in view.record.fasteners if f.retighten != "never"]
    interval = view.plan("interval")
    due = interval.reasons[:1] if interval is not None and interval.lines else ()
    return (
        f"Recheck at {looks}: lash, oil and filter, coolant, leaks; then by the maker's manual.",
        *(f"By its wear so far: {words}." for words in due),
        *((f"Retighten cold, where the book says so: {', '.join(again)}.",) if again else ()),
        "Running in: warm up gently, neither full load nor long idling in the first two hours, then let it cool fully once.",
        "The maker's manual, local codes and licensed practice come first.",
    )
