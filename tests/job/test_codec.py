"""Entries as text and back: the same bytes kept, earlier versions read, later ones refused by their name."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from nonsense import KINDS, fact

from gudgeon.job import codec
from gudgeon.job.entries import Fact, Note, Reading, Typed
from gudgeon.problem import Refused

ODD = (
    '{"id": "a-1",  "by":"k7","bench":"b1","seen":4,"nth":2,"typed_at":"2031-02-03T08:00:00Z",'
    '"body":{"words":"caf\\u00e9 \\"fact\\": \\"later/9\\"" , "fact":"note/1"}}'
)


class Reading2(Fact, frozen=True, kw_only=True, tag="reading/2"):
    measurand: str
    where: str
    text: str
    unit: str
    gauge: str
    light: str


class Typed2(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    id: str
    typed_at: str
    by: str
    bench: str
    nth: int
    seen: int
    body: Reading2 | Note


class Entry2(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    seq: int
    landed_at: str
    account: str
    typed: Typed2


def typed(body: Any) -> Typed:
    return Typed(id="a-1", typed_at="2031-02-03T08:00:00Z", by="k7", bench="b1", nth=2, seen=4, body=body)


def landed(text: str) -> str:
    return codec.landed_line(text, seq=5, landed_at="2031-02-03T08:00:01Z", account="workshop")


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_fact_comes_back_as_it_was(kind: type[Fact]) -> None:
    @settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
    @given(body=fact(kind))
    def check(body: Fact) -> None:
        text = codec.encode(typed(body))
        assert codec.decode_typed(text) == codec.decode_typed(text.encode()) == typed(body)
        entry = codec.decode(landed(text))
        assert (entry.typed, entry.seq, entry.account) == (typed(body), 5, "workshop")
        assert codec.encode(entry) == landed(text)

    check()


def test_what_the_bench_sent_is_kept_byte_for_byte() -> None:
    line = landed(ODD)
    assert ODD in line
    assert codec.typed_text(line) == ODD
    assert codec.decode(line).typed.body == Note(words='café "fact": "later/9"')
    assert codec.encode(codec.decode(line).typed) != ODD


def test_an_earlier_version_is_brought_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    def from_0(body: codec.Raw) -> codec.Raw:
        return {**body, "fact": "reading/1", "gauge": "G1"}

    def from_1(body: codec.Raw) -> codec.Raw:
        return {**body, "fact": "reading/2", "light": "day"}

    monkeypatch.setattr(codec, "UPCASTS", {"reading/0": from_0, "reading/1": from_1})
    monkeypatch.setattr(codec, "Entry", Entry2)
    monkeypatch.setattr(codec, "_ENTRY", msgspec.json.Decoder(Entry2))
    now = landed(codec.encode(typed(Reading(measurand="lash", where="c1.in", text="0.1", unit="mm", gauge="G1"))))
    before = now.replace("reading/1", "reading/0").replace(',"gauge":"G1"', "")
    wanted = Reading2(measurand="lash", where="c1.in", text="0.1", unit="mm", gauge="G1", light="day")
    assert codec.decode(now).typed.body == wanted
    assert codec.decode(before).typed.body == wanted


@pytest.mark.parametrize("tag", ["reading/2", "smell/1", "note/12"])
def test_a_later_version_is_refused_by_its_name(tag: str) -> None:
    line = landed(codec.encode(typed(Note(words="x")))).replace("note/1", tag)
    with pytest.raises(Refused) as refused:
        codec.decode(line, where="entry 5")
    (problem,) = refused.value.problems
    assert problem.where == "entry 5"
    assert tag in str(problem) and "later Gudgeon" in str(problem)


BROKEN = (
    "",
    "null",
    "7",
    "[1]",
    "{}",
    '{"typed":3}',
    '{"typed":{"body":{"fact":["a"]}}}',
    '{"typed":{"body":[]}}',
    "[" * 50000,
    '{"a":' * 12000,
    '{"id":"\\ud800"}',
    "\ud800",
    b"\xff\xfe",
    ODD[:-3],
    ODD.replace('"nth":2', '"nth":"two"'),
    ODD.replace('"seen":4', '"seen":4,"more":1'),
    ODD.replace("note/1", "reading/1"),
)


@pytest.mark.parametrize("text", BROKEN, ids=lambda text: repr(text)[:40])
def test_what_cannot_be_read_is_refused_and_never_raises_otherwise(text: str | bytes) -> None:
    with pytest.raises(Refused) as refused:
        codec.decode_typed(text, where="here")
    assert [p.where for p in refused.value.problems] == ["here"]


@settings(max_examples=300, deadline=None)
@given(at=st.integers(0, len(ODD) - 1), by=st.characters(codec="utf-8"))
def test_one_wrong_character_is_read_or_refused(at: int, by: str) -> None:
    try:
        codec.decode_typed(ODD[:at] + by + ODD[at + 1 :])
    except Refused as refused:
        assert str(refused)


def test_an_entry_too_large_is_refused_with_its_size() -> None:
    with pytest.raises(Refused, match="65536"):
        codec.decode_typed(codec.encode(typed(Note(words="é" * 40000))))
