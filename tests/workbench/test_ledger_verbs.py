"""The verbs that write a job: byte for byte, once, in order, on the head that was seen; what is kept in mind is never wrong."""

from __future__ import annotations

import json
from random import Random

import msgspec
import pytest
from tests.workbench.memory import MemoryLibrary
from tests.workbench.shop import BOOK, GAUGES, HAND, JOB, OTHER, SHELF, again, gauge, read, refused, shop

from gudgeon.job import codec
from gudgeon.job.entries import (
    Body,
    Disposition,
    HoldPassed,
    JobClosed,
    JobOpened,
    Note,
    OperationDone,
    PaperIssued,
    PartFitted,
    PartReceived,
    PartsSwapped,
    Retraction,
    ScopeWidened,
    TorqueApplied,
)
from gudgeon.problem import Refused
from gudgeon.workbench.bench import OWN_BENCH, Hand, Workbench, changes
from gudgeon.workbench.ports import OldHead

IN = "c1.in"

# -- what was typed ------------------------------------------------------------------------------------------------------------


def sent(id: str = "11111111-2222-4333-8444-555555555555", text: str = "0.14/0.15", nth: int = 1, seen: int = 3) -> str:
    """What a tablet sends: its own spacing and order of keys, and signs that nobody should touch."""
    return (f'{{ "by":"mära","bench": "tab\\u0031", "nth":{nth},"seen":{seen}, "id":"{id}","typed_at":"2031-01-01T10:00:00.123Z",\n'
            f'  "body":{{"unit":"mm","text":"{text}","gauge":"feel","where":"c1.in","measurand":"lash","fact":"reading/1"}}}}')  # fmt: skip


def test_what_was_typed_is_kept_byte_for_byte_and_lands_once() -> None:
    bench = shop()
    one = bench.land(JOB, sent(), "tablet")
    assert codec.typed_text(bench.ledgers.rows(JOB)[-1].line) == sent()
    two = bench.land(JOB, sent(), "tablet")
    assert (two.seq, two.digest, two.again, one.again) == (one.seq, one.digest, True, False)
    assert bench.verify(JOB) == () and bench.verify(JOB, one.digest.hex()) == ()


def test_the_same_id_with_other_bytes_is_refused_and_the_first_stays() -> None:
    bench = shop()
    bench.land(JOB, sent(), "tablet")
    before = bench.ledgers.rows(JOB)
    for other in (sent(text="0.15/0.16"), sent().replace("\n", " ")):
        with pytest.raises(Refused, match="other bytes"):
            bench.land(JOB, other, "tablet")
    assert bench.ledgers.rows(JOB) == before


@pytest.mark.parametrize("text", ["", "{}", "[]", "nonsense", sent().replace("reading/1", "reading/9"),
                                  sent().replace('"nth":1', '"nth":"one"'),
                                  sent().replace('"unit"', '"colour":"red","unit"'), "[" * 5000, sent(text="x" * 70_000)])  # fmt: skip
def test_what_is_no_entry_is_refused(text: str) -> None:
    bench = shop()
    before = bench.ledgers.rows(JOB)
    with pytest.raises(Refused):
        bench.land(JOB, text, "tablet")
    assert bench.ledgers.rows(JOB) == before


def test_a_job_that_is_not_there() -> None:
    bench = shop()
    for verb in (bench.view, bench.verify, bench.loaded, bench.measure):
        with pytest.raises(Refused, match="no such job"):
            verb("nowhere")
    with pytest.raises(Refused, match="no such job"):
        bench.record("nowhere", [Note(words="x")], HAND)
    with pytest.raises(Refused, match="no entry 99"):
        bench.retract(JOB, 99, "slip", HAND)


def test_each_bench_counts_its_own_and_says_what_it_had_seen() -> None:
    bench = shop()
    for n, hand in enumerate((HAND, OTHER, OTHER, HAND, OTHER)):
        bench.record(JOB, [Note(words=str(n))], hand)
    bench.record(JOB, [read("lash", IN, "0.14/0.15", "feel")], OTHER)
    typed = [e.typed for e in bench.loaded(JOB).entries]
    assert [(t.bench, t.nth) for t in typed] == [
        ("north", 1), ("north", 2), ("north", 3), ("north", 4), ("south", 1), ("south", 2), ("north", 5), ("south", 3),
        (OWN_BENCH, 1), ("south", 4)]  # fmt: skip
    assert [t.seen for t in typed] == [*range(9), 8], "the reading was typed before its gauge was pinned for it"


