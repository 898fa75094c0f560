"""How the fate of a part is found: the hardest of what its sizes, fits, findings, pairs and materials ask for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from gudgeon.anatomy import Anatomy, say
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import Disposition, Finding
from gudgeon.plans.fits import Remedied, ways
from gudgeon.plans.prices import price_of
from gudgeon.plans.remedies import Remedy, What, parts_of, remedies_of, subjects
from gudgeon.plans.shape import Buy, Given, Line, Plan
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Verdict

#: The harder fate wins.
HARDER: tuple[What, ...] = ("reuse", "clean", "measure again", "machine", "renew")
#: Words of a finding that condemn any part, and those that a cut can cure where the material lets it (common practice).
CONDEMNS = ("crack", "broken", "bent", "peel", "chipped", "split", "seized")
CURABLE = ("groove", "pit", "burn", "score", "scratch")
DIRTY = ("carbon", "dirty", "deposit", "rust")
#: What a coated valve and a plated barrel cannot have cured by a cut.
COATED = ("valve",)
PLATED = ("barrel",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fate:
    """What becomes of the part in a slot, and why."""

    slot: str
    part: str
    what: What = "reuse"
    because: tuple[Said, ...] = ()
    needs: tuple[str, ...] = ()
    rests_on: tuple[int, ...] = ()
    decided: str = ""
    done: bool = False
    sure: bool = True
    new: bool = field(default=False)

    def harder(self, what: What, why: Said, *, needs: tuple[str, ...] = (), seqs: Iterable[int] = (),
               sure: bool = True) -> Fate:  # fmt: skip
        """With one more reason: the harder fate counts."""
        worse = HARDER.index(what) > HARDER.index(self.what)
        same = what == self.what
        because = (why,) if worse else ((*self.because, why) if same else self.because)
        return replace(self, what=what if worse else self.what, because=because, needs=(*self.needs, *needs),
                       rests_on=(*self.rests_on, *seqs), sure=sure if worse else self.sure)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """What was chosen for the whole engine: the slots that get a new part, and the work on parts that stay."""

    renewed: frozenset[str] = frozenset()
    worked: frozenset[str] = frozenset()

    def does(self, remedy: Remedy) -> bool:
        """Whether this remedy is part of it."""
        return remedy.slot in self.renewed if remedy.what == "renew" else f"{remedy.words} {remedy.slot}" in self.worked


def agreed(earlier: Iterable[Plan]) -> Agreed:
    """The best set of the repairs that were chosen together."""
    best = next((line for plan in earlier if plan.key == "repairs" for line in plan.lines), None)
    numbers = dict(best.numbers) if best is not None else {}
    split = {key: frozenset(t for t in str(numbers.get(key) or "").split(", ") if t) for key in ("renews", "works")}
    return Agreed(renewed=split["renews"], worked=split["works"])


def fates(given: Given, chosen: Agreed = Agreed()) -> tuple[Fate, ...]:
    """The fate of every part that anything is known of, in the order of the engine's slots."""
    known = _measured(given, _bare(given), chosen)
    known = _seen(given, known)
    known = _by_fits(given, known, chosen)
    known = _springs(given, known)
    known = {slot: _decided(given, fate) for slot, fate in known.items()}
    return tuple(known[slot] for slot in given.state.anatomy.slots if slot in known and _said(given, known[slot]))


def condemned(given: Given) -> dict[str, Fate]:
    """What becomes of parts whatever their sizes say: by what was found, by rule, or because somebody decided so."""
    found = {}
    for slot, fate in _seen(given, _bare(given)).items():
        ruled = _by_rule(given, fate)
        seq, decision = given.state.dispositions.get(fate.part, (0, None))
        if decision is not None and decision.what in ("renew", "machine") and not fate.new:
            done = _was_done(given, ruled, decision, seq)
            ruled = ruled if done else ruled.harder(decision.what, said("decided: {reason}", reason=decision.reason))
        if ruled.what in ("renew", "machine"):
            found[slot] = ruled
    return found


def _bare(given: Given) -> dict[str, Fate]:
    return {
        slot: Fate(slot=slot, part=part, new=not part.startswith("orig:"))
        for slot, part in given.state.slots.items()
        if part
    }


def _said(given: Given, fate: Fate) -> bool:
    """Whether anything is known of it; gaskets, seals and shims have lists of their own."""
    kind = given.state.anatomy.slots[fate.slot].kind
    if kind in ("shim", "head gasket", "base gasket", "stem seal", "circlips"):
        return False
    return bool(fate.because or fate.decided or fate.new)


