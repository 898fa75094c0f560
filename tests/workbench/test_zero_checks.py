"""A zero before and after a series: one that drifted sends back what was read between, by derivation from the entries alone."""

import pytest
from tests.workbench.shop import HAND, JOB, OTHER, again, read, refused, shop

from gudgeon.job.entries import Retraction, ZeroChecked
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.zeros import zero_checked, zero_wanted, zeros_of

TOP, MIDDLE = "top y", "middle y"


def bore(text: str, point: str):  # type: ignore[no-untyped-def]
    return read("bore_diameter", "c1", text, "dial", point, "µm")


def counts(bench: Workbench) -> dict[str, str]:
    return {e.words.split(":")[0]: e.counts for e in bench.view(JOB).entries if e.fact == "reading"}


def test_it_is_wanted_before_and_after() -> None:
    bench = shop()
    first = zero_wanted(bench, JOB, "dial")
    assert first is not None and first.wanted == "before" and first.holds is None
    assert (first.on, first.limit, first.unit) == ("its master 66.000 mm", 0.002, "µm")
    held = zero_checked(bench, JOB, "dial", "0", HAND)
    assert held is not None and (held.wanted, held.holds, held.last) == ("", True, "0 µm, holds")
    bench.record(JOB, [bore("+6", TOP)], HAND)
    assert zero_wanted(bench, JOB, "dial").wanted == "after"  # type: ignore[union-attr]
    done = zero_checked(bench, JOB, "dial", "+1", HAND)
    assert done is not None and (done.wanted, done.again, done.since) == ("", (), ())
    assert set(counts(bench).values()) == {"fresh"}


def test_a_drifted_zero_reopens_its_series_and_no_other() -> None:
    bench = shop()
    zero_checked(bench, JOB, "dial", "0", HAND)
    bench.record(JOB, [bore("+6", TOP)], HAND)
    zero_checked(bench, JOB, "dial", "+2", HAND)
    bench.record(JOB, [bore("+7", MIDDLE), read("stem_diameter", "c1.in", "5.450", "mic", "top x")], HAND)
    drifted = zero_checked(bench, JOB, "dial", "+5", HAND)
    assert drifted is not None and drifted.holds is False and drifted.wanted == "before"
    assert counts(bench) == {"bore diameter top y": "fresh", "bore diameter middle y": "stale",
                             "stem diameter top x": "fresh"}  # fmt: skip
    sent_back = next(e for e in bench.view(JOB).entries if "middle y" in e.words)
    assert drifted.again == (sent_back.seq,)
    assert "zero of dial drifted, +5 µm" in sent_back.reasons[0]


def test_what_is_read_on_a_drifted_zero_does_not_count_either() -> None:
    bench = shop()
    zero_checked(bench, JOB, "dial", "+9", HAND)
    bench.record(JOB, [bore("+6", TOP)], HAND)
    assert counts(bench)["bore diameter top y"] == "stale"
    zero_checked(bench, JOB, "dial", "0", HAND)
    assert counts(bench)["bore diameter top y"] == "stale", "setting the zero does not heal what was read before"
    bench.record(JOB, [bore("-3", TOP)], HAND)
    assert [e.counts for e in bench.view(JOB).entries if e.fact == "reading"] == ["stale", "fresh"]
    found = bench.view(JOB).at("bore_diameter@c1")
    assert found is not None and found.as_found is not None and found.as_found.rests_on == found.rests_on


def test_it_asks_for_what_was_sent_back() -> None:
    bench = shop()
    bench.record(JOB, [bore("+6", TOP)], HAND)
    standing = {
        (a.place, a.point) for a in bench.measure(JOB, "bore_diameter", "c1").asks if a.measurand == "bore_diameter"
    }
    assert ("c1", TOP) not in standing
    zero_checked(bench, JOB, "dial", "-5", HAND)
    wanted = {
        (a.place, a.point) for a in bench.measure(JOB, "bore_diameter", "c1").asks if a.measurand == "bore_diameter"
    }
    assert ("c1", TOP) in wanted


def test_a_check_that_is_taken_back_never_happened() -> None:
    bench = shop()
    bench.record(JOB, [bore("+6", TOP)], HAND)
    zero_checked(bench, JOB, "dial", "+9", HAND)
    wrong = bench.loaded(JOB).entries[-1]
    bench.record(JOB, [Retraction(entry=wrong.typed.id, reason="it was the other dial")], HAND)
    assert counts(bench)["bore diameter top y"] == "fresh"


def test_it_is_derived_the_same_from_the_ledger_alone() -> None:
    bench = shop()
    bench.record(JOB, [bore("+6", TOP), ZeroChecked(gauge="dial", text="+5", unit="µm", holds=True)], HAND)
    assert counts(again(bench)) == counts(bench) == {"bore diameter top y": "stale"}
    (zero,) = zeros_of(again(bench), JOB)
    assert (zero.gauge, zero.holds) == ("dial", False), "the card says so, whatever the tablet thought"


def test_a_hand_may_say_that_it_drifted() -> None:
    bench = shop()
    bench.record(JOB, [bore("+6", TOP), ZeroChecked(gauge="dial", text="+1", unit="µm", holds=False)], OTHER)
    assert counts(bench) == {"bore diameter top y": "stale"}


@pytest.mark.parametrize(
    ("gauge", "text"), [("feel", "0"), ("gone", "0"), ("dial", ""), ("dial", "wide"), ("dial", "2 N")]
)
def test_what_says_nothing_is_refused(gauge: str, text: str) -> None:
    refused(shop(), ZeroChecked(gauge=gauge, text=text, unit="µm", holds=True))


def test_leaves_have_no_zero() -> None:
    bench = shop()
    assert zero_wanted(bench, JOB, "feel") is None
    assert zero_wanted(bench, JOB, "gone") is None
