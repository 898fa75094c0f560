"""What quick measuring costs and saves: randomly worn engines, each read quick and read full, by the bench's own questions.

Both hands read the same engine with the same gauges; the decision is the set of places that are past their limit or too
close to call. `python tools/quick_or_full.py [engines]` prints the table of `docs/decisions/quick-or-full.md`.
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

DEMO, AT = files("gudgeon.demo"), "2033-05-04T08:00:00Z"
FULL, QUICK = Rules(), Rules(measuring="quick")
#: How far a point has worn beside the worst one of its part, on average, and how much that varies (assumed).
ELSEWHERE, VARIES = 0.75, 0.15
#: In one part of ten the usual place is not the worst: another one has worn half as far again (assumed).
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
class Tally:
    """What came of many engines."""

    engines: int = 0
    same: int = 0
    missed: int = 0
    parts: int = 0
    bad: int = 0
    quick: list[int] = field(default_factory=list)
    full: list[int] = field(default_factory=list)


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
        """How far one point has worn; the usual worst is the first of those that quick measuring reads."""
        kind = MEASURANDS[measurand]
        points = tuple(kind.points(self.anatomy, place))
        usual, own = (kind.worst_first or points)[0], self._random(measurand, place, "shape")
        hidden = own.choice(points) if own.random() < HIDDEN else ""
        worst = self.part(measurand, place)
        if point == hidden:
            return worst * BEYOND
        here = self._random(measurand, place, point).gauss(ELSEWHERE, VARIES)
        return worst if point == usual else worst * min(1.0, max(0.0, here))

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
    """Somebody who reads what the bench asks until it asks nothing more."""

    def __init__(self, engine: Engine, book: Book, shelf: Shelf, rules: Rules) -> None:
        self.engine, self.book, self.shelf, self.rules = engine, book, shelf, rules
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
            text = (
                f"{size + Random(f'{self.engine.seed} {where} {nth}').gauss(0.0, card.repeat_u if card else 0.0):.3f}"
            )
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


def play(name: str, wear: Wear, seeds: range) -> Tally:
    """Engines of one book, worn in one way."""
    book, shelf = kept(name)
    tally = Tally()
    for seed in seeds:
        engine = Engine(book, wear, seed)
        full, quick = Hand(engine, book, shelf, FULL), Hand(engine, book, shelf, QUICK)
        one, other = full.work(), quick.work()
        bad, seen = failed(one), failed(other)
        tally.engines += 1
        tally.same += bad == seen
        tally.missed += bool(bad - seen)
        tally.parts += len(bad)
        tally.bad += len(bad - seen)
        tally.full.append(sum(full.taken.values()))
        tally.quick.append(sum(quick.taken.values()))
    return tally


def lines(engines: int) -> Iterator[str]:
    """The table, as it stands in the decision."""
    yield f"{'engine':8} {'wear':24} {'engines':>7} {'full':>5} {'quick':>5} {'same':>7} {'missed':>7} {'places missed':>14}"
    for name in ("tarn", "corrie"):
        for wear in (HEALTHY, *WORN):
            t = play(name, wear, range(engines))
            yield (f"{name:8} {wear.name:24} {t.engines:7} {sum(t.full) / t.engines:5.0f} {sum(t.quick) / t.engines:5.0f} "
                   f"{t.same / t.engines:7.1%} {t.missed / t.engines:7.1%} {t.bad:6} of {t.parts:5}")  # fmt: skip


if __name__ == "__main__":
    for line in lines(int(sys.argv[1]) if len(sys.argv) > 1 else 500):
        print(line, flush=True)