def test_a_gauge_is_pinned_once_at_its_first_use() -> None:
    bench = shop()
    bench.record(JOB, [read("lash", v, "0.14/0.15", "feel") for v in (IN, "c2.in")], HAND)
    facts = [e.typed.body for e in bench.loaded(JOB).entries[3:]]
    assert [type(f).__name__ for f in facts] == ["GaugePinned", "Reading", "Reading"]
    assert bench.shelf().gauge("feel").pinned() == facts[0].card  # type: ignore[union-attr]


def test_an_order_not_known_between_two_benches_is_said() -> None:
    bench = shop()
    head = bench.ledgers.head(JOB).seq
    bench.record(JOB, [OperationDone(operation="open_cam_holder", where="cam.in")], HAND)
    bench.land(JOB, sent(seen=head), "tablet")
    lash = bench.view(JOB).at(f"lash@{IN}")
    assert lash is not None and lash.verdict == "stale" and "order not known" in lash.reasons[0].words


# -- what was decided ------------------------------------------------------------------------------------------------------------

DECIDED: tuple[Body, ...] = (
    HoldPassed(hold="H0"), Disposition(part=f"orig:{IN}/valve", what="renew", reason="worn"), ScopeWidened(scope="head out"),
    PaperIssued(paper="job_card", content="0" * 64, of=3), JobClosed(),
)  # fmt: skip


@pytest.mark.parametrize("body", DECIDED, ids=lambda b: type(b).__name__)
def test_a_decision_on_an_old_head_is_refused_and_names_what_arrived(body: Body) -> None:
    bench = shop()
    typed = bench.typed(JOB, body, HAND)
    bench.record(JOB, [Note(words="coolant is milky")], OTHER)
    before = bench.ledgers.rows(JOB)
    with pytest.raises(OldHead) as caught:
        bench.land(JOB, codec.encode(typed), "local")
    assert caught.value.head == 4 and bench.ledgers.rows(JOB) == before
    assert "Since entry 3 the job has gone on to entry 4: 4 note: coolant is milky" in str(caught.value)
    bench.record(JOB, [body], HAND)


def test_a_decision_on_a_head_that_is_no_more_says_that_a_copy_was_put_back() -> None:
    bench = shop()
    typed = msgspec.structs.replace(bench.typed(JOB, JobClosed(), HAND), seen=40)
    with pytest.raises(OldHead, match="a copy was put back"):
        bench.land(JOB, codec.encode(typed), "local")


def test_ones_own_slip_can_be_taken_back_at_any_time_another_hand_s_only_on_the_head() -> None:
    bench = shop()
    bench.record(JOB, [read("lash", IN, "0.14/0.15", "feel")], HAND)
    own, work = bench.entry_id(JOB, 5), OperationDone(operation="open_cam_holder", where="cam.in")
    bench.record(JOB, [work], HAND)
    bench.record(JOB, [Note(words="meanwhile")], OTHER)

    def retract(target: str, hand: Hand) -> None:
        typed = msgspec.structs.replace(bench.typed(JOB, Retraction(entry=target, reason="slip"), hand), seen=5)
        bench.land(JOB, codec.encode(typed), "local")

    with pytest.raises(OldHead):
        retract(own, OTHER)
    with pytest.raises(OldHead):
        retract(bench.entry_id(JOB, 6), HAND)
    retract(own, HAND)
    assert bench.view(JOB).at(f"lash@{IN}").verdict == "not measured"  # type: ignore[union-attr]


def test_the_first_that_is_refused_stops_the_rest() -> None:
    bench = shop()
    with pytest.raises(Refused):
        bench.record(JOB, [Note(words="one"), read("lash", "c9", "0.1", "feel"), Note(words="three")], HAND)
    assert [e.typed.body for e in bench.loaded(JOB).entries[3:]] == [Note(words="one")]


# -- retraction ---------------------------------------------------------------------------------------------------------------------


def worked_job() -> Workbench:
    bench = shop("head out")
    bench.record(JOB, [read("lash", IN, "0.14/0.15", "feel"), OperationDone(operation="open_cam_holder", where="cam.in"),
                       *(read("stem_diameter", IN, "5.450", "mic", f"{h} {a}") for h in ("top", "middle", "bottom") for a in "xy"),
                       PartReceived(kind="valve"), HoldPassed(hold="H0")], HAND)  # fmt: skip
    bench.record(JOB, [PartFitted(part=bench.loaded(JOB).entries[-2].typed.id, slot=f"{IN}/valve")], HAND)
    return bench


