"""The drawer over jobs: what one takes the next does not find, what comes out returns as measured, what is taken back is undone."""

import pytest
from tests.workbench.shop import GAUGES, HAND, JOB, SHELF, read, shop

from gudgeon.job.entries import Disposition, JobClosed, JobOpened, PartFitted, PartReceived, PartRemoved, Retraction
from gudgeon.workbench.bench import Workbench

SECOND, SLOT = "B-8", "c1.in/shim"
DRAWER = """
[[shim]]
size = "2.50 mm"
count = 2
diameter = "9.0 mm"
where = "drawer 1"  # by the window
[[shim]]
size = "2.50 mm"
count = 1
measured = "2.512 mm"
"""
MIC = 'kind = "micrometer"'


def stocked() -> Workbench:
    bench = shop()
    bench.put_shelf(SHELF + GAUGES + DRAWER)
    sha = bench.loaded(JOB).book()
    bench.open_job(JobOpened(number=SECOND, engine_number="32", scope="valves"), sha, HAND)
    return bench


def lots(bench: Workbench) -> list[tuple[str, int, str]]:
    return [(str(s.size), s.count, str(s.measured or "")) for s in bench.shelf().shims]


def taken(bench: Workbench, job: str, mark: str = "250", order: str = "shelf") -> str:
    return bench.record(job, [PartReceived(kind="shim", mark=mark, order=order)], HAND)[0].id


def test_what_one_job_takes_the_next_does_not_find() -> None:
    bench = stocked()
    taken(bench, JOB)
    assert lots(bench) == [("2.50 mm", 1, ""), ("2.50 mm", 1, "2.512 mm")]
    taken(bench, SECOND)
    assert lots(bench)[0] == ("2.50 mm", 0, "")
    assert "# by the window" in bench.library.shelf()
    taken(bench, SECOND)
    assert [n for _s, n, _m in lots(bench)] == [0, 0]
    taken(bench, SECOND)
    assert [n for _s, n, _m in lots(bench)] == [0, 0], "there was none: the count does not go below nothing"


def test_what_was_ordered_does_not_touch_the_drawer() -> None:
    bench = stocked()
    taken(bench, JOB, order="P-1")
    assert [n for _s, n, _m in lots(bench)] == [2, 1]


def test_taking_back_the_entry_puts_it_back() -> None:
    bench = stocked()
    part = taken(bench, JOB)
    bench.record(JOB, [Retraction(entry=part, reason="it was the other drawer")], HAND)
    assert [n for _s, n, _m in lots(bench)] == [2, 1]


def test_a_shim_that_comes_out_returns_as_measured_when_the_job_ends() -> None:
    bench = stocked()
    new = taken(bench, JOB)
    old = f"orig:{SLOT}"
    bench.record(JOB, [PartRemoved(slot=SLOT), read("shim_thickness", f"part:{old}", "2.437", "mic"),
                       PartFitted(part=new, slot=SLOT)], HAND)  # fmt: skip
    assert lots(bench) == [("2.50 mm", 1, ""), ("2.50 mm", 1, "2.512 mm")], "while the job runs it may be used again"
    end = bench.record(JOB, [JobClosed(reason="done")], HAND)[0]
    assert lots(bench)[-1] == ("2.437 mm", 1, "2.437 mm")
    row = bench.shelf().shims[-1]
    assert (row.where, str(row.diameter)) == ("came out in job B-7", "9.0 mm")
    bench.record(JOB, [Retraction(entry=end.id, reason="one more thing")], HAND)
    assert lots(bench)[-1] == ("2.437 mm", 0, "2.437 mm"), "the job runs again: it lies on the bench, not in the drawer"


def test_what_was_never_measured_and_what_was_given_up_does_not_return() -> None:
    bench = stocked()
    new = taken(bench, JOB)
    bench.record(JOB, [PartRemoved(slot=SLOT), PartFitted(part=new, slot=SLOT), JobClosed(reason="done")], HAND)
    assert lots(bench) == [("2.50 mm", 1, ""), ("2.50 mm", 1, "2.512 mm")]
    other = f"orig:{SLOT}"
    spare = taken(bench, SECOND)
    bench.record(SECOND, [PartRemoved(slot=SLOT), read("shim_thickness", f"part:{other}", "2.437", "mic"),
                          Disposition(part=other, what="renew", reason="pitted"), PartFitted(part=spare, slot=SLOT),
                          JobClosed(reason="done")], HAND)  # fmt: skip
    assert [m for _s, _n, m in lots(bench)] == ["", "2.512 mm"]


def test_one_taken_and_not_used_goes_back_where_it_lay() -> None:
    bench = stocked()
    taken(bench, JOB)
    bench.record(JOB, [JobClosed(reason="not needed")], HAND)
    assert [n for _s, n, _m in lots(bench)] == [2, 1]


@pytest.mark.parametrize("mark", ["", "25", "hard to read"])
def test_a_shim_without_a_size_changes_nothing(mark: str) -> None:
    bench = stocked()
    taken(bench, JOB, mark=mark)
    assert [n for _s, n, _m in lots(bench)] == [2, 1]
