"""What a machine shop is to do, what it may not, and how far, said before the cut: afterwards nobody puts metal back.

On return the incoming check compares with what was agreed, and where a bound was broken says what is still possible.
"""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.plans.cuts import cuts_of
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.incoming import Check, checks, low_springs, spacer_buys
from gudgeon.plans.shape import Buy, Cut, Given, Line, Plan, Planner
from gudgeon.problem import said

KEY, NAME = "machining", "machining order"


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """The cuts with their bounds, and what came of those that were ordered."""
    evidence = Evidence(given=given)
    cuts, needs, seqs = cuts_of(evidence, earlier)
    back = checks(evidence)
    lines = (
        *(_line(given, cut) for cut in cuts),
        *(line for check in back for line in check.lines),
        *low_springs(evidence, back),
    )
    needs = tuple(dict.fromkeys((*needs, *(n for check in back for n in check.needs))))
    if at_shop(given):
        words = said("the head is at the shop: the incoming check waits for its return")
        return Plan(key=KEY, name=NAME, state="waits", lines=lines, machines=cuts, rests_on=seqs, reasons=(words,))
    buys = spacer_buys(evidence, back)
    if cuts:
        state = "waits" if needs else "ready"
        words = said("bounds wait for readings with the valve to be enclosed") if needs else said(
            "places to be worked: {n}, bounds said before the cut", n=len(cuts))  # fmt: skip
        return Plan(key=KEY, name=NAME, state=state, lines=lines, needs=needs, machines=cuts, rests_on=seqs,  # type: ignore[arg-type]
                    reasons=(words,), buys=buys)  # fmt: skip
    return _after(given, lines, needs, back, buys=buys)


def _after(
    given: Given, lines: tuple[Line, ...], needs: tuple[str, ...], back: tuple[Check, ...], *, buys: tuple[Buy, ...]
) -> Plan:
    """Nothing is left to cut: what the incoming check says."""
    open_ones = [check for check in back if check.broken and not check.decided]
    if open_ones:
        where = ", ".join(say(c.valve, single=given.state.anatomy.layout.cylinders == 1) for c in open_ones)
        words = said("{where}: a bound that was agreed is broken: decide what is still possible", where=where)
        return Plan(key=KEY, name=NAME, state="ready", lines=lines, needs=needs, reasons=(words,), buys=buys)
    if needs:
        words = said("the incoming check waits for tip heights")
        return Plan(key=KEY, name=NAME, state="waits", lines=lines, needs=needs, reasons=(words,), buys=buys)
    words = said("nothing is left to be machined") if back else said("nothing asks for a machine shop")
    return Plan(key=KEY, name=NAME, state="nothing to do", lines=lines, reasons=(words,), buys=buys)


def at_shop(given: Given) -> bool:
    """Whether something was sent out and has not come back."""
    out = [d for d in given.state.done if d.operation in ("sent_out", "came_back")]
    return bool(out) and out[-1].operation == "sent_out"


def _line(given: Given, cut: Cut) -> Line:
    numbers = (("low_mm", cut.low_mm), ("high_mm", cut.high_mm), ("never_over_mm", cut.never_over_mm))
    return Line(where=cut.where, what=cut.what, numbers=numbers, because=cut.bound_because)


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("cylinder", "head out", "whole top end"))
