"""All plans of a job, in an order in which each may look at those before it."""

from __future__ import annotations

from gudgeon.plans.catalogue import PLANNERS
from gudgeon.plans.shape import Given, Plan
from gudgeon.problem import Refused


def plan_all(given: Given) -> tuple[Plan, ...]:
    """Every plan that the job's scope asks for."""
    done: tuple[Plan, ...] = ()
    for planner in PLANNERS.values():
        if given.state.scope not in planner.scopes:
            continue
        try:
            plan = planner.plan(given, done)
        except Refused as refused:
            reasons = tuple(problem.what for problem in refused.problems)
            plan = Plan(key=planner.key, name=planner.name, state="impossible", reasons=reasons)
        done = (*done, plan)
    return done
