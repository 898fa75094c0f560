"""Pain 13: weeks later nobody knows what was done, what comes next and what lies in which bag."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Finding, Note
from gudgeon.workbench.papers import papers


def left_lying(layout: str) -> Job:
    """A job left half stripped, with a note, a picture and a finding."""
    job = Job(layout)
    job.read("lash", IN, "0.13/0.14")
    job.sign("H0")
    photo = job.bench.pictures.put(b"a picture of the chain run")
    job.write(
        Note(words="Owner heard it tick when cold.", photos=(photo,)), Finding(kind="groove", where=f"{IN}/valve")
    )
    job.cams_out()
    job.do("rag_in")
    return job


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_job_says_the_same_to_somebody_who_has_kept_nothing(layout: str) -> None:
    job = left_lying(layout)
    later = job.after_weeks()
    assert later.view == job.view
    assert later.view.ledger.verified


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_what_comes_next_stands_on_the_list_of_jobs_and_on_the_job(layout: str) -> None:
    later = left_lying(layout).after_weeks()
    row = next(r for r in later.bench.jobs() if r.number == "P-1")
    assert row.summary == later.view.next.words != ""
    route = [line for line in later.plan("route").lines if line.numbers["state"] == "next"]
    assert len(route) == 1


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_words_pictures_rags_and_who_did_what_are_still_there(layout: str) -> None:
    later = left_lying(layout).after_weeks()
    entries = later.view.entries
    assert any("tick when cold" in e.words for e in entries)
    assert all(e.by and e.at for e in entries if e.bench != "gudgeon")
    state = later.bench.worked("P-1").given.state
    assert state.rags_in == 1
    photos = [p for _seq, note in state.notes for p in note.photos]
    assert [later.bench.pictures.get(p) for p in photos] == [b"a picture of the chain run"]
    assert any(p.findings for p in later.view.parts if p.slot == f"{IN}/valve")
    assert "rags still counted inside" in later.hold("H7b").needs


def test_there_are_labels_for_the_bags_and_a_tag_for_the_key() -> None:
    kinds = {kind.key for kind in papers(left_lying("bucket").view)}
    assert {"labels", "do_not_start"} <= kinds