def _measured(given: Given, known: dict[str, Fate], chosen: Agreed) -> dict[str, Fate]:
    """What sizes and tests say of each part."""
    anatomy = given.state.anatomy
    for verdict in given.judged.verdicts:
        if verdict.verdict == "not measured":
            continue
        fit = len(verdict_kind_wants(verdict, anatomy)) > 1
        slots = parts_of(verdict, anatomy)
        for slot in dict.fromkeys((*slots, *_heads(given, slots, chosen))):
            if slot in known:
                known[slot] = _after(given, known[slot], verdict, chosen, fit=fit)
    return known


def verdict_kind_wants(verdict: Verdict, anatomy: Anatomy) -> tuple[str, ...]:
    """The measurands that a verdict combines."""
    return tuple(dict.fromkeys(w.measurand for w in characteristics(anatomy)[verdict.key].wants))


def _after(given: Given, fate: Fate, verdict: Verdict, chosen: Agreed, *, fit: bool) -> Fate:
    anatomy, seqs = given.state.anatomy, verdict.rests_on
    read_on = subjects(verdict, anatomy)
    first = next((r.slot for r in remedies_of(verdict, anatomy)), "")
    reads = fate.slot in read_on or (not any(read_on) and fate.slot == first)
    words = _words(verdict)
    if verdict.good:
        return fate.harder("reuse", words, seqs=seqs) if reads else fate
    if verdict.bad:
        if fit:
            return fate
        remedies = remedies_of(verdict, anatomy)
        taken = next((r for r in remedies if chosen.does(r)), remedies[0] if remedies else None)
        if taken is not None and not chosen.does(taken) and (head := _comes_along(given, taken.slot, chosen)):
            taken = replace(taken, slot=head, what="renew")
        if taken is not None and taken.slot in chosen.renewed:
            taken = replace(taken, what="renew")
        if taken is not None and taken.slot == fate.slot:
            return fate.harder(taken.what, words, seqs=seqs, sure=True)
        return fate
    if not reads or fit:
        return fate
    return fate.harder("measure again", words, needs=_addresses(given, verdict, fate.slot), seqs=seqs)


def _addresses(given: Given, verdict: Verdict, slot: str) -> tuple[str, ...]:
    """What to read again: the wants of a verdict that look at this part."""
    anatomy = given.state.anatomy
    wants = characteristics(anatomy)[verdict.key].wants
    pairs = zip(wants, subjects(verdict, anatomy), strict=True)
    return tuple(f"{w.measurand}@{w.at(anatomy, verdict.place)}" for w, subject in pairs if subject in ("", slot))


def _words(verdict: Verdict) -> Said:
    limit = ""
    if verdict.low is not None or verdict.high is not None:
        low = f"at least {verdict.low:g}" if verdict.low is not None else ""
        high = f"at most {verdict.high:g}" if verdict.high is not None else ""
        limit = f", {' and '.join(x for x in (low, high) if x)}"
    return said("{name} {value}: {word}{limit}", name=verdict.key.replace("_", " "), value=verdict.said or "",
                word=verdict.verdict, limit=limit if verdict.bad else "")  # fmt: skip


def _seen(given: Given, known: dict[str, Fate]) -> dict[str, Fate]:
    """What was found, what was spoiled, and pairs that were parted."""
    state, slot_of = given.state, {f.part: slot for slot, f in known.items()}
    for evidence in state.evidence:
        slot = slot_of.get(evidence.part, "")
        if isinstance(evidence.fact, Finding) and slot:
            known[slot] = _found(given, known[slot], evidence.fact, evidence.entry.seq)
    for part, seq in state.unusable.items():
        if part in slot_of:
            why = said("work that its material forbids was done to it: no longer usable")
            known[slot_of[part]] = known[slot_of[part]].harder("renew", why, seqs=(seq,))
    for pair in state.pairs:
        for part, other in (pair.parts, pair.parts[::-1]):
            slot = slot_of.get(part, "")
            if pair.broken and slot.endswith("/seat"):
                why = said("was worked to another part, {other}: a pair that is parted is worked again", other=other)
                known[slot] = known[slot].harder("machine", why, seqs=(pair.seq,))
    return known


def _found(given: Given, fate: Fate, finding: Finding, seq: int) -> Fate:
    text = f"{finding.kind} {finding.words}".casefold()
    kind = given.state.anatomy.slots[fate.slot].kind
    why = said("found: {words}", words=finding.words or finding.kind)
    if any(word in text for word in CONDEMNS):
        return fate.harder("renew", why, seqs=(seq,))
    if any(word in text for word in CURABLE):
        forbidden = _uncurable(given, fate.slot, kind)
        if forbidden is not None:
            return fate.harder("renew", why, seqs=(seq,)).harder("renew", forbidden)
        return fate.harder("machine", why, seqs=(seq,))
    return fate.harder("clean", why, seqs=(seq,)) if any(word in text for word in DIRTY) else fate


