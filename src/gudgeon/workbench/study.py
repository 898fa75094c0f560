"""A short repeat study: one place, one hand, ten readings; what they scatter replaces what was only assumed of the gauge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from gudgeon import units
from gudgeon.metrology.budget import spread
from gudgeon.metrology.outlier import farthest
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.write import with_row
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.shelving import WrongCells, seen, shelf_text

#: How many are asked for, and how few are taken: under three degrees of freedom the t distribution has no width.
WANTED, LEAST, MOST = 10, 5, 30
SOURCE = "GUM (JCGM 100:2008) 4.2.2; few readings widened as JCGM 101:2008 6.4.9; one alone: Grubbs, NIST e-Handbook 1.3.5.17.1"


class StudyView(Struct, frozen=True, kw_only=True):
    """What the readings came to. `alone` is the number of the reading that stands apart, from 1, or 0."""

    gauge: str
    name: str
    unit: str
    inside: str
    n: int
    mean: float
    s: float
    nu: float
    counts_as: float
    before: str
    alone: int
    words: tuple[str, ...]
    source: str = SOURCE


def studied(bench: Workbench, gauge: str, texts: Sequence[str]) -> StudyView:
    """Mean, standard deviation and degrees of freedom of the readings typed; refused at the field, or when too few."""
    card = _card(bench, gauge)
    values = _read(card, texts)
    if len(values) < LEAST:
        raise refuse("repeat study", "{n} readings are too few.", "Take {least} or more, better {wanted}.",
                     n=len(values), least=LEAST, wanted=WANTED)  # fmt: skip
    listed, numbers = tuple(values.values()), tuple(values)
    found, far = spread(listed), farthest(listed)
    step = card.resolution.value if card.resolution else 0.0
    apart = abs(listed[far.index] - found.mean) > 1.5 * step
    alone = numbers[far.index] if far.alone and apart else 0
    inside = units.INSIDE.get(card.dimension, "")
    new = GaugeCard.from_pinned(card.pinned() | _cells(found.s, found.nu, inside, "", ""))
    return StudyView(
        gauge=card.id,
        name=card.name,
        unit=card.unit,
        inside=inside,
        n=found.n,
        mean=found.mean,
        s=found.s,
        nu=found.nu,
        counts_as=new.repeat_u,
        before=str(card.repeatability) if card.repeatability else "none",
        alone=alone,
        words=_words(found.s, alone, texts, step),
    )


def keep_study(
    bench: Workbench, gauge: str, texts: Sequence[str], by: str, *, with_alone: bool = False, shown: str = ""
) -> StudyView:
    """Put the repeatability found on the gauge's card, with its degrees of freedom, the day and who."""
    if shown and shown != seen(bench):
        raise refuse(
            "shelf", "It was changed elsewhere since this page was opened.", "Look at the gauge, then save again."
        )
    found = studied(bench, gauge, texts)
    if not by.strip():
        raise WrongCells({"by": _problem("repeat study", "Nobody has said whose hand it was.", "Type your initials.")})
    if found.alone and not with_alone:
        what = f"Reading {found.alone} stands alone."
        problem = _problem("repeat study", what, "Read it again and type it anew, or say that it belongs.")
        raise WrongCells({f"r{found.alone}": problem})
    index = next(n for n, g in enumerate(bench.shelf().gauges) if g.id == gauge)
    cells = _cells(found.s, found.nu, found.inside, by.strip()[:20], bench.clock.now()[:10])
    bench.put_shelf(with_row(shelf_text(bench), "gauge", cells, index))
    return found


def _cells(s: float, nu: float, unit: str, by: str, on: str) -> dict[str, str]:
    size = f"{s:.3g}" if s > 1e-6 else "0"
    if "e" in size:
        size = f"{s:.6f}"
    return {"repeatability": f"{size} {unit}", "repeat_nu": f"{nu:g}", "repeat_by": by, "repeat_on": on}


def _card(bench: Workbench, gauge: str) -> GaugeCard:
    card = next((g for g in bench.shelf().gauges if g.id == gauge), None)
    if card is None or card.dimension == "words":
        raise refuse("repeat study", "The shelf has no gauge {gauge} that reads numbers.", "Choose one.", gauge=gauge)
    return card


def _read(card: GaugeCard, texts: Sequence[str]) -> dict[int, float]:
    """The readings by their number from 1; of a pair that goes and does not, the middle."""
    values: dict[int, float] = {}
    wrong: dict[str, Problem] = {}
    for n, text in enumerate(texts[:MOST], 1):
        if not text.strip():
            continue
        try:
            shown = units.read_indication(text, card.dimension, unit=card.unit, where=f"reading {n}")
            if shown.low is None or shown.high is None:
                raise refuse(f"reading {n}", "{text} is no reading of it.", "Type a number.", text=text)
            values[n] = (shown.low.value + shown.high.value) / 2.0
        except Refused as refused:
            wrong[f"r{n}"] = refused.problems[0]
    if wrong:
        raise WrongCells(wrong)
    return values


def _words(s: float, alone: int, texts: Sequence[str], step: float) -> tuple[str, ...]:
    found = []
    if alone:
        found.append(f"Reading {alone}, {texts[alone - 1].strip()}, stands alone: a slip, or the place was left.")
    if s < step / 2.0:
        found.append("It repeats within its own step: the resolution is what counts.")
    return tuple(found)


def _problem(where: str, what: str, remedy: str) -> Problem:
    return refuse(where, what, remedy).problems[0]


def card_says(card: Mapping[str, str]) -> str:
    """Where a card's repeatability comes from, in words; nothing where no study stands behind it."""
    return GaugeCard.from_pinned(card).study if card else ""
