"""The route of one engine: its steps, holds and scopes, with what the workshop does, holds and asks beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from gudgeon.anatomy import Anatomy
from gudgeon.own import OwnHold, OwnStep
from gudgeon.routes import holds as trade
from gudgeon.routes import scopes
from gudgeon.routes.holds import ALL, HOLDS, Hold
from gudgeon.routes.steps import LAST_HOLDS, STEPS, Step

#: Where an own hold stands that names no place: no first start before it, and no hand-over where nothing is started.
USUAL_BEFORE = ("H12", "H13")


@lru_cache(maxsize=64)
def holds(anatomy: Anatomy) -> Mapping[str, Hold]:
    """Every hold of this engine by key, each own one before the hold that waits for it."""
    own = anatomy.layout.own.holds
    if not own:
        return HOLDS
    found: dict[str, Hold] = {}
    for key, hold in HOLDS.items():
        waits = tuple(one for one in own if key in _before(one))
        found |= {one.key: _hold(one) for one in waits if one.key not in found}
        found[key] = replace(hold, after=(*hold.after, *(one.key for one in waits)))
    return found | {one.key: _hold(one) for one in own if one.key not in found}


def _before(own: OwnHold) -> tuple[str, ...]:
    return (own.before,) if own.before else USUAL_BEFORE


def _hold(own: OwnHold) -> Hold:
    return Hold(
        key=own.key, name=own.name, hides=own.hides, scopes=own.scopes or ALL, proves=own.proves, ages_with=own.proves
    )


def holds_of(scope: str, anatomy: Anatomy) -> tuple[Hold, ...]:
    """The holds of a scope, in the order in which they are met."""
    every = holds(anatomy)
    return (
        tuple(hold for hold in every.values() if scope in hold.scopes) if every is not HOLDS else trade.holds_of(scope)
    )


def asks_for(scope: str, anatomy: Anatomy) -> tuple[str, ...]:
    """The characteristics a scope asks for on this engine."""
    own = tuple(one.key for one in anatomy.layout.own.measures if not one.scopes or scope in one.scopes)
    return (*scopes.asks_for(scope), *own)


@lru_cache(maxsize=64)
def steps(anatomy: Anatomy) -> tuple[Step, ...]:
    """The steps of this engine in their order, with the own ones and own holds at their places."""
    own = anatomy.layout.own
    found = [_held(step, own.holds) for step in STEPS]
    for one in own.steps:
        at = next((n for n, step in enumerate(found) if step.operation == one.after), len(found) - 1)
        found.insert(at + 1, _held(_step(one, found[at]), own.holds))
    return tuple(found)


def last_holds(anatomy: Anatomy) -> tuple[str, ...]:
    """The holds at the end of the route."""
    return (*_waiting(LAST_HOLDS, anatomy.layout.own.holds), *LAST_HOLDS)


def _held(step: Step, own: tuple[OwnHold, ...]) -> Step:
    """A step with the own holds that stand before it, or before the holds that are met with it."""
    here = tuple(one.key for one in own if one.before == step.operation)
    return replace(
        step,
        before=(*_waiting(step.before, own), *step.before, *here),
        holds=(*_waiting(step.holds, own), *step.holds),
    )


def _waiting(keys: tuple[str, ...], own: tuple[OwnHold, ...]) -> tuple[str, ...]:
    return tuple(one.key for one in own if set(_before(one)) & set(keys))


def _step(own: OwnStep, after: Step) -> Step:
    return Step(operation=own.key, phase=after.phase, scopes=own.scopes or ALL)