def _uncurable(given: Given, slot: str, kind: str) -> Said | None:
    """What the material forbids to cut away."""
    layout = given.state.anatomy.layout
    if kind in COATED and layout.side(slot).coated:
        return said("coated: it cannot be ground or lapped")
    if kind in PLATED and layout.bore == "plated":
        return said("plated: it cannot be bored or honed")
    return None


def _comes_along(given: Given, slot: str, chosen: Agreed) -> str:
    """The new part that brings this one with it: a head its seats and guides."""
    parent = given.state.anatomy.slots[slot].parent
    return parent if parent in chosen.renewed and slot not in chosen.renewed else ""


def _heads(given: Given, slots: Iterable[str], chosen: Agreed) -> tuple[str, ...]:
    return tuple(dict.fromkeys(h for s in slots if (h := _comes_along(given, s, chosen))))


def _by_fits(given: Given, known: dict[str, Fate], chosen: Agreed) -> dict[str, Fate]:
    """A failed fit: the cheapest combination that holds, with what is renewed anyway."""
    for verdict in given.judged.verdicts:
        if len(verdict_kind_wants(verdict, given.state.anatomy)) < 2:
            continue
        if verdict.verdict == "too close to call":
            known = _close_fit(given, known, verdict)
        if not verdict.bad:
            continue
        parts = parts_of(verdict, given.state.anatomy)
        together = tuple(s for s in (*parts, *_heads(given, parts, chosen)) if s in chosen.renewed)
        tried = ways(given, verdict)
        anyway = {s for s in parts_of(verdict, given.state.anatomy) if s in known and known[s].what == "renew"}
        best = min((w for w in tried if w.holds and anyway <= set(w.slots)), key=lambda w: w.price or 0.0, default=None)
        for work in (r for r in remedies_of(verdict, given.state.anatomy) if r.what == "machine" and chosen.does(r)):
            if work.slot in known:
                known[work.slot] = known[work.slot].harder("machine", _words(verdict), seqs=verdict.rests_on)
                together = together or (work.slot,)
        slots = together or (best.slots if best else ())
        slots = slots or tuple(r.slot for r in remedies_of(verdict, given.state.anatomy)[:1])
        for slot in slots:
            if slot in known and (slot in chosen.renewed or known[slot].what != "machine"):
                fate = known[slot].harder("renew", _words(verdict), seqs=verdict.rests_on, sure=False)
                known[slot] = replace(fate, sure=known[slot].sure if known[slot].what == "renew" else False)
    return known


def _close_fit(given: Given, known: dict[str, Fate], verdict: Verdict) -> dict[str, Fate]:
    """A fit too close to call is read again, unless one of its parts goes anyway."""
    slots = [s for s in subjects(verdict, given.state.anatomy) if s in known]
    going = [s for s in slots if known[s].what == "renew" or _goes(given, known[s])]
    again = {s: known[s].harder("measure again", _words(verdict), needs=_addresses(given, verdict, s)) for s in slots}
    return known if going else {**known, **again}


def _goes(given: Given, fate: Fate) -> bool:
    decision = given.state.dispositions.get(fate.part)
    return decision is not None and decision[1].what == "renew"


def _springs(given: Given, known: dict[str, Fate]) -> dict[str, Fate]:
    """A weak spring takes its side with it, unless the workshop's rule says one."""
    if given.rules.springs == "one":
        return known
    weak = [s for s, f in known.items() if s.endswith("/spring") and f.what == "renew" and not f.new]
    for slot in weak:
        side = slot.split("/")[0].split(".")[1]
        for other, fate in known.items():
            same = other.endswith("/spring") and other.split("/")[0].split(".")[1] == side
            if same and not fate.new and fate.what != "renew":
                why = said("a weak spring is renewed with all of its side: rule of the workshop")
                known[other] = fate.harder("renew", why)
    return known


