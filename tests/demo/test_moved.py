"""One value typed otherwise moves everything that rests on it; other units and another name move nothing."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

import pytest
from msgspec.structs import replace
from telling import EL, IL, Retyped, Told, tell, whole, words_of

from gudgeon.demo.story import NUMBER
from gudgeon.job.entries import Body, Reading
from gudgeon.workbench.papers import paper

CHAPTER = "settled"


def typed_otherwise(measurand: str, where: str, text: str, instead: str) -> Callable[[Body], Body]:
    """One reading, typed otherwise."""

    def changed(body: Body) -> Body:
        it = isinstance(body, Reading) and (body.measurand, body.where, body.text) == (measurand, where, text)
        return replace(body, text=instead) if it else body

    return changed


@pytest.fixture(scope="module")
def moved() -> Told:
    """The exhaust left guide 0.03 wider at one place: it passes, and its fit does not."""
    return tell(Retyped(typed_otherwise("guide_bore", EL, "5.028", "5.058")), CHAPTER)


@pytest.fixture(scope="module")
def as_told() -> Told:
    return tell(Retyped(), CHAPTER)


def test_the_verdicts_that_rest_on_it_move_and_no_other(moved: Told, as_told: Told) -> None:
    was, now = as_told.words(CHAPTER), moved.words(CHAPTER)
    assert {a: (was[a], now[a]) for a in was if was[a] != now[a]} == {
        f"guide_bore@{EL}": (("5.028", "serviceable"), ("5.058", "serviceable")),
        f"stem_guide_clearance@{EL}": (("0.072", "serviceable"), ("0.102", "past limit")),
    }


def test_the_plan_and_the_order_move(moved: Told, as_told: Told) -> None:
    def of(told: Told) -> tuple[set[str], set[str]]:
        parts, order = told.view(CHAPTER).plan("dispositions"), told.view(CHAPTER).plan("order")
        assert parts is not None
        assert order is not None
        return {line.where for line in parts.lines if line.what == "renew"}, {b.number for b in order.buys}

    (renewed_was, bought_was), (renewed, bought) = of(as_told), of(moved)
    assert renewed - renewed_was == {f"{EL}/guide"}
    assert bought - bought_was == {"371-1111"}


def test_the_hand_over_record_moves(moved: Told, as_told: Told) -> None:
    was, now = (words_of(paper(told.bench, NUMBER, "hand_over")) for told in (as_told, moved))
    assert "0.102" in now
    assert "0.102" not in was


def test_a_stem_worn_further_condemns_its_valve(as_told: Told) -> None:
    told = tell(Retyped(typed_otherwise("stem_diameter", EL, "4.956", "4.926")), "measured")
    found = told.view("measured").at(f"stem_diameter@{EL}")
    assert found is not None
    assert (found.said, found.verdict) == ("4.926", "past limit")
    plan = told.view("measured").plan("order")
    assert plan is not None
    assert "371-1302" in {b.number for b in plan.buys}


def in_inches(body: Body) -> Body:
    """The same length in inches, as exactly as it can be typed."""
    if not isinstance(body, Reading) or body.unit not in ("mm", "µm"):
        return body
    one = Decimal("25.4") if body.unit == "mm" else Decimal("25400")
    text = re.sub(r"\d+(\.\d+)?", lambda m: f"{Decimal(m[0]) / one:.15f}", body.text)
    return replace(body, text=text, unit="in")


def test_the_whole_story_in_inches_moves_no_word() -> None:
    told, plain = tell(Retyped(in_inches)), whole()
    readings = [e.typed.body for e in told.after["handed over"].given.state.entries]
    assert not any(isinstance(b, Reading) and b.unit in ("mm", "µm") for b in readings)
    for chapter in plain.after:
        was, now = plain.words(chapter), told.words(chapter)
        assert {a: (w, now[a]) for a, w in was.items() if w[1] != now[a][1]} == {}, chapter
    assert [h.state for h in told.view("handed over").holds] == [h.state for h in plain.view("handed over").holds]


def test_another_name_moves_nothing_but_the_name(as_told: Told) -> None:
    told = tell(Retyped(book=lambda text: text.replace("Corrie 371", "Moraine 7")), CHAPTER)
    assert told.words(CHAPTER) == as_told.words(CHAPTER)
    text = words_of(paper(told.bench, NUMBER, "hand_over"))
    assert "Moraine 7" in text
    assert "Corrie" not in text


@pytest.mark.parametrize("text", ["0", "0.001", "0.003"])
def test_a_new_part_that_runs_true_is_never_too_close_to_nothing(text: str) -> None:
    told = tell(Retyped(typed_otherwise("stem_runout", IL, "0.004", text)), "sent to the shop")
    found = told.view("sent to the shop").at(f"stem_runout@{IL}")
    assert found is not None
    assert (found.verdict, found.low, found.high, found.notes) == ("as new", None, 0.010, ())
