"""The names that the core gives to things, for a face that says them in another language."""

from __future__ import annotations

from collections.abc import Iterator

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.plans.catalogue import PLANNERS
from gudgeon.routes.holds import HOLDS
from gudgeon.routes.scopes import SCOPES

#: What places, parts, states and verdicts are called.
_SINGLE = (
    *(
        "cylinder",
        "intake",
        "exhaust",
        "left",
        "right",
        "middle",
        "front",
        "rear",
        "head",
        "engine",
        "barrel",
        "piston",
    ),
    *("valve", "valves", "spring", "springs", "retainer", "keepers", "stem seal", "guide", "seat", "follower", "shim"),
    *(
        "plug",
        "base gasket",
        "pin",
        "circlips",
        "oil ring",
        "rod",
        "ring",
        "pushrod",
        "lifter",
        "camshaft",
        "cam chain",
    ),
    *("ready", "waits", "impossible", "nothing to do", "open", "passed", "signed against", "undone", "not needed"),
    *("as new", "serviceable", "in setting", "holds", "in line", "past limit", "tight", "loose", "leaks", "off"),
    *("too close to call", "not comparable", "stale", "not measured", "done", "closed", "new", "no gap"),
    *("top", "bottom", "along the pin", "across the pin", "keep", "renew"),
)


def _names() -> Iterator[str]:
    yield from _SINGLE
    yield from (m.name for m in MEASURANDS.values())
    yield from (c.name for c in CHARACTERISTICS.values())
    for operation in OPERATIONS.values():
        yield from (operation.name, operation.did)
    yield from (hold.name for hold in HOLDS.values())
    yield from (*SCOPES, *(name for name, _keys in SCOPES.values()))
    yield from (planner.name for planner in PLANNERS.values())


NAMES = tuple(dict.fromkeys(name for name in _names() if name))
