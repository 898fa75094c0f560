"""How many correctly set lashes would need a signature: the figure by which a guarded wall is worth its trouble.

Lashes lie anywhere inside their windows (0.03 to 0.10 wide, all alike likely), read by leaves of 0.01 with a feeler of
standard uncertainty 0.006 to 0.010. Where a word is open and another reading settles it, that reading is made.
"""

from __future__ import annotations

from collections import Counter
from math import floor, sqrt
from random import Random

from verdict_room import card

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.metrology.known import Known, mean_of
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.verdicts import decide
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.gather import Gathered
from gudgeon.verdicts.settling import settling
from gudgeon.verdicts.value import Value

LOW, LEAF, TRIALS = 0.10, 0.01, 3000


def feeler(u: float) -> GaugeCard:
    """Half of its variance shared by all readings, the rest new each time, the leaves' step included."""
    own = sqrt(u * u / 2 - LEAF**2 / 12)
    return card("F", "feeler", f"{sqrt(1.5) * u:.6f} mm", f"{own:.6f} mm", resolution="0.01 mm", low="0.03 mm")


def leaf(felt: float) -> float:
    """The middle of the pair of leaves between which it is felt."""
    return floor(felt / LEAF) * LEAF + LEAF / 2


def judged(lash: float, width: float, gauge: GaugeCard, rng: Random) -> tuple[str, int, str]:
    """The word of one reading; how many readings were made in the end, and the word of all of them."""
    limits = Limits(low=LOW, high=LOW + width, new_low=None, new_high=None, judged_new=False)
    bias, values = rng.gauss(0.0, gauge.shared_u(lash)), list[Value]()
    first, word, wanted = "", "", 1
    while len(values) < wanted <= 4:
        n = len(values) + 1
        felt = leaf(lash + bias + rng.gauss(0.0, gauge.repeat_u))
        parts = (("gauge F", gauge.shared_u(felt)), (f"entry {n}", gauge.reading_u(felt)))
        values.append(Value(seq=n, gauge="F", kind="feeler", known=Known(value=felt, parts=parts)))
        whole = mean_of(tuple(v.known for v in values if v.known))
        outcome = decide.of_setting(whole, limits, risk=0.05, tight_guarded=True, loose_guarded=False)
        word = outcome.word
        if outcome.open:
            part = Gathered(known=whole, above=None, below=None, tried=False, word="", no_gap=False, wanted=1, taken=1,
                            values=tuple(values), every=())  # fmt: skip
            walls = Limits(low=LOW, high=None, new_low=None, new_high=None, judged_new=False)
            ways = settling(CHARACTERISTICS["lash"].wants, (part,), whole, walls, (gauge,), 0.05)
            wanted = len(values) + ways[0].readings if ways else wanted
            if not ways:
                word = decide.of_setting(whole, limits, risk=0.05, tight_guarded=False, loose_guarded=False).word
        first = first or word
    return first, len(values), word


def shares(where: str, seed: int, u: tuple[float, float] = (0.006, 0.010)) -> tuple[Counter[str], Counter[str], float]:
    """Words after one reading, words in the end, and readings a valve."""
    rng, firsts, lasts, readings = Random(seed), Counter[str](), Counter[str](), 0
    for _ in range(TRIALS):
        width, gauge = rng.uniform(0.03, 0.10), feeler(rng.uniform(*u))
        off = rng.uniform(0.005, 0.03)
        aimed = LOW + 2 * width / 3 + rng.uniform(-width / 6, width / 6)
        lash = {"anywhere": rng.uniform(LOW, LOW + width), "aimed": aimed}.get(where) or rng.choice(
            (LOW - off, LOW + width + off)
        )
        first, made, last = judged(lash, width, gauge, rng)
        firsts[first] += 1
        lasts[last] += 1
        readings += made
    return firsts, lasts, readings / TRIALS


def test_how_many_correct_lashes_would_need_a_signature() -> None:
    """Measured here: no word stays open in the end, but 10 % of lashes anywhere in windows this narrow are read outside them.

    The wish is 2 % of jobs. With the leaf's own doubt of 0.006 to 0.010 no rule gives that for lashes that lie at a wall
    without letting bad ones through; lashes set to the second third below the loose wall come near it.
    """
    found = {where: shares(where, seed) for seed, where in ((31, "anywhere"), (32, "aimed"), (33, "outside"))}
    for where, (first, last, readings) in found.items():
        print(f"\n{where}: {first['too close to call'] / TRIALS:.1%} open after one reading, {last['too close to call'] / TRIALS:.1%} "
              f"in the end ({readings:.2f} readings), {last['tight'] / TRIALS:.1%} called tight, {last['loose'] / TRIALS:.1%} loose, "
              f"{last['in setting'] / TRIALS:.1%} in setting")  # fmt: skip
    (first, last, _), (_, aimed, _) = found["anywhere"], found["aimed"]
    assert first["too close to call"] > last["too close to call"], "reading again settles some"
    assert last["too close to call"] <= 0.02 * TRIALS, (
        "a word stays open only where a further reading may still settle it"
    )
    assert 0.07 * TRIALS <= last["tight"] + last["loose"] <= 0.13 * TRIALS, "the figure in the text has moved"
    assert aimed["tight"] + aimed["loose"] + aimed["too close to call"] <= 0.04 * TRIALS
    assert found["outside"][1]["in setting"] <= 0.08 * TRIALS
