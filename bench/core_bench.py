"""From readings to what a screen shows: verdicts and read model of a job, and how their time grows with its length."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from itertools import cycle, islice

from gudgeon.anatomy import expand
from gudgeon.book.parse import parse_book
from gudgeon.job import chain, codec
from gudgeon.job.entries import Body, BookPinned, GaugePinned, JobOpened, OperationDone, Reading, Typed
from gudgeon.job.replay import replay
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.verdicts.evaluate import evaluate
from gudgeon.workbench.build import work_through
from gudgeon.workbench.loading import Loaded, load
from gudgeon.workbench.ports import Row as Line

Row = tuple[str, float, float | None]

BOOK = parse_book("""
[book]
name = "Larch 275"
[layout]
cylinders = 2
arrangement = "inline"
cams = "two"
cam_drive = "chain"
[layout.in]
valves = 2
follower = "bucket_under"
[layout.ex]
valves = 2
follower = "bucket_under"
[[limit]]
of = "lash"
least = "0.10 mm"
most = "0.15 mm"
[[limit]]
of = "stem_diameter"
new = ["4.960 mm", "4.980 mm"]
least = "4.950 mm"
[[limit]]
of = "guide_bore"
new = ["5.000 mm", "5.012 mm"]
most = "5.040 mm"
[[limit]]
of = "stem_guide_clearance"
new = ["0.020 mm", "0.050 mm"]
most = "0.080 mm"
""")
ANATOMY = expand(BOOK.layout)
GAUGE_OF = {"lash": "F", "stem_diameter": "M", "guide_bore": "H"}
CARDS = tuple(
    GaugeCard.model_validate({"id": id, "kind": kind, "name": kind, "unit": "mm", "source": "invented", "resolution": "0.001 mm",
                              "permissible_error": "0.002 mm", "repeatability": "0.001 mm"})
    for id, kind in (("F", "feeler"), ("M", "micrometer"), ("H", "small-hole gauge"))
)  # fmt: skip
SHELF = Shelf(gauges=CARDS)


def _bodies() -> Iterator[Body]:
    yield JobOpened(number="7", engine_number="K-1", scope="head out")
    yield BookPinned(name=BOOK.name, edition=BOOK.edition, sha256="0" * 64)
    for card in CARDS:
        yield GaugePinned(gauge=card.id, card=card.pinned())
    points = [f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy"]
    series: list[Body] = []
    for valve in ANATOMY.valves:
        series += [Reading(measurand=m, where=valve, point=p, text=t, unit="mm", gauge=GAUGE_OF[m])
                   for p in points for m, t in (("stem_diameter", "4.970"), ("guide_bore", "5.010"))]  # fmt: skip
        series.append(Reading(measurand="lash", where=valve, text="0.12/0.13", unit="mm", gauge="F"))
    series.append(OperationDone(operation="open_cam_holder", where="cam.in"))
    yield from cycle(series)


def lines(entries: int) -> tuple[Line, ...]:
    """The stored lines of a job of so many entries."""
    found, digest = [], chain.START
    for n, body in enumerate(islice(_bodies(), entries), 1):
        typed = Typed(id=f"e{n}", typed_at="2031-02-03T08:00:00Z", by="k7", bench="b1", nth=n, seen=n - 1, body=body)
        text = codec.landed_line(codec.encode(typed), seq=n, landed_at="2031-02-03T08:00:01Z", account="workshop")
        digest = chain.link(digest, text)
        found.append(Line(seq=n, line=text, digest=digest))
    return tuple(found)


def best(task: Callable[[], object], times: int = 5) -> float:
    """The shortest of several runs, in seconds."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        task()
        found.append(time.perf_counter() - start)
    return min(found)


def judged(loaded: Loaded) -> int:
    """Replay is paid elsewhere: the verdicts alone, on a state that nobody has asked anything yet."""
    state = replay(loaded.entries, ANATOMY)
    start = time.perf_counter()
    verdicts = evaluate(state, BOOK, SHELF.rules, SHELF).verdicts
    assert {v.verdict for v in verdicts} & {"as new", "in setting", "stale"}
    _TOOK.append(time.perf_counter() - start)
    return len(verdicts)


_TOOK: list[float] = []


def rows() -> Iterator[Row]:
    """Verdicts beside replay, the view after one more entry, and the time of a job ten times as long over ten of these."""
    evaluated, viewed = dict[int, float](), dict[int, float]()
    for n in (400, 4000):
        stored = lines(n + 1)
        before, last = load(stored[:-1]), stored[-1:]
        _TOOK.clear()
        count = max([judged(before) for _ in range(5)])
        evaluated[n] = min(_TOOK)
        played = best(lambda loaded=before: replay(loaded.entries, ANATOMY))
        viewed[n] = best(lambda old=before, new=last: work_through(load(new, old), BOOK, SHELF).view)
        yield f"verdicts of {n} entries over their replay", evaluated[n] / played, None
        yield f"one verdict of {n} entries, in microseconds", evaluated[n] / count * 1e6, None
        yield f"view after one entry on {n}, in milliseconds", viewed[n] * 1e3, None
    yield "verdicts of 4000 entries over ten of 400", evaluated[4000] / evaluated[400] / 10, 1.5
    yield "view after one entry on 4000 over ten on 400", viewed[4000] / viewed[400] / 10, 1.5
