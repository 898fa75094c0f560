"""The share of jobs that would need a signature: thousands of lash jobs, set and proved as the bench does it.

Each job is played with the workshop's own decision, its own question for a further reading and its own choice of shim.
`python tools/signatures.py` prints the table of `docs/decisions/lash-signatures.md`.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor, sqrt
from random import Random
from statistics import NormalDist

from gudgeon.anatomy import expand
from gudgeon.book.book import Book
from gudgeon.book.parse import parse_book
from gudgeon.job import codec
from gudgeon.job.entries import Body, Entry, GaugePinned, JobOpened, Reading, Typed
from gudgeon.job.replay import replay
from gudgeon.metrology.known import Known, mean_of
from gudgeon.plans.lashes import Room, Window
from gudgeon.plans.shim_items import bought
from gudgeon.plans.shim_set import choice
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.evaluate import evaluate

LOW, LEAF, SHIM_U, VALVE = 0.10, 0.01, 0.002, "c1.in"
#: Nobody reads one lash more often than this (common practice, no source).
MOST = 8
#: The cams come out twice for the shims, a screw is turned five times; after that somebody would sign (common practice, no source).
ROUNDS, TURNS, SCREW = 2, 5, 0.01
GUARDED = Rules()
SIMPLE = Rules(tight_wall="face value")
NORMAL = NormalDist()


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One kind of job: the feeler's standard uncertainty, the window, the step of the shims, how many lashes.

    `strict` is the rule that was not chosen: what nothing on the shelf can prove above the tight wall counts as tight.
    """

    u: float
    width: float
    step: float
    lashes: int
    rules: Rules = GUARDED
    strict: bool = False

    @property
    def window(self) -> Window:
        """Where the lash must lie, aimed as the rules say."""
        high = LOW + self.width
        return Window(low_mm=LOW, high_mm=high, aim_mm=self.rules.aim(LOW, high), factor=1.0)

    def inside(self, lash: float) -> bool:
        """Whether a true lash lies in the window."""
        return LOW <= lash <= LOW + self.width


@dataclass(slots=True, kw_only=True)
class Tally:
    """What came of many jobs; `right` are those whose lashes all truly lie in their windows at the end."""

    jobs: int = 0
    right: int = 0
    signed: int = 0
    right_signed: int = 0
    lashes: int = 0
    readings: int = 0
    good_moved: int = 0
    passed: int = 0
    bad_passed: int = 0
    tight_passed: int = 0

    @property
    def share(self) -> float:
        """Of the jobs that are right, those that would need a signature."""
        return self.right_signed / max(1, self.right)


@dataclass(slots=True, kw_only=True)
class End:
    """A lash when the technician is through with it."""

    true: float
    passed: bool
    readings: int
    moved_though_good: int


@lru_cache(maxsize=64)
def feeler(u: float) -> GaugeCard:
    """Half of its variance shared by all readings, the rest new each time, the leaves' step included."""
    own = sqrt(u * u / 2 - LEAF**2 / 12)
    return GaugeCard.model_validate({"id": "F", "kind": "feeler", "name": "feeler", "unit": "mm", "source": "invented",
                                     "resolution": "0.01 mm", "permissible_error": f"{sqrt(1.5) * u:.6f} mm",
                                     "repeatability": f"{own:.6f} mm", "low": "0.03 mm"})  # fmt: skip


