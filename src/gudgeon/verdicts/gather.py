"""From readings to the value of a characteristic: which readings count at each point, and the statistic that counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

from gudgeon.characteristics.shape import Characteristic, Statistic, Wants
from gudgeon.job.state import JobState, Taken
from gudgeon.job.taking import subject_slot
from gudgeon.measurands.own import measurands
from gudgeon.metrology.known import Known, mean_of
from gudgeon.verdicts.contradiction import since_contradicted
from gudgeon.verdicts.value import Interpreter, Value

Index = Mapping[tuple[str, str, str], list[Taken]]
Pick = Callable[[Taken], bool]
#: Holes that wear to a bell mouth: a no-go gauge that enters neither end cannot be tried further in (common practice).
BELL_MOUTHED = ("guide_bore",)


def index(state: JobState) -> Index:
    """Readings by measurand, by what they are about (a part where they travel, else a place), and by point."""
    found: dict[tuple[str, str, str], list[Taken]] = {}
    for taken in state.readings:
        about = taken.part or taken.fact.where
        found.setdefault((taken.fact.measurand, about, taken.fact.point), []).append(taken)
    return found


def about(state: JobState, measurand: str, place: str) -> str:
    """What a reading at this place is about now: the part standing there where it travels, else the place."""
    slot = subject_slot(measurands(state.anatomy)[measurand].observes(state.anatomy, place))
    return (state.slots.get(slot) or "-") if slot else place


def at_first(state: JobState, measurand: str, place: str) -> str:
    """What a reading at this place was about before any work: the part the engine came with where it travels."""
    slot = subject_slot(measurands(state.anatomy)[measurand].observes(state.anatomy, place))
    return f"orig:{slot}" if slot else place


Whose = Callable[[JobState, str, str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What one want came to: its statistic, bounds or word, how many points stand, and every reading looked at.

    `above` and `below` bound the statistic of the points that were only tried with go and no-go; `tried` says there are some.
    `worst` says that the places where it wears most stand, where they are named; `alike` that none are named: each is like
    the others, as lobes of a cam are, and the first stands.
    """

    known: Known | None
    above: float | None
    below: float | None
    tried: bool
    word: str
    no_gap: bool
    wanted: int
    taken: int
    worst: bool
    alike: bool
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

    def want(self, want: Wants, place: str, pick: Pick, whose: Whose = about) -> Gathered:
        """The value of one want at the place of its characteristic, from the readings that `pick` lets count."""
        anatomy = self.state.anatomy
        kind = measurands(anatomy)[want.measurand]
        there = want.at(anatomy, place)
        subject = whose(self.state, want.measurand, there)
        required, extra = kind.points(anatomy, there), kind.extra_points(anatomy, there)
        by_point: dict[str, tuple[Value, ...]] = {}
        every: list[Taken] = []
        for point in (*required, *extra):
            listed = self.index.get((want.measurand, subject, point), [])
            every += listed
            values = best(v for t in listed if pick(t) and (v := self.interpreter.value(t, kind)))
            if values:
                by_point[point] = values
        if want.measurand in BELL_MOUTHED:
            required = _both_ends(required, by_point)
        return _gathered(want.statistic, required, kind.worst_first, by_point, tuple(every))

    def of(self, characteristic: Characteristic, place: str, pick: Pick, whose: Whose = about) -> tuple[Gathered, ...]:
        """Every want of a characteristic."""
        return tuple(self.want(w, place, pick, whose) for w in characteristic.wants)


def best(values: Iterable[Value]) -> tuple[Value, ...]:
    """Of several readings at a point those of the gauge with the smallest doubt, as repeats; bounds and words are kept.

    Of readings that contradict, those since then: the mean of before and after is the size of nothing.
    """
    return since_contradicted(_finest(tuple(values)))


def _finest(listed: tuple[Value, ...]) -> tuple[Value, ...]:
    gauges = dict.fromkeys(v.gauge for v in listed if v.sized is not None)
    if len(gauges) < 2:
        return listed
    means = {gauge: mean_of(tuple(v.sized for v in listed if v.gauge == gauge and v.sized)) for gauge in gauges}
    finest = min(gauges, key=lambda gauge: means[gauge].u)
    return tuple(v for v in listed if v.gauge == finest or v.sized is None)


def _both_ends(required: tuple[str, ...], by_point: Mapping[str, tuple[Value, ...]]) -> tuple[str, ...]:
    """The points that are asked for where a no-go gauge entered neither end, on either axis: those two ends."""
    levels = list(dict.fromkeys(point.split(" ")[0] for point in required))
    ends = [p for p in required if p.split(" ")[0] in (levels[0], levels[-1])]
    stopped = all(any(v.below is not None for v in by_point.get(p, ())) for p in ends)
    return tuple(p for p in required if p in ends or p in by_point) if stopped else required


def _gathered(
    statistic: Statistic,
    required: tuple[str, ...],
    worst: tuple[str, ...],
    by_point: Mapping[str, tuple[Value, ...]],
    every: tuple[Taken, ...],
) -> Gathered:
    values = tuple(v for found in by_point.values() for v in found)
    points = {p: mean_of(tuple(v.sized for v in found if v.sized)) for p, found in by_point.items() if _sized(found)}
    tried = [_tried(found) for p, found in by_point.items() if p not in points]
    above, below = _bounds(statistic, tried)
    last = max(values, key=lambda v: v.seq, default=None)
    counted = points if statistic.startswith("spread") else by_point
    return Gathered(
        known=_statistic(statistic, points),
        above=above,
        below=below,
        tried=any(low is not None or high is not None for low, high in tried),
        word=last.word if last else "",
        no_gap=bool(last and last.no_gap),
        wanted=len(required),
        taken=sum(1 for p in required if p in counted),
        worst=all(p in counted for p in worst or required),
        alike=not worst and all(p in counted for p in required[:1]),
        values=values,
        every=every,
    )


def _sized(values: tuple[Value, ...]) -> bool:
    return any(v.sized for v in values)


def _tried(values: tuple[Value, ...]) -> tuple[float | None, float | None]:
    """Between what a point lies that was only tried: over the largest that entered, under the smallest that did not."""
    above = max((v.above for v in values if v.above is not None), default=None)
    return above, min((v.below for v in values if v.below is not None), default=None)


def _bounds(statistic: Statistic, tried: list[tuple[float | None, float | None]]) -> tuple[float | None, float | None]:
    """Between what the statistic of these points lies: one point open on the far side leaves the whole open there."""
    lows, highs = [low for low, _ in tried], [high for _, high in tried]
    match statistic:
        case "smallest":
            return _all(min, lows), _some(min, highs)
        case "largest":
            return _some(max, lows), _all(max, highs)
        case "mean" if len(tried) == 1:
            return tried[0]
        case _:
            return None, None


def _some(pick: Callable[[list[float]], float], ends: list[float | None]) -> float | None:
    known = [end for end in ends if end is not None]
    return pick(known) if known else None


def _all(pick: Callable[[list[float]], float], ends: list[float | None]) -> float | None:
    return _some(pick, ends) if all(end is not None for end in ends) else None


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
