"""What quick measuring costs and saves: randomly worn engines, each read full, quick and by sample, by the bench's own questions.

All three hands read the same engine with the same gauges; the decision is the set of places that are past their limit or too
close to call. Beside it stands what is truly past its limit: full reading, too, lets some of it pass, being no exact gauge.
`python tools/quick_or_full.py [engines] [book]` prints the table of `docs/decisions/quick-or-full.md`.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.resources import files
from random import Random

from gudgeon.anatomy import expand
from gudgeon.book.book import Book
from gudgeon.book.limits import LimitRow
from gudgeon.book.parse import parse_book
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.job.entries import Body, Entry, GaugePinned, JobOpened, Reading, Typed
from gudgeon.job.replay import replay
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.plans.shape import Given
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf, parse_shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.shape import FAILED, Judged
from gudgeon.workbench.asks import AskView, asks_of

DEMO, AT = files("gudgeon.demo"), "2026-05-04T08:00:00Z"
FULL, QUICK, SAMPLE = Rules(), Rules(measuring="quick"), Rules(measuring="sample")
#: How a length wears from top to bottom, in shares of its worst place (assumed).
SHAPES = {"taper": (1.0, 0.6, 0.3), "bell mouth": (0.9, 0.5, 1.0), "barrel": (0.6, 1.0, 0.6)}
#: How it usually does (common practice, no source); one part in seven wears in another way (assumed).
USUAL, UNUSUAL = {"bore_diameter": "taper", "guide_bore": "bell mouth", "stem_diameter": "bell mouth"}, 1.0 / 7.0
#: Along the pin it wears this much of what it does across it; each point differs by so much for itself (assumed).
ALONG, VARIES = (0.5, 1.0), 0.1
#: In one part of ten a place has worn half as far again as the worst of its shape, wherever it lies (assumed).
HIDDEN, BEYOND = 0.1, 1.5
#: The intake side wears this much of what the exhaust does; parts of a kind differ by so much (assumed).
INTAKE, PARTS = 0.8, 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Wear:
    """How engines are worn: `middle` of the allowance on average, `one_part` the chance of a part that is worn for itself."""

    name: str
    middle: float
    one_part: float


HEALTHY = Wear(name="healthy", middle=0.08, one_part=0.0)
WORN = (
    Wear(name="a quarter worn", middle=0.25, one_part=0.0),
    Wear(name="half worn", middle=0.5, one_part=0.0),
    Wear(name="at its limits", middle=0.9, one_part=0.0),
    Wear(name="healthy, odd parts", middle=0.08, one_part=0.01),
)


@dataclass(slots=True, kw_only=True)
class Way:
    """What came of one way of measuring: engines decided as by full, engines and places missed, places truly past let pass."""

    same: int = 0
    missed: int = 0
    places: int = 0
    let_pass: int = 0
    readings: list[int] = field(default_factory=list)


@dataclass(slots=True, kw_only=True)
class Tally:
    """What came of many engines: `bad` the places that full condemns or doubts, `past` those truly past their limit."""

    engines: int = 0
    bad: int = 0
    past: int = 0
    full: Way = field(default_factory=Way)
    quick: Way = field(default_factory=Way)
    sample: Way = field(default_factory=Way)


@lru_cache(maxsize=4)
def kept(name: str) -> tuple[Book, Shelf]:
    """A book of the demo, and its workshop's gauges with none that shows a deviation: sizes are typed here."""
    shelf = parse_shelf(DEMO.joinpath("shelf.toml").read_text(encoding="utf-8"))
    plain = tuple(card.model_copy(update={"deviation": False, "unit": "mm" if card.unit == "µm" else card.unit})
                  for card in shelf.gauges)  # fmt: skip
    return parse_book(DEMO.joinpath("books", f"{name}.toml").read_text(encoding="utf-8")), Shelf(gauges=plain)


