"""Giving up: a reason, a state, papers that say it, a list of what is loose, and a way back."""

from __future__ import annotations

import pytest

from gudgeon.job.entries import JobClosed, Note, OperationDone, PaperIssued
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.papers import paper_html
from workbench.shop import HAND, JOB, shop

STOP = JobClosed(outcome="stopped", reason="the crankcase is cracked")


def apart() -> Workbench:
    bench = shop()
    bench.record(JOB, [OperationDone(operation="open_cam_holder", where="cam.in"), STOP], HAND)
    return bench


def test_a_stop_needs_its_reason() -> None:
    with pytest.raises(Refused, match="needs its reason"):
        shop().record(JOB, [JobClosed(outcome="stopped")], HAND)


def test_a_stopped_job_says_so_and_takes_no_more_work() -> None:
    bench = apart()
    view = bench.view(JOB)
    assert (view.job.state, view.job.stopped) == ("stopped", "the crankcase is cracked")
    assert "goes back in parts" in view.next.words
    with pytest.raises(Refused, match="closed since"):
        bench.record(JOB, [Note(words="one more")], HAND)


def test_its_papers_say_it_with_what_is_loose_and_can_still_be_handed_over() -> None:
    bench = apart()
    paper = paper_html(bench, JOB, "hand_over")
    assert "Stopped: the engine goes back in parts" in paper
    assert "the crankcase is cracked" in paper
    assert "holder open" in paper
    assert "the tag stays on" in paper_html(bench, JOB, "do_not_start")
    bench.record(JOB, [PaperIssued(paper="hand_over", content="0" * 64, of=bench.ledgers.head(JOB).seq)], HAND)


def test_taking_the_stop_back_opens_it_again() -> None:
    bench = apart()
    seq = bench.ledgers.head(JOB).seq
    bench.retract(JOB, seq, "a second crankcase was found", HAND)
    assert (bench.view(JOB).job.state, bench.view(JOB).job.stopped) == ("open", "")
    assert "Stopped:" not in paper_html(bench, JOB, "hand_over")
    bench.record(JOB, [Note(words="one more")], HAND)


def test_a_finished_job_is_not_a_stopped_one() -> None:
    bench = shop()
    bench.record(JOB, [JobClosed(reason="done")], HAND)
    assert bench.view(JOB).job.state == "closed"
    assert "Stopped:" not in paper_html(bench, JOB, "hand_over")
