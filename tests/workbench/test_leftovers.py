"""What one job leaves over, the next does not order: offered at the end, booked by hand, used before anything is ordered."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, Job, book

from gudgeon.job.entries import Arrived, Disposition, JobClosed, JobOpened, Ordered, PartReceived, Retraction
from gudgeon.problem import Refused
from gudgeon.workbench.leftovers import keep, left, on_shelf

CAME = {"P-VALVE": 3, "P-SEAL": 2, "P-HEADG": 1}


def ended(**lines: int) -> Job:
    """A job that ordered, got, fitted one valve and one seal of two, and ended."""
    job = Job("bucket", "head out")
    came = CAME | lines
    job.write(Ordered(order="O-1", kind="parts", lines=came), Arrived(order="O-1", lines=came))
    job.fit(job.receive("valve", number="P-VALVE", order="O-1"), f"{IN}/valve")
    job.fit(job.receive("stem seal", number="P-SEAL", order="O-1"), f"{IN}/stem seal")
    job.write(JobClosed(reason="done"))
    return job


def following(job: Job, number: str = "P-2") -> Job:
    """The next job on the same shelf, with one valve to be renewed."""
    job.bench.open_job(JobOpened(number=number, engine_number="13", scope="head out", machine="pump"),
                       job.bench.add_book(book("bucket")), job.hand)  # fmt: skip
    after = object.__new__(Job)
    after.__dict__.update(job.__dict__, number=number)
    after.write(Disposition(part=f"orig:{EX}/valve", what="renew", reason="bent"))
    return after


def offered(job: Job) -> dict[str, int]:
    return {one.number: one.count for one in left(job.bench, job.number)}


def order(job: Job) -> dict[str, tuple[str, float]]:
    return {
        str(n["number"]): (str(n["status"]), float(n["to_order"]))
        for n in (line.numbers for line in job.plan("order").lines)
    }


def stock(job: Job) -> list[tuple[str, int, str, str]]:
    return [(row.number, row.count, row.state, row.job) for row in job.bench.shelf().leftovers]


def test_what_came_and_was_not_fitted_is_offered_and_goes_to_the_shelf_by_its_number() -> None:
    job = ended()
    assert offered(job) == {"P-VALVE": 2, "P-SEAL": 1, "P-HEADG": 1}
    assert keep(job.bench, job.number, {"P-VALVE": "2", "P-SEAL": "1", "P-HEADG": ""}) == 2
    assert stock(job) == [("P-VALVE", 2, "new", "P-1"), ("P-SEAL", 1, "new", "P-1")]
    assert offered(job) == {"P-HEADG": 1}, "what is booked is not offered again"


def test_the_next_job_uses_it_before_anything_is_ordered_and_takes_it_off_the_count() -> None:
    job = ended()
    assert order(following(job, "P-0"))["P-VALVE"] == ("needed", 1.0)
    keep(job.bench, job.number, {"P-VALVE": "2"})
    after = following(job)
    assert order(after)["P-VALVE"] == ("on the shelf", 0.0)
    assert [(o.number, o.kind, o.count) for o in on_shelf(after.bench.worked(after.number).given)] == [
        ("P-VALVE", "valve", 2)
    ]
    part = after.write(PartReceived(kind="valve", number="P-VALVE", order="shelf"))
    assert stock(after)[0][1] == 1
    assert order(after)["P-VALVE"] == ("on the shelf", 0.0), "in hand, from the shelf"
    after.fit(part, f"{EX}/valve")
    assert order(after)["P-VALVE"] == ("fitted", 0.0)
    after.write(JobClosed(reason="done"))
    assert stock(after)[0][1] == 1 and offered(after) == {}


def test_taken_and_not_fitted_returns_when_the_job_ends_and_taking_back_the_entry_puts_it_back() -> None:
    job = ended()
    keep(job.bench, job.number, {"P-VALVE": "2"})
    after = following(job)
    part = after.write(PartReceived(kind="valve", number="P-VALVE", order="shelf"))
    after.write(Retraction(entry=part, reason="the other drawer"))
    assert stock(after)[0][1] == 2
    after.write(PartReceived(kind="valve", number="P-VALVE", order="shelf"))
    closing = after.write(JobClosed(reason="valve straight after all"))
    assert stock(after)[0][1] == 2
    after.write(Retraction(entry=closing, reason="once more"))
    assert stock(after)[0][1] == 1, "it lies on the bench again"


@pytest.mark.parametrize("typed", ["3", "-1", "two", "1.5", "²"])
def test_more_than_is_left_over_is_refused_and_nothing_is_booked(typed: str) -> None:
    job = ended()
    with pytest.raises(Refused, match=r"of 2 left over cannot be\. .*Count what lies there"):
        keep(job.bench, job.number, {"P-SEAL": "1", "P-VALVE": typed})
    assert stock(job) == []


def test_an_open_job_leaves_nothing_over_yet() -> None:
    job = following(ended())
    with pytest.raises(Refused, match="still open"):
        keep(job.bench, job.number, {"P-VALVE": "1"})


def test_what_came_wrong_or_was_spoilt_in_the_engine_is_not_offered() -> None:
    job = Job("bucket", "head out")
    job.write(Ordered(order="O-1", kind="parts", lines={"P-HEADG": 2}), Arrived(order="O-1", lines={"P-HEADG": 2}))
    job.do("loosen_head", "head")
    job.fit(job.receive("head gasket", number="P-HEADG", order="O-1"), "head/head gasket")
    job.do("tighten_head", "head")
    job.do("loosen_head", "head")
    job.fit(job.receive("head gasket", number="P-HEADG", order="O-1"), "head/head gasket")
    job.do("tighten_head", "head")
    job.write(JobClosed(reason="done"))
    assert offered(job) == {}


def test_a_reopened_job_does_not_count_its_own_leftovers_twice() -> None:
    job = ended()
    keep(job.bench, job.number, {"P-VALVE": "2"})
    closing = next(e for e in job.bench.loaded(job.number).entries if isinstance(e.typed.body, JobClosed)).typed.id
    job.write(Retraction(entry=closing, reason="once more"))
    job.write(*(Disposition(part=f"orig:{v}/valve", what="renew", reason="bent") for v in (EX,)))
    assert order(job)["P-VALVE"][0] in ("arrived", "fitted")
