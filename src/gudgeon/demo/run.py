"""All four jobs told into a workbench: what a first look at the bench shows."""

from __future__ import annotations

from gudgeon.demo.others import comes_back, valves_halfway, waiting_for_rings
from gudgeon.demo.story import HAND, NUMBER, book_text, chapters, shelf_text
from gudgeon.demo.teller import Teller
from gudgeon.job.entries import JobOpened
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.history import open_known

#: When the story begins, for the clock that tells it.
BEGINS = "2026-03-02T08:00:00Z"
STEP_SECONDS = 40
HALFWAY, WAITING, BACK = "26-015", "26-016", "26-048"
JOBS = (NUMBER, HALFWAY, WAITING, BACK)
#: So long after its overhaul the engine of the finished job comes back.
DAYS_BETWEEN = 130
BOOKS = ("corrie", "tarn", "gully", "scree")


def tell(bench: Workbench) -> str:
    """Tell the whole of it; the number of the finished job."""
    bench.put_shelf(shelf_text())
    bench.people.put("station", name="Mountain rescue station")
    books = {name: bench.add_book(book_text(name), f"{name}.toml") for name in BOOKS}
    for _ in chapters(bench):
        pass
    others = (
        JobOpened(number=HALFWAY, engine_number="0422", scope="valves", machine="quad 5", hours="210 h",
                  complaint="ticks when cold", altitude="1120 m", owner="station"),
        JobOpened(number=WAITING, engine_number="1740388", scope="cylinder", machine="winch 2", hours="640 h",
                  complaint="smokes, no pull", altitude="1120 m", owner="station"),
    )  # fmt: skip
    for opened, book, story in zip(others, ("corrie", "tarn"), (valves_halfway, waiting_for_rings), strict=True):
        bench.open_job(opened, books[book], HAND)
        teller = Teller(bench, opened.number, HAND)
        story(teller)
        teller.land()
    teller.morning(DAYS_BETWEEN)
    back = JobOpened(number=BACK, engine_number="0417", scope="valves", machine="quad 3", hours="520 h",
                     complaint="none; looked at as agreed", altitude="1120 m", owner="station")  # fmt: skip
    teller = Teller(bench, open_known(bench, back, books["corrie"], HAND), HAND)
    comes_back(teller)
    teller.land()
    return NUMBER