@pytest.mark.parametrize("seq", [3, 5, 6, 9, 14, 15, 16])
def test_the_dry_run_of_a_retraction_writes_nothing_and_is_what_happens(seq: int) -> None:
    bench = worked_job()
    before, rows = bench.view(JOB), bench.ledgers.rows(JOB)
    said = bench.if_retracted(JOB, seq)
    assert bench.ledgers.rows(JOB) == rows and bench.view(JOB) == before and again(bench).view(JOB) == before
    bench.retract(JOB, seq, "typed in error", HAND)
    assert said == changes(before, bench.view(JOB))
    assert any(line.startswith(f"entry {seq},") for line in said)


def test_the_dry_run_refuses_what_the_retraction_would_refuse() -> None:
    bench = worked_job()
    for seq in (1, 2):
        with pytest.raises(Refused, match="cannot be retracted"):
            bench.if_retracted(JOB, seq)


def test_a_retraction_retracted_brings_everything_back() -> None:
    bench = worked_job()
    before = bench.view(JOB)
    bench.retract(JOB, 6, "slip", HAND)
    assert bench.view(JOB).characteristics != before.characteristics
    bench.retract(JOB, bench.ledgers.head(JOB).seq, "it was so", HAND)
    assert bench.view(JOB).characteristics == before.characteristics


# -- what is kept in mind ------------------------------------------------------------------------------------------------------------


def test_a_ledger_that_was_put_back_is_read_anew() -> None:
    bench = worked_job()
    rows, early = vars(bench.ledgers)["rows_of"], bench.ledgers.rows(JOB)[:8]
    late = bench.view(JOB)
    rows[JOB] = list(early)
    assert bench.view(JOB) == again(bench).view(JOB) != late and bench.view(JOB).ledger.head == 8
    bench.record(JOB, [Note(words="another story")], OTHER)
    bench.record(JOB, [Note(words="and longer") for _ in range(12)], OTHER)
    assert bench.view(JOB) == again(bench).view(JOB) and bench.view(JOB).ledger.verified


def test_a_gauge_put_on_the_shelf_is_offered_at_once() -> None:
    bench = shop("head out")
    points = [f"{h} {a}" for h in ("top", "middle", "bottom") for a in "xy"]
    bench.record(JOB, [read("stem_diameter", IN, "5.4405", "mic", p) for p in points], HAND)
    before = bench.view(JOB).at(f"stem_diameter@{IN}")
    bench.put_shelf(SHELF + GAUGES + gauge("fine", "micrometer", error="0.0001 mm"))
    after = bench.view(JOB).at(f"stem_diameter@{IN}")
    assert before is not None and after is not None
    assert "fine" in {s.gauge for s in after.settles} - {s.gauge for s in before.settles}


def test_a_line_altered_in_the_store_is_seen_and_the_rest_still_shows() -> None:
    bench = worked_job()
    kept = vars(bench.ledgers)["rows_of"][JOB]
    kept[4] = type(kept[4])(seq=5, line=kept[4].line.replace("0.14", "0.24"), digest=kept[4].digest)
    seen = again(bench).view(JOB)
    assert not seen.ledger.verified and bench.verify(JOB)[0].where.startswith("entry 5")
    assert len(seen.entries) == len(kept)


def test_a_line_that_nobody_can_read_is_a_problem_at_its_number() -> None:
    bench = worked_job()
    kept = vars(bench.ledgers)["rows_of"][JOB]
    kept[4] = type(kept[4])(seq=5, line="{", digest=kept[4].digest)
    seen = again(bench).view(JOB)
    assert any(p.where == "entry 5" for p in seen.problems) and seen.at(f"lash@{IN}") is not None