def _decided(given: Given, fate: Fate) -> Fate:
    """What the technician decided: kept and shown; only a measured breach stands against it."""
    fate = _by_rule(given, fate)
    seq, decision = given.state.dispositions.get(fate.part, (0, None))
    if decision is None:
        return replace(fate, what="reuse", done=True) if fate.new and fate.what == "reuse" else fate
    what: What = "measure again" if decision.what == "measure_again" else decision.what
    reason = said("decided: {reason}", reason=decision.reason or what)
    if HARDER.index(what) < HARDER.index(fate.what) and fate.what in ("renew", "machine"):
        against = said("decided {what}, but a measured breach is never overruled", what=what)
        return replace(fate, because=(*fate.because, reason, against), decided=what, rests_on=(*fate.rests_on, seq))
    read_since = (
        decision.what == "measure_again" and fate.what != "measure again" and max(fate.rests_on, default=0) > seq
    )
    if read_since or _was_done(given, fate, decision, seq):  # what was read since the work says what becomes of it now
        done = fate.what not in ("renew", "machine")
        return replace(fate, decided=what, done=done, because=(*fate.because, reason), rests_on=(*fate.rests_on, seq))
    return replace(
        fate, what=what, decided=what, sure=True, because=(reason, *fate.because), rests_on=(*fate.rests_on, seq)
    )


def _was_done(given: Given, fate: Fate, decision: Disposition, seq: int) -> bool:
    """Whether a cut that was decided has been made since."""
    if decision.what != "machine":
        return False
    place, work = (
        fate.slot.split("/")[0],
        ("cut_seat", "lap_valve", "skim_head", "skim_barrel", "rebore", "hone", "file_ring_gap"),
    )
    return any(d.entry.seq > seq and d.operation in work and d.where in (place, fate.slot) for d in given.state.done)


def _by_rule(given: Given, fate: Fate) -> Fate:
    """Rings come new whenever the barrel is off."""
    kind, state = given.state.anatomy.slots[fate.slot].kind, given.state
    always = any(p.renew == "always" for p in given.book.parts_in(fate.slot))
    touched = any(str(j) in state.touched_joints for j in _off(given, fate.slot))
    if kind in ("ring", "oil ring") and always and touched and not fate.new:
        return fate.harder("renew", said("by rule: always new with the barrel off"))
    return fate


def _off(given: Given, slot: str) -> tuple[str, ...]:
    cylinder = slot.split("/")[0].split(".")[0]
    return (f"{cylinder} base", f"{cylinder} rings", f"{cylinder} pin")


def line(given: Given, fate: Fate) -> Line:
    """One part in words."""
    numbers = (
        ("part", fate.part),
        ("what", fate.what.replace(" ", "_")),
        ("decided", fate.decided),
        ("done", fate.done),
        ("new", fate.new),
        ("sure", fate.sure),
    )
    in_use = "new, in use" if fate.new else ("worked, in use" if fate.done else "use again")
    words = in_use if fate.what == "reuse" else fate.what
    return Line(where=fate.slot, what=said("{what}", what=words), numbers=numbers, because=fate.because)


def fit_lines(given: Given, known: tuple[Fate, ...]) -> tuple[Line, ...]:
    """For each failed fit at most three ways to restore it, the best first."""
    found = []
    for verdict in given.judged.verdicts:
        if verdict.bad and len(verdict_kind_wants(verdict, given.state.anatomy)) > 1:
            found += [_way_line(given, verdict, way) for way in ways(given, verdict)[:3]]
    return tuple(found)


def _way_line(given: Given, verdict: Verdict, way: Remedied) -> Line:
    parts = " and ".join(slot.split("/")[1] for slot in way.slots)
    what = said("new {parts}: {low:.3f} to {high:.3f}, {word}", parts=parts, low=way.low, high=way.high,
                word="holds over its whole range" if way.holds else "fails over part of its range")  # fmt: skip
    numbers = (
        ("fit", verdict.address),
        ("renews", ", ".join(way.slots)),
        ("low", way.low),
        ("high", way.high),
        ("holds", way.holds),
        ("price", way.price),
    )
    return Line(where=verdict.place, what=what, numbers=numbers, because=(_words(verdict),))


def buys(given: Given, known: tuple[Fate, ...]) -> tuple[Buy, ...]:
    """The parts that are renewed, and those that were: one piece for all the slots it fills."""
    wanted = {f.slot: f for f in known if (f.what == "renew" and not f.done) or f.new}
    found: dict[tuple[str, tuple[str, ...]], Buy] = {}
    for slot, fate in wanted.items():
        own = given.state.parts[fate.part].number if fate.new else ""
        row = given.book.part(own) or next(iter(given.book.parts_in(slot)), None)
        name = row.name if row else say(slot)
        number = row.number if row else own
        group = next((g for g in row.groups() if slot in g), (slot,)) if row else (slot,)
        why = fate.because[0] if fate.because else said("renewed")
        buy = Buy(number=number, name=name, count=1, slots=group, because=why, sure=fate.sure,
                  price=price_of(given, number))  # fmt: skip
        found.setdefault((number, group), buy)
    return tuple(found.values())
