"""What is done about everything that failed, as one set for the whole engine: the cheapest answers one by one are dearer.

It is chosen before the fate of each part is said, so that order, estimate and shop follow one and the same set.
"""

from __future__ import annotations

from gudgeon.plans.repair_choice import Choice, choose, lines_of
from gudgeon.plans.shape import Given, Plan, Planner
from gudgeon.problem import said

KEY, NAME = "repairs", "repairs, chosen together"


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """The best set and at most two others; nothing bought here, the fates of the parts do that."""
    found = choose(given)
    if not found.failed:
        words = said("no part and no fit failed: there is nothing to choose")
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(words,))
    if not found.choices:
        return Plan(key=KEY, name=NAME, state="impossible", reasons=found.reasons)
    best = found.choices[0]
    seqs = {s for v in given.judged.verdicts if v.address in found.failed for s in v.rests_on}
    count = said("{n} failed; the best set costs {price:.2f}", n=len(found.failed), price=best.price)
    state = "nothing to do" if decided(given, best) else "ready"
    return Plan(key=KEY, name=NAME, state=state, lines=lines_of(given, found), rests_on=tuple(sorted(seqs)),  # type: ignore[arg-type]
                reasons=(count, *found.reasons))  # fmt: skip


def decided(given: Given, best: Choice) -> bool:
    """Whether somebody has decided about every part of the set."""
    slots = [*best.renewed, *(w.rsplit(" ", 1)[1] if " " in w else w for w in best.worked)]
    known = given.state.dispositions
    parts = [given.state.slots.get(slot) or "" for slot in slots]
    return all(part in known or not part.startswith("orig:") for part in parts)


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("cylinder", "head out", "whole top end"))
