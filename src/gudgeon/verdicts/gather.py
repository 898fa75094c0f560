"""From readings to the value of a characteristic: which readings count at each point, and the statistic that counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

from gudgeon.characteristics.shape import Characteristic, Statistic, Wants
from gudgeon.job.state import JobState, Taken
from gudgeon.job.taking import subject_slot
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.metrology.known import Known, mean_of
from gudgeon.verdicts.value import Interpreter, Value

Index = Mapping[tuple[str, str, str], list[Taken]]
Pick = Callable[[Taken], bool]


def index(state: JobState) -> Index:
    """Readings by measurand, by what they are about (a part where they travel, else a place), and by point."""
    found: dict[tuple[str, str, str], list[Taken]] = {}
    for taken in state.readings:
        about = taken.part or taken.fact.where
        found.setdefault((taken.fact.measurand, about, taken.fact.point), []).append(taken)
    return found


def about(state: JobState, measurand: str, place: str) -> str:
    """What a reading at this place is about now: the part standing there where it travels, else the place."""
    slot = subject_slot(MEASURANDS[measurand].observes(state.anatomy, place))
    return (state.slots.get(slot) or "-") if slot else place


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What one want came to: its statistic, bounds or word, how many points stand, and every reading looked at."""

    known: Known | None
    above: float | None
    below: float | None
    word: str
    no_gap: bool
    wanted: int
    taken: int
    values: tuple[Value, ...]
    every: tuple[Taken, ...]

    @property
    def complete(self) -> bool:
        """Whether every point that is asked for stands."""
        return self.taken >= self.wanted

    @property
    def empty(self) -> bool:
        """Whether nothing at all counts."""
        return not self.values


class Gatherer:
    """Gathers the wants of characteristics out of one state."""

    def __init__(self, state: JobState, interpreter: Interpreter) -> None:
        self.state, self.interpreter, self.index = state, interpreter, index(state)

    def want(self, want: Wants, place: str, pick: Pick) -> Gathered:
        """The value of one want at the place of its characteristic, from the readings that `pick` lets count."""
        anatomy, kind = self.state.anatomy, MEASURANDS[want.measurand]
        there = want.at(anatomy, place)
        subject = about(self.state, want.measurand, there)
        required, extra = kind.points(anatomy, there), kind.extra_points(anatomy, there)
        by_point: dict[str, tuple[Value, ...]] = {}
        every: list[Taken] = []
        for point in (*required, *extra):
            listed = self.index.get((want.measurand, subject, point), [])
            every += listed
            values = best(v for t in listed if pick(t) and (v := self.interpreter.value(t, kind)))
            if values:
                by_point[point] = values
        return _gathered(want.statistic, required, by_point, tuple(every))

    def of(self, characteristic: Characteristic, place: str, pick: Pick) -> tuple[Gathered, ...]:
        """Every want of a characteristic."""
        return tuple(self.want(w, place, pick) for w in characteristic.wants)


def best(values: Iterable[Value]) -> tuple[Value, ...]:
    """Of several readings at a point those of the gauge with the smallest doubt; bounds and words are kept."""
    listed = tuple(values)
    sized = [v for v in listed if v.known is not None]
    if not sized:
        return listed
    finest = min(sized, key=lambda v: v.u).gauge
    return tuple(v for v in listed if v.gauge == finest or v.known is None)


def _gathered(
    statistic: Statistic, required: tuple[str, ...], by_point: Mapping[str, tuple[Value, ...]], every: tuple[Taken, ...]
) -> Gathered:
    values = tuple(v for found in by_point.values() for v in found)
    points = {p: mean_of(tuple(v.known for v in found if v.known)) for p, found in by_point.items() if _sized(found)}
    last = max(values, key=lambda v: v.seq, default=None)
    return Gathered(
        known=_statistic(statistic, points),
        above=max((v.above for v in values if v.above is not None), default=None),
        below=min((v.below for v in values if v.below is not None), default=None),
        word=last.word if last else "",
        no_gap=bool(last and last.no_gap),
        wanted=len(required),
        taken=sum(1 for p in required if p in by_point),
        values=values,
        every=every,
    )


def _sized(values: tuple[Value, ...]) -> bool:
    return any(v.known for v in values)


def _statistic(statistic: Statistic, points: Mapping[str, Known]) -> Known | None:
    """The value that counts; smallest and largest are those of the reading that shows them."""
    if not points:
        return None
    listed = tuple(points.values())
    match statistic:
        case "smallest":
            return min(listed, key=lambda k: k.value)
        case "largest":
            return max(listed, key=lambda k: k.value)
        case "mean":
            return mean_of(listed)
        case "spread across":
            return _spread(points, level=0)
        case "spread along":
            return _spread(points, level=1)


def _spread(points: Mapping[str, Known], *, level: int) -> Known | None:
    """The largest difference between two points that share a depth (`level` 0) or an axis (1)."""
    pairs = [
        (points[one], points[other])
        for one, other in combinations(points, 2)
        if one.split()[level:][:1] == other.split()[level:][:1]
    ]
    if not pairs:
        return None
    high, low = max(pairs, key=lambda pair: abs(pair[0].value - pair[1].value))
    return high.plus(low, -1.0) if high.value >= low.value else low.plus(high, -1.0)
