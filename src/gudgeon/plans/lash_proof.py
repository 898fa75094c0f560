"""A lash that is good and still not believed: it contradicts what shim, tip height and the lash before it must give.

Then something was done and not written, or written and not done; an engine that passes by a wrong ledger passes by luck.
"""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import window_of
from gudgeon.plans.response import Response, responses
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_items import shim_slots
from gudgeon.problem import Problem, said


def unexplained(given: Given) -> tuple[Response, ...]:
    """Lashes that release and contradict what older evidence expects of them, on valves with shims."""
    windows = {v: w for v in shim_slots(given) if (w := window_of(given, v)) is not None}
    return tuple(r for r in responses(Evidence(given=given), windows) if r.contradicts and r.taken.counts)


def problems(given: Given) -> tuple[Problem, ...]:
    """The same, in words."""
    return tuple(
        Problem(
            where=say(r.valve, single=given.state.anatomy.layout.cylinders == 1),
            what=said(
                "Entry {entry} contradicts: lash {read:.3f} read, {expected} expected with the shim that stands there.",
                entry=r.taken.entry.seq,
                read=r.read.value,
                expected=f"{r.expected.value:.3f}" if r.expected.value > 0 else "no gap",
            ),
            remedy=said("Something was done and not written: write it, read again, or retract the wrong one."),
        )
        for r in unexplained(given)
    )
