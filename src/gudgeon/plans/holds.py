"""Where the hold points of a job stand: passed on evidence, signed against it, undone by later work, or open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.job.entries import HoldPassed
from gudgeon.job.state import Evidence
from gudgeon.plans.hold_needs import is_met, needs_of, too_early
from gudgeon.plans.shape import Given
from gudgeon.problem import Said, said
from gudgeon.routes.holds import Hold
from gudgeon.routes.own import holds_of

HoldWord = Literal["open", "passed", "signed against", "undone", "not needed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldStatus:
    """A hold, its word, what it still needs, and the entry that passed it."""

    hold: Hold
    state: HoldWord
    needs: tuple[str, ...]
    reasons: tuple[Said, ...]
    entry: int
    override: str

    @property
    def ready(self) -> bool:
        """Whether it can be signed on its evidence."""
        return not self.needs


def standing(given: Given) -> tuple[HoldStatus, ...]:
    """Every hold of the job's scope."""
    signed: dict[str, Evidence] = {}
    for evidence in given.state.evidence:
        if isinstance(evidence.fact, HoldPassed):
            signed[evidence.fact.hold] = evidence
    found: tuple[HoldStatus, ...] = ()
    for hold in holds_of(given.state.scope, given.state.anatomy):
        found = (*found, _status(given, hold, signed.get(hold.key), found))
    return found


def _status(given: Given, hold: Hold, signed: Evidence | None, before: tuple[HoldStatus, ...]) -> HoldStatus:
    needs = needs_of(given, hold) + (_open(hold, before) if signed is None or not signed.fresh else ())
    needs += too_early(given, hold, signed)
    fact = signed.fact if signed else None
    override = fact.override if isinstance(fact, HoldPassed) else ""
    reasons: tuple[Said, ...] = ()
    state: HoldWord = "open"
    if signed is None and not is_met(given, hold):
        state, needs = "not needed", ()
    elif signed is not None and not signed.fresh:
        state = "undone"
        reasons = tuple(said("undone by entry {n}: {did}", n=r.entry, did=str(r.words)) for r in signed.reasons)
    elif signed is not None:
        state = "signed against" if override else ("undone" if needs else "passed")
    entry = signed.entry.seq if signed else 0
    return HoldStatus(hold=hold, state=state, needs=needs, reasons=reasons, entry=entry, override=override)


def needed(given: Given, hold: Hold) -> tuple[str, ...]:
    """What stands against passing now."""
    return needs_of(given, hold) + (_open(hold, standing(given)) if hold.after else ())


def _open(hold: Hold, before: tuple[HoldStatus, ...]) -> tuple[str, ...]:
    """The holds that stand before this one and are open: they keep it from being signed and undo nothing later."""
    return tuple(
        f"hold {s.hold.key} {s.hold.name}" for s in before if s.hold.key in hold.after and s.state in ("open", "undone")
    )
