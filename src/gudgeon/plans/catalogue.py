"""The planners, in an order in which each may look at those before it: one file and one line each."""

from collections.abc import Mapping

from gudgeon.plans.kinds import (
    base_gasket,
    dispositions,
    estimate,
    interval,
    machining,
    order,
    proof,
    repairs,
    route,
    shims,
)
from gudgeon.plans.shape import Planner

PLANNERS: Mapping[str, Planner] = {
    kind.KIND.key: kind.KIND
    for kind in (
        repairs,
        dispositions,
        machining,
        base_gasket,
        shims,
        order,
        estimate,
        route,
        proof,
        interval,
    )
}
