"""Every layout that words can name expands to slots, features and places that a technician would call by these names."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.anatomy import expand, say, surfaces_of
from gudgeon.audit.catalogue import audit
from gudgeon.book.parse import parse_book
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.problem import Refused
from gudgeon.workbench.layouts import (
    BLOCKS,
    BORES,
    CAMS,
    COOLING,
    DRIVEN,
    FOLLOWERS,
    HOLDERS,
    VALVES,
    book_of_layout,
    layout_named,
    places_of,
)

TRAINS = [
    *product([f for f in FOLLOWERS if f != "pushrod"], DRIVEN, CAMS),
    ("pushrod", "", ""),
]
EVERY = [", ".join(w for w in (block, valves, *train, holder) if w)
         for block, valves, train, holder in product(BLOCKS, VALVES, TRAINS, HOLDERS)]  # fmt: skip


def test_there_are_as_many_layouts_as_the_words_make() -> None:
    assert len(EVERY) == len(set(EVERY)) == 7 * 3 * (6 * 3 * 2 + 1) * 2


def test_every_layout_expands_to_places_with_names_of_their_own() -> None:
    for name in EVERY:
        engine = expand(layout_named(name))
        single = engine.layout.cylinders == 1
        said = [say(slot, single=single) for slot in engine.slots]
        assert len(set(said)) == len(said), name
        places = [say(place, single=single) for place in engine.places]
        assert len(set(places)) == len(places) and not any("." in p or "c1" in p for p in places), name


def test_every_layout_has_the_slots_its_words_mean() -> None:
    for name in EVERY:
        engine = expand(layout_named(name))
        block, valves, follower = name.split(", ")[:3]
        n, per = BLOCKS[block][0], sum(VALVES[valves])
        kinds = [slot.kind for slot in engine.slots.values()]
        assert (kinds.count("piston"), kinds.count("valve")) == (n, n * per), name
        assert kinds.count("shim") == (0 if "screw" in follower or follower == "pushrod" else n * per), name
        assert kinds.count("pushrod") == (n * per if follower == "pushrod" else 0), name
        assert kinds.count("chain") == (1 if "chain" in name or "belt" in name else 0), name
        assert len(engine.heads) == (2 if block.startswith("v") else 1), name
        banks = len(engine.heads)
        cams = 1 if follower == "pushrod" else banks * (1 if "one-cam" in name else 2)
        assert len(engine.cams) == cams, name


@given(name=st.sampled_from(EVERY), bore=st.sampled_from(BORES), cooling=st.sampled_from(COOLING), lifted=st.booleans())
def test_all_kinds_look_at_and_work_on_what_is_there(name: str, bore: str, cooling: str, lifted: bool) -> None:
    engine = expand(layout_named(f"{name}, {bore}, {cooling}" + (", decompressor" if lifted else "")))
    assert (engine.layout.bore, engine.layout.liquid) == (bore, cooling == "liquid")
    assert len(engine.layout.decompressor) == (engine.layout.cylinders if lifted else 0)
    for kind in MEASURANDS.values():
        for where in kind.where(engine):
            for feature in kind.observes(engine, where):
                slot = getattr(feature, "slot", "")
                assert not slot or slot in engine.slots, (kind.key, where)
                assert not slot or feature.name in surfaces_of(engine.slots[slot].kind), (kind.key, where, feature)
    for characteristic in CHARACTERISTICS.values():
        for where in characteristic.where(engine):
            for want in characteristic.wants:
                assert want.at(engine, where) in MEASURANDS[want.measurand].where(engine), (characteristic.key, where)
    for operation in OPERATIONS.values():
        for where in operation.where(engine):
            assert where in engine.places or where in engine.slots, (operation.key, where)
            for feature in operation.disturbs(engine, where, {}):
                assert not getattr(feature, "slot", "") or feature.slot in engine.slots, (operation.key, where)


@given(name=st.sampled_from(EVERY))
def test_the_book_of_a_layout_reads_back_and_has_no_error(name: str) -> None:
    text = book_of_layout(name, "Brackley 300")
    assert parse_book(text).layout == layout_named(name)
    assert [f for f in audit(text, None) if f.severity == "error"] == []


def test_names_are_those_a_technician_says() -> None:
    assert "cylinder 2 intake left" in places_of("vtwin, 4v, finger")
    assert "intake right" in places_of("single 4v bucket-under")
    assert "cylinder 4 exhaust" in places_of("four, 3v, rocker-shim")
    assert "cam rear intake" in places_of("vfour, 4v, bucket-over")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("", "does not say its cylinders"),
        ("single, 4v", "does not say its followers"),
        ("single, 4v, fingr", "fingr is no word of a layout. Did you mean finger?"),
        ("single, twin, 4v, finger", "single and twin are two cylinders"),
        ("single, 2v, pushrod, belt", "belt is none of it"),
        ("single, 2v, pushrod, two-cams", "two-cams is none of it"),
    ],
)
def test_words_that_make_no_layout_are_refused(words: str, said: str) -> None:
    with pytest.raises(Refused) as refused:
        layout_named(words)
    assert said in str(refused.value)
