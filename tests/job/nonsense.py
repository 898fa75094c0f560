"""Every kind of fact, filled with what makes sense and with what does not."""

from __future__ import annotations

from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

import msgspec
from hypothesis import strategies as st
from story import FINGER

from gudgeon.anatomy import expand
from gudgeon.job.entries import Body, Fact, Typed
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.routes.holds import HOLDS

_A = expand(FINGER)
KINDS: tuple[type[Fact], ...] = get_args(Body)
_WORDS = (
    *_A.places,
    *_A.slots,
    *MEASURANDS,
    *OPERATIONS,
    *HOLDS,
    *(f"orig:{slot}" for slot in _A.slots),
    *(f"e{n}" for n in range(12)),
    *(f"part:e{n}" for n in range(6)),
    *(
        "head head",
        "cam.in holder#2",
        "valve",
        "shim",
        "head",
        "0.12/0.13",
        "no gap",
        "55 °C",
        "-1e999",
        "nan",
        "2",
        "",
        "/",
        "part:",
    ),
)
_TEXT = st.sampled_from(_WORDS) | st.text(st.characters(exclude_categories=["Cs"]), max_size=6)
_DETAIL = st.sampled_from(("turns", "count", "untouched", "what", "to")) | _TEXT
_INT = st.integers(-3, 60) | st.integers(-(2**63), 2**63 - 1)


def _value(shape: Any) -> st.SearchStrategy[Any]:
    origin, inside = get_origin(shape), get_args(shape)
    if shape is str:
        return _TEXT
    if shape is int:
        return _INT
    if shape is bool:
        return st.booleans()
    if isinstance(shape, type) and issubclass(shape, msgspec.Struct):
        return st.builds(shape, **{f.name: _value(f.type) for f in msgspec.structs.fields(shape)})
    if origin is Literal:
        return st.sampled_from(inside)
    if origin is tuple:
        return st.lists(_value(inside[0]), max_size=3).map(tuple)
    if origin is dict:
        return st.dictionaries(_DETAIL, _value(inside[1]), max_size=3)
    if origin in (UnionType, Union):
        return st.one_of(*map(_value, inside))
    raise AssertionError(shape)


def fact(kind: type[Fact]) -> st.SearchStrategy[Any]:
    """A fact of this kind."""
    return st.builds(kind, **{f.name: _value(f.type) for f in msgspec.structs.fields(kind)})


def typed(n: int) -> st.SearchStrategy[Typed]:
    """Anything a bench could send as the n-th entry."""
    return st.builds(
        Typed,
        id=st.just(f"e{n}"),
        typed_at=_TEXT,
        by=_TEXT,
        bench=st.sampled_from(("b1", "b2")),
        nth=_INT,
        seen=_INT,
        body=st.one_of(*map(fact, KINDS)),
    )


def ledgers(most: int = 14) -> st.SearchStrategy[tuple[Typed, ...]]:
    """Any ledger up to this length."""
    return st.integers(0, most).flatmap(lambda length: st.tuples(*(typed(n) for n in range(1, length + 1))))
