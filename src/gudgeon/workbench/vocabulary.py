"""The names that the core gives to things, for a face that says them in another language."""

from __future__ import annotations

from collections.abc import Iterator

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.plans.catalogue import PLANNERS
from gudgeon.routes.holds import HOLDS
from gudgeon.routes.scopes import SCOPES
from gudgeon.workbench.starting import FOLLOWERS

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
    *("fresh", "retracted", "ordered", "fitted", "needed", "new, in use", "lash after two turns"),
    *("cold", "warm", "wet", "top", "bottom", "along the pin", "across the pin", "keep", "renew"),
    *(
        "chain side",
        "cam side",
        "first",
        "second",
        "oil",
        "cover",
        "holder",
        "sprocket",
        "chain",
        "tensioner",
        "gasket",
    ),
    *("head gasket", "cam", "cams", "small end", "big end", "crankcase", "follower shaft", "dowels", "valve spring"),
    *("intake side", "exhaust side", "limit strip", "style", "wear", "lash set", "face"),
    *("spring tester", "micrometer", "bore gauge", "feeler", "caliper", "dial"),
    # What levels of the engine are called, and where they stand.
    *(
        "cover, plug",
        "cams, holders",
        "followers, shims",
        "push-rods, lifters",
        "springs, keepers",
        "head, guides, seats",
    ),
    *("gasket, dowels", "piston, rings, pin", "crankcase mouth", "rockers, screws at the cam", "rockers, screws"),
    *("rockers, shims", "buckets, shims", "now", "stays", "later", "decide", "out", "shop", "stop", "close", "good"),
    *("in", "ex", "not in this job", "still to measure", "to measure", "to read again", "to decide", "to be machined"),
    *("all measured and good", "of", "and", "least", "most", "measure", "order", "wait", "wait for", "wait for order"),
    *(
        "reading",
        "readings",
        "place",
        "places",
        "line",
        "lines",
        "more kinds",
        "then",
        "then sign",
        "can be ordered now",
    ),
    *("rag in, counted", "rags in, counted", "work before them", "handed over", "write the hand-over record"),
    *("use again", "clean", "machine", "measure again", "settles it", "with", "entry", "page", "book", "parts", "work"),
    *("enters", "does not enter", "found", "note", "taken out", "fitted", "exchanged", "received", "hold", "signed"),
    *("not turned", "joint", "stage", "edition", "failed", "to renew", "to machine", "to measure again", "used again"),
    *(
        "best",
        "new",
        "days",
        "cuts",
        "here in",
        "the best set costs",
        "no set of the same parts costs less",
        "lower bound",
    ),
)


def _names() -> Iterator[str]:
    yield from _SINGLE
    yield from (m.name for m in MEASURANDS.values())
    yield from (c.name for c in CHARACTERISTICS.values())
    yield from (key.replace("_", " ") for key in CHARACTERISTICS)
    for operation in OPERATIONS.values():
        yield from (operation.name, operation.did)
    for hold in HOLDS.values():
        yield from (hold.name, hold.hides, *hold.asks)
    yield from (*SCOPES, *(name for name, _keys in SCOPES.values()))
    yield from (planner.name for planner in PLANNERS.values())
    yield from (follower.name for follower in FOLLOWERS)


NAMES = tuple(dict.fromkeys(name for name in _names() if name))
