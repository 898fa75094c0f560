"""What becomes of each part: a part is used again because somebody looked at everything it takes part in, not because nobody did.

A measured breach is never overruled, by no fit, default or wish; what the technician decided otherwise is kept and shown.
"""

from __future__ import annotations

from gudgeon.plans import deciding
from gudgeon.plans.shape import Given, Plan, Planner
from gudgeon.problem import said

KEY, NAME = "dispositions", "what becomes of the parts"


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """One line a part that anything is known of, and for a failed fit what would restore it."""
    fates = deciding.fates(given, deciding.agreed(earlier))
    if not fates:
        words = said("nothing is known of any part yet: nothing was measured, seen or decided")
        return Plan(key=KEY, name=NAME, state="waits", reasons=(words,))
    lines = (*(deciding.line(given, f) for f in fates), *deciding.fit_lines(given, fates))
    needs = tuple(dict.fromkeys(n for f in fates if f.what == "measure again" for n in f.needs))
    to_do = [f for f in fates if f.what in ("renew", "machine") and not f.done]
    state = "ready" if to_do else ("waits" if needs else "nothing to do")
    words = said("{new} to renew, {cut} to machine, {again} to measure again, {kept} used again",
                 new=sum(f.what == "renew" for f in to_do), cut=sum(f.what == "machine" for f in to_do),
                 again=sum(f.what == "measure again" for f in fates), kept=sum(f.what == "reuse" for f in fates))  # fmt: skip
    return Plan(key=KEY, name=NAME, state=state, lines=lines, needs=needs, buys=deciding.buys(given, fates),  # type: ignore[arg-type]
                rests_on=tuple(sorted({s for f in fates for s in f.rests_on})), reasons=(words,))  # fmt: skip


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("cylinder", "head out", "whole top end"))