class Engine:
    """An engine as it truly is: every point that can be read has a size, found when somebody looks."""

    def __init__(self, book: Book, wear: Wear, seed: int) -> None:
        self.book, self.wear, self.seed = book, wear, seed
        self.anatomy = expand(book.layout)
        self.age = max(0.0, self._random("age").gauss(wear.middle, wear.middle / 3.0))

    def _random(self, *what: str) -> Random:
        return Random(f"{self.seed} {' '.join(what)}")

    def part(self, measurand: str, place: str) -> float:
        """How far the worst point of a part has worn, in shares of the allowance."""
        kind, own = self._random(measurand), self._random(measurand, place)
        side = INTAKE if ".in" in place else 1.0
        share = self.age * side * kind.uniform(0.6, 1.2) * max(0.2, own.gauss(1.0, PARTS))
        return max(share, own.uniform(0.8, 1.6)) if own.random() < self.wear.one_part else share

    def point(self, measurand: str, place: str, point: str) -> float:
        """How far one point has worn: by the shape of its part, by itself, and here and there far beyond."""
        points = tuple(MEASURANDS[measurand].points(self.anatomy, place))
        worst, own = self.part(measurand, place), self._random(measurand, place, "shape")
        unusual, hidden = own.random() < UNUSUAL, own.choice(points) if own.random() < HIDDEN else ""
        shape = SHAPES[own.choice(sorted(SHAPES)) if unusual else USUAL.get(measurand, "taper")]
        along = own.uniform(*ALONG)
        if point == hidden and len(points) > 1:
            return worst * BEYOND
        here = worst * max(0.0, self._random(measurand, place, point).gauss(1.0, VARIES))
        if measurand not in USUAL:
            return here
        level, axis = point.split(" ")
        return here * shape[("top", "middle", "bottom").index(level)] * (along if axis == "x" else 1.0)

    def size(self, ask: AskView) -> float | str:
        """What an exact gauge would show."""
        kind, row = MEASURANDS[ask.measurand], self.row(ask.measurand, ask.place)
        if kind.dimension == "words":
            good = {*(row.expect or () if row else ()), "holds", "in line", "seen", "centre"}
            return next((w for w in kind.words if w in good), kind.words[0])
        ends = self._ends(row)
        if row is None or ends is None:
            low, high = kind.plausible or (0.5, 1.5)
            return low + 0.3 * (high - low)
        low, high = ends
        new = low + (high - low) * self._random(ask.measurand, ask.place, "new").uniform(0.3, 0.7)
        if (
            ask.measurand == "lash"
            or CHARACTERISTICS[row.of].rule != "wear"
            or row.new_low is None
            or row.new_high is None
        ):
            return new
        gone = self.point(ask.measurand, ask.place, ask.point)
        if row.most is not None and row.most > row.new_high:
            return new + gone * (row.most - row.new_high)
        return new - gone * (row.new_low - row.least) if row.least is not None else new

    def row(self, measurand: str, place: str) -> LimitRow | None:
        """The limit that a reading alone is held against."""
        alone = (k.key for k in CHARACTERISTICS.values() if len(k.wants) == 1 and k.wants[0].measurand == measurand
                 and not k.wants[0].statistic.startswith("spread"))  # fmt: skip
        return next((row for key in alone if (row := self.book.limit_for(key, place))), None)

    @staticmethod
    def _ends(row: LimitRow | None) -> tuple[float, float] | None:
        if row is None:
            return None
        low, high = (
            (row.new_low, row.new_high)
            if row.new_low is not None or row.new_high is not None
            else (row.least, row.most)
        )
        if low is None and high is None:
            return None
        low = low if low is not None else 0.0
        return (low, high) if high is not None else (low * 1.05, low * 1.1)


class Hand:
    """Somebody who reads what the bench asks until it asks nothing more; an exact hand shows sizes as they are."""

    def __init__(self, engine: Engine, book: Book, shelf: Shelf, rules: Rules, *, exact: bool = False) -> None:
        self.engine, self.book, self.shelf, self.rules, self.exact = engine, book, shelf, rules, exact
        self.bodies: list[Body] = [JobOpened(number="1", engine_number="K", scope="whole top end")]
        self.bodies += [GaugePinned(gauge=card.id, card=card.pinned()) for card in shelf.gauges]
        self.taken: dict[tuple[str, str, str], int] = {}

    def work(self) -> Judged:
        """Read round after round; what is too close to call is read again as the bench asks, three times at most."""
        while True:
            given = self.given()
            asks = [a for a in asks_of(given, ()) if self.taken.get((a.measurand, a.place, a.point), 0) < 3]
            if not asks:
                return given.judged
            self.bodies += [self.reading(ask) for ask in asks]

    def given(self) -> Given:
        """The job as it stands."""
        entries = [Entry(seq=n, landed_at=AT, account="a",
                         typed=Typed(id=f"e{n}", typed_at=AT, by="k", bench="b", nth=n, seen=n - 1, body=body))
                   for n, body in enumerate(self.bodies, 1)]  # fmt: skip
        state = replay(entries, self.engine.anatomy)
        return Given(state=state, book=self.book, shelf=self.shelf, rules=self.rules)

    def reading(self, ask: AskView) -> Reading:
        """One reading, as the gauge in hand shows it: the same hand reads the same place alike, quick or full."""
        where, kind = (ask.measurand, ask.place, ask.point), MEASURANDS[ask.measurand]
        nth = self.taken[where] = self.taken.get(where, 0) + 1
        size, card = self.engine.size(ask), self.card(ask)
        if isinstance(size, str):
            text = size
        elif ask.measurand == "lash":
            text = f"{size - 0.005:.2f}/{size + 0.005:.2f}"
        else:
            off = Random(f"{self.engine.seed} {where} {nth}").gauss(0.0, card.repeat_u if card else 0.0)
            text = f"{size + (0.0 if self.exact else off):.3f}"
        return Reading(measurand=ask.measurand, where=ask.place, point=ask.point, text=text, unit=kind.unit,
                       gauge=card.id if card else "eye", needs=kind.needs)  # fmt: skip

    def card(self, ask: AskView) -> GaugeCard | None:
        """The gauge in hand: the first of its kind whose range holds the size."""
        size = self.engine.size(ask)
        kinds = MEASURANDS[ask.measurand].gauges
        return next(
            (c for k in kinds for c in self.shelf.gauges if c.kind == k and (isinstance(size, str) or c.covers(size))),
            None,
        )