@lru_cache(maxsize=64)
def book(width: float) -> Book:
    """An invented engine whose lash has this window."""
    return parse_book(f'''
[book]
name = "Fellrigg 212"
[layout]
cylinders = 1
arrangement = "single"
cams = "two"
cam_drive = "chain"
holders = "per cam"
bore = "iron"
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"
[[limit]]
of = "lash"
least = "{LOW:.2f} mm"
most = "{LOW + width:.2f} mm"
''')


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the bench says of some readings: the word, how many more it asks for, whether it is as read, who contradicts."""

    word: str
    more: int
    as_read: bool
    contradicts: bool


@lru_cache(maxsize=200_000)
def said(leaves: tuple[int, ...], u: float, width: float, rules: Rules) -> Said:
    """The verdict of a whole job in which one lash was read between these leaves and the next ones, in hundredths."""
    reads = [Reading(measurand="lash", where=VALVE, text=f"{n / 100:.2f}/{(n + 1) / 100:.2f}", unit="mm", gauge="F")
             for n in leaves]  # fmt: skip
    opened = JobOpened(number="1", engine_number="K", scope="valves")
    bodies: tuple[Body, ...] = (opened, GaugePinned(gauge="F", card=feeler(u).pinned()), *reads)
    at, entries = "2033-05-04T08:00:00Z", list[Entry]()
    for n, body in enumerate(bodies, 1):
        typed = Typed(id=f"e{n}", typed_at=at, by="k", bench="b", nth=n, seen=n - 1, body=body)
        entries.append(codec.decode(codec.landed_line(codec.encode(typed), seq=n, landed_at=at, account="a")))
    kept = book(width)
    judged = evaluate(replay(entries, expand(kept.layout)), kept, rules, Shelf(gauges=(feeler(u),)))
    found = judged.at("lash", VALVE)
    assert found is not None
    more = found.settles[0].readings if found.settles else 0
    as_read = any("judged as read" in str(note) for note in found.notes)
    return Said(word=found.verdict, more=more, as_read=as_read, contradicts=bool(found.contradicts))


def read(true: float, bias: float, case: Case, rng: Random) -> tuple[str, tuple[int, ...]]:
    """Readings by pairs of leaves until nothing more is asked for; one that stands alone against the rest is taken back."""
    repeat, leaves, wanted, word = feeler(case.u).repeat_u, list[int](), 1, ""
    while wanted and len(leaves) < MOST:
        leaves += [max(2, floor((true + bias + rng.gauss(0.0, repeat)) / LEAF)) for _ in range(wanted)]
        now = said(tuple(sorted(leaves)), case.u, case.width, case.rules)
        if now.contradicts:
            middle = sorted(leaves)[len(leaves) // 2]
            if len(leaves) > 2:
                leaves.remove(max(leaves, key=lambda leaf: abs(leaf - middle)))
                wanted = 0 if not said(tuple(sorted(leaves)), case.u, case.width, case.rules).contradicts else 1
                now = said(tuple(sorted(leaves)), case.u, case.width, case.rules)
                wanted = max(wanted, now.more)
            else:
                wanted = 1
        else:
            wanted = now.more
        word = "tight" if case.strict and now.as_read and now.word == "in setting" else now.word
    return word, tuple(sorted(leaves))


@lru_cache(maxsize=200_000)
def next_shim(leaves: tuple[int, ...], case: Case) -> int:
    """How many steps thinner the best shim is than the one that stands there; 0 where none is better or fits at all."""
    gauge = feeler(case.u)
    felt = [((leaf + 0.5) * LEAF, n) for n, leaf in enumerate(leaves)]
    parts = [(("gauge F", gauge.shared_u(lash)), (f"entry {n}", gauge.reading_u(lash))) for lash, n in felt]
    lash = mean_of(tuple(Known(value=value, parts=own) for (value, _n), own in zip(felt, parts, strict=True)))
    room = Room(valve="c1.in", window=case.window, room=lash.shifted(lash.value + 2.0))
    found = [(n, choice(room, bought(2.0 - n * case.step, "c1.in"), case.rules)) for n in range(-8, 9)]
    ranked = [(not c.sure, abs(c.lash.value - case.window.aim_mm), n) for n, c in found if c is not None]
    return min(ranked)[2] if ranked else 0


def played(true: float, bias: float, case: Case, rng: Random) -> End:
    """Read, and change the shim while the word is bad and a better shim is to be had."""
    end = End(true=true, passed=False, readings=0, moved_though_good=0)
    last = TURNS if case.step <= SCREW else ROUNDS
    for turn in range(last + 1):
        word, leaves = read(end.true, bias, case, rng)
        end.readings += len(leaves)
        end.passed = word == "in setting"
        steps_away = 0 if end.passed or turn == last else next_shim(leaves, case)
        if steps_away == 0:
            break
        end.moved_though_good += case.inside(end.true)
        end.true += steps_away * case.step + rng.gauss(0.0, SHIM_U * sqrt(2.0))
    return end


def job(case: Case, rng: Random, *, found: str) -> list[End]:
    """All lashes of one engine, by one feeler: as they came in ("worn"), set by shims before ("set"), or "anywhere" inside."""
    bias, aim = rng.gauss(0.0, feeler(case.u).shared_u(LOW)), case.window.aim_mm
    ends = []
    for _ in range(case.lashes):
        match found:
            case "worn":
                true = rng.uniform(LOW - 0.06, LOW + case.width + 0.04)
            case "set":
                true = aim + rng.uniform(-0.5, 0.5) * case.step
                true = min(max(true, LOW), LOW + case.width)
            case _:
                true = rng.uniform(LOW, LOW + case.width)
        ends.append(played(true, bias, case, rng))
    return ends


def tally(case: Case, *, found: str, jobs: int, seed: int) -> Tally:
    """Many jobs of one kind."""
    rng, total = Random(seed), Tally()
    for _ in range(jobs):
        ends = job(case, rng, found=found)
        right, signed = all(case.inside(e.true) for e in ends), not all(e.passed for e in ends)
        total.jobs += 1
        total.right += right
        total.signed += signed
        total.right_signed += right and signed
        for e in ends:
            total.lashes += 1
            total.readings += e.readings
            total.good_moved += e.moved_though_good > 0
            total.passed += e.passed
            total.bad_passed += e.passed and not case.inside(e.true)
            total.tight_passed += e.passed and e.true < LOW
    return total


def least_called_out(u: float, low: float, begin: float, end: float, risk: float) -> float:
    """The least share of lashes, alike likely from `begin` to `end`, that any rule leaves unproven at the wall `low`.

    Karlin–Rubin: among rules that pass a lash at the wall at most with probability `risk`, the guarded one passes every lash
    inside it most often (normal readings have a monotone likelihood ratio). Its misses are Φ(z - (t - low)/u) with z the
    (1 - risk) quantile, whose integral is u(xΦ(x) + φ(x)).
    Source: Lehmann & Romano, Testing Statistical Hypotheses, theorem 3.4.1 (from memory).
    """
    z = NORMAL.inv_cdf(1.0 - risk)

    def area(x: float) -> float:
        return x * NORMAL.cdf(x) + NORMAL.pdf(x)

    return u / (end - begin) * (area(z - (begin - low) / u) - area(z - (end - low) / u))


#: Window and step of shims: half a window, a whole one, and a screw, which stops within a hundredth.
SYSTEMS = ((0.03, 0.01), (0.05, 0.01), (0.05, 0.025), (0.10, 0.05), (0.03, 0.025), (0.05, 0.05))
DOUBTS = (0.006, 0.008, 0.010)
LASHES = (4, 8, 16)
FOUND = ("set", "anywhere", "worn")
HEAD = "| window | step | u | set | anywhere | worn | nothing as read | readings | moved | bad passed | nothing as read | simple |"


def row(width: float, step: float, u: float, jobs: int) -> str:
    """One line: shares of right jobs that need a signature, by lashes; then, of 8 lashes that were worn, what the rules do."""
    cases = [Case(u=u, width=width, step=step, lashes=lashes) for lashes in LASHES]
    shares = [[tally(case, found=found, jobs=jobs, seed=11).share for case in cases] for found in FOUND]
    ours, strict, simple = (
        tally(case, found="worn", jobs=jobs, seed=11)
        for case in (cases[1], replace(cases[1], strict=True), replace(cases[1], rules=SIMPLE))
    )
    cells = [
        f"{width:.2f}",
        f"{step:.3f}",
        f"{u:.3f}",
        *(" · ".join(f"{100 * s:.1f}" for s in three) for three in shares),
    ]
    cells += [
        f"{100 * strict.share:.0f}",
        f"{ours.readings / ours.lashes:.2f}",
        f"{100 * ours.good_moved / ours.lashes:.0f}",
    ]
    return "| " + " | ".join([*cells, *map(bad, (ours, strict, simple))]) + " |"


def bad(found: Tally) -> str:
    """Of all lashes, in per cent: passed though tight, passed though loose."""
    return f"{100 * found.tight_passed / found.lashes:.1f} · {100 * (found.bad_passed - found.tight_passed) / found.lashes:.1f}"


def lines(jobs: int = 1000) -> Iterator[str]:
    """The table."""
    yield HEAD
    yield "|" + "---|" * (HEAD.count("|") - 1)
    for width, step in SYSTEMS:
        for u in DOUBTS:
            yield row(width, step, u, jobs)


if __name__ == "__main__":
    for line in lines(int(sys.argv[1]) if sys.argv[1:] else 1000):
        print(line)
