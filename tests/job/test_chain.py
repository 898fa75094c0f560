"""The digest chain shows any change before a digest that somebody holds."""

from __future__ import annotations

import hashlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from story import Ledger

from gudgeon.job import chain


def _lines() -> list[str]:
    ledger = Ledger()
    for key, where in (("lash", "c1.ex.left"), ("tip_height", "c1.ex.left"), ("bore_diameter", "c1")):
        ledger.read(key, where)
    ledger.do("cut_seat", "c1.ex.left")
    return ledger.lines


LINES = _lines()
STORED = chain.digests(LINES)


def test_a_digest_is_sha256_of_the_one_before_and_the_line() -> None:
    held = bytes(32)
    for line, digest in zip(LINES, STORED, strict=True):
        held = hashlib.sha256(held + line.encode("utf-8")).digest()
        assert digest == held


def test_an_untouched_ledger_verifies() -> None:
    assert chain.verify(LINES, STORED) == ()
    assert chain.verify(LINES, STORED, against=STORED[1].hex()) == ()


@pytest.mark.parametrize("n", range(len(LINES)))
def test_any_character_of_any_line_changed_is_found_at_its_entry(n: int) -> None:
    for at, was in enumerate(LINES[n]):
        changed = [*LINES]
        changed[n] = LINES[n][:at] + ("x" if was != "x" else "y") + LINES[n][at + 1 :]
        assert [p.where for p in chain.verify(changed, STORED)] == [f"entry {n + 1}"]


@settings(max_examples=200, deadline=None)
@given(n=st.integers(0, len(LINES) - 1), at=st.integers(0, 200), put=st.text(st.characters(codec="utf-8"), max_size=3))
def test_anything_put_into_a_line_is_found(n: int, at: int, put: str) -> None:
    changed = [*LINES]
    changed[n] = LINES[n][:at] + put + LINES[n][at:]
    assert bool(chain.verify(changed, STORED)) is (changed != LINES)


def test_a_line_changed_with_its_digest_is_found_at_the_next() -> None:
    changed, stored = [*LINES], [*STORED]
    changed[1] = changed[1].replace("tip_height", "tip_heighd")
    stored[1] = chain.link(stored[0], changed[1])
    assert [p.where for p in chain.verify(changed, stored)] == ["entry 3"]


def test_lines_exchanged_are_found() -> None:
    changed = [LINES[1], LINES[0], *LINES[2:]]
    assert {p.where for p in chain.verify(changed, STORED)} >= {"entry 1", "entry 2"}


def test_a_ledger_rewritten_whole_is_found_only_against_a_digest_held_elsewhere() -> None:
    rewritten = [line.replace("cut_seat", "lap_valve") for line in LINES]
    digests = chain.digests(rewritten)
    assert chain.verify(rewritten, digests) == ()
    (problem,) = chain.verify(rewritten, digests, against=STORED[-1].hex())
    assert problem.where == "ledger"


def test_a_tail_cut_off_is_found_against_the_last_digest() -> None:
    assert chain.verify(LINES[:-1], STORED[:-1]) == ()
    (problem,) = chain.verify(LINES[:-1], STORED[:-1], against=STORED[-1].hex())
    assert "cut" in str(problem)


@pytest.mark.parametrize("length", [8, 16, 64])
def test_against_takes_the_beginning_of_a_digest_in_any_case(length: int) -> None:
    assert chain.verify(LINES, STORED, against=STORED[2].hex()[:length].upper()) == ()
    other = STORED[2].hex()[: length - 1] + ("0" if STORED[2].hex()[length - 1] != "0" else "1")
    assert len(chain.verify(LINES, STORED, against=other)) == 1