def _any(rng: Random, bench: Workbench) -> Body:
    valve, ring = rng.choice(("c1.in", "c1.ex", "c2.in", "c2.ex")), rng.choice(("cam.in", "cam.ex"))
    point = rng.choice(("top x", "middle y", "bottom y"))
    entries = bench.loaded(JOB).entries
    parts = [e.typed.id for e in entries if isinstance(e.typed.body, PartReceived)]
    return rng.choice((
        read("lash", valve, f"0.{rng.randrange(10, 30)}", "feel"),
        read("stem_diameter", valve, f"5.4{rng.randrange(30, 80)}", "mic", point),
        read("guide_bore", valve, f"5.4{rng.randrange(80, 99)}", "hole", point),
        OperationDone(operation=rng.choice(("open_cam_holder", "tighten_cam_holder")), where=ring),
        OperationDone(operation="cut_seat", where=valve),
        TorqueApplied(joint=f"{ring} holder", stage=1, of=1, setting="10", unit="N·m", wrench="W"),
        OperationDone(operation="turn_forwards", where="engine"),
        PartsSwapped(slot="c1.in/shim", other="c2.in/shim"),
        PartReceived(kind="valve"),
        PartFitted(part=rng.choice(parts or ["none"]), slot=f"{valve}/valve"),
        Retraction(entry=rng.choice(entries).typed.id, reason="slip"),
        HoldPassed(hold="H0"), HoldPassed(hold="H10", override="trusted"), ScopeWidened(scope="head out"), Note(words="hm"),
    ))  # fmt: skip


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_view_is_that_of_a_fresh_workbench_after_every_entry_of_a_random_job(seed: int) -> None:
    rng, bench = Random(seed), shop()
    landed = 0
    for n in range(40):
        if n == 20:
            bench.put_shelf(SHELF + GAUGES.replace("0.003 mm", "0.006 mm"))
        try:
            bench.record(JOB, [_any(rng, bench)], rng.choice((HAND, OTHER)))
            landed += 1
        except Refused:
            pass
        assert bench.view(JOB) == again(bench).view(JOB)
    assert landed > 20


def test_with_every_kept_thing_dropped_but_rows_and_books_the_json_is_the_same() -> None:
    bench = worked_job()
    bare = shop()
    bare.ledgers, bare.library = bench.ledgers, MemoryLibrary()
    for text in (t for _n, _e, t in vars(bench.library)["texts"].values()):
        bare.add_book(text)
    bare.put_shelf(SHELF + GAUGES)
    vars(bare)["_kept"].clear()
    assert msgspec.json.encode(bare.view(JOB)) == msgspec.json.encode(bench.view(JOB))


# -- the read model as JSON --------------------------------------------------------------------------------------------------------

KEYS = {
    "": {"format", "job", "ledger", "characteristics", "parts", "holds", "plans", "papers", "next", "problems"},
    "job": {"number", "engine_number", "hours", "state", "book"},
    "book": {"name", "edition", "sha256"},
    "ledger": {"head", "digest", "verified"},
    "characteristics": {"address", "name", "unit", "value", "u", "low", "high", "new", "page", "probability", "verdict", "fresh",
                        "reasons", "points", "rests_on", "gauges", "budget", "settles", "as_found"},
    "points": {"wanted", "fresh"}, "budget": {"source", "u"}, "as_found": {"value", "verdict", "rests_on"},
    "reasons": {"entry", "feature", "how", "words"}, "parts": {"slot", "part", "out"}, "holds": {"hold", "state", "needs"},
    "plans": {"key", "state", "lines", "needs", "rests_on", "reasons"}, "papers": {"paper", "entry", "superseded"},
    "next": {"do", "address"},
}  # fmt: skip


def test_the_json_has_every_key_it_promises_always() -> None:
    bench = worked_job()
    bench.record(
        JOB,
        [read("stem_diameter", "c2.in", "5.47", "mic", "top x"), PaperIssued(paper="job_card", content="0" * 64, of=3)],
        HAND,
    )
    seen = json.loads(msgspec.json.encode(bench.view(JOB)))
    found: set[str] = set()

    def look(name: str, thing: object) -> None:
        if isinstance(thing, list):
            for each in thing:
                look(name, each)
        elif isinstance(thing, dict):
            if name in KEYS and not (name == "reasons" and "words" not in thing):
                assert KEYS[name] <= set(thing), f"{name} lacks {KEYS[name] - set(thing)}"
                found.add(name)
            for key, value in thing.items():
                look(key, value)

    look("", seen)
    assert found == set(KEYS) and seen["format"] == "job/1"
    assert {c["verdict"] for c in seen["characteristics"]} <= {
        "as new", "serviceable", "past limit", "in setting", "tight", "loose", "holds", "leaks", "in line", "off", "not seen",
        "too close to call", "not measured", "stale", "not comparable"}  # fmt: skip


def test_the_job_is_listed_in_the_words_of_its_next_step() -> None:
    bench = shop("valves")
    bench.open_job(JobOpened(number="B-8", engine_number="32"), bench.add_book(BOOK), HAND)
    row = next(r for r in bench.jobs() if r.number == JOB)
    assert (row.state, row.summary, row.summary_at) == ("open", bench.view(JOB).next.words, bench.ledgers.head(JOB).seq)


def test_a_hole_in_the_store_is_named_at_its_entry() -> None:
    assert refused(shop(), Retraction(entry="nobody", reason="x")).problems[0].where == "retraction"