def failed(judged: Judged) -> frozenset[str]:
    """What is renewed, machined or looked at again: the decision."""
    return frozenset(v.address for v in judged.verdicts if v.verdict in FAILED or v.verdict == "too close to call")


def good(judged: Judged) -> frozenset[str]:
    """What goes together again as it is, read or left unread."""
    return frozenset(v.address for v in judged.verdicts if v.good or v.spared)


def truly_past(engine: Engine, book: Book, shelf: Shelf) -> frozenset[str]:
    """What is past its limit, were every size known exactly."""
    judged = Hand(engine, book, shelf, FULL, exact=True).work()
    return frozenset(
        v.address for v in judged.verdicts if v.value is not None and CHARACTERISTICS[v.key].rule == "wear"
        and ((v.low is not None and v.value < v.low - 1e-9) or (v.high is not None and v.value > v.high + 1e-9))
    )  # fmt: skip


def play(name: str, wear: Wear, seeds: range) -> Tally:
    """Engines of one book, worn in one way."""
    book, shelf = kept(name)
    tally = Tally()
    for seed in seeds:
        engine = Engine(book, wear, seed)
        past, bad = truly_past(engine, book, shelf), frozenset[str]()
        tally.engines += 1
        tally.past += len(past)
        for way, rules in ((tally.full, FULL), (tally.quick, QUICK), (tally.sample, SAMPLE)):
            hand = Hand(engine, book, shelf, rules)
            judged = hand.work()
            if rules is FULL:
                bad = failed(judged)
                tally.bad += len(bad)
            passed = good(judged)
            way.same += bad == failed(judged)
            way.missed += bool(bad & passed)
            way.places += len(bad & passed)
            way.let_pass += len(past & passed)
            way.readings.append(sum(hand.taken.values()))
    return tally


def lines(engines: int, books: tuple[str, ...] = ("tarn", "corrie")) -> Iterator[str]:
    """The table, as it stands in the decision."""
    yield (f"{'':37} {'readings':^17}  {'decided as full':^15}  {'engine missed':^15}  {'bad':>5} {'missed':^11}  "
           f"{'truly':>5} {'let pass':^17}")  # fmt: skip
    yield (f"{'engine':7} {'wear':21} {'engines':>7} {'full':>5} {'quick':>5} {'sample':>6} {'quick':>7} {'sample':>7}  "
           f"{'quick':>7} {'sample':>7} {'':5} {'quick':>5} {'sample':>6} {'past':>6} {'full':>5} {'quick':>5} {'sample':>6}")  # fmt: skip
    for name in books:
        for wear in (HEALTHY, *WORN):
            t = play(name, wear, range(engines))
            n, (f, q, s) = t.engines, (t.full, t.quick, t.sample)
            yield (f"{name:7} {wear.name:21} {n:7} {sum(f.readings) / n:5.0f} {sum(q.readings) / n:5.0f} "
                   f"{sum(s.readings) / n:6.0f} {q.same / n:7.1%} {s.same / n:7.1%}  {q.missed / n:7.1%} {s.missed / n:7.1%} "
                   f"{t.bad:5} {q.places:5} {s.places:6} {t.past:6} {f.let_pass:5} {q.let_pass:5} {s.let_pass:6}")  # fmt: skip


if __name__ == "__main__":
    chosen = (sys.argv[2],) if len(sys.argv) > 2 else ("tarn", "corrie")
    for line in lines(int(sys.argv[1]) if len(sys.argv) > 1 else 500, chosen):
        print(line, flush=True)
