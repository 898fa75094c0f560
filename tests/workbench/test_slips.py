"""Slips over the four books: every kind of slip of every limit is asked with what was meant, and plausible readings are not."""

from __future__ import annotations

from collections import Counter
from functools import cache
from importlib.resources import files
from random import Random

import pytest
from tests.workbench.shop import BOOK, GAUGES, HAND, JOB, SHELF, gauge, read, refused, shop

import gudgeon.demo
from gudgeon import units
from gudgeon.book.limits import LimitRow
from gudgeon.book.parse import parse_book
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.shape import Measurand
from gudgeon.workbench.slips import Asked, Seen, Slip, believed, slip_of

BOOKS = ("corrie", "gully", "scree", "tarn")
#: What may be next to nothing on a good engine, so that a tenth of it, or its inches, is as good a reading as it is.
NEAR_NOTHING = {"barrel_flatness", "cam_axial_play", "cam_runout", "head_flatness", "journal_clearance", "lash", "leak_down",
                "side_clearance", "spring_tilt", "stem_runout", "wobble", "big_end_play", "recession"}  # fmt: skip


@cache
def limits() -> tuple[tuple[str, LimitRow, Measurand, bool], ...]:
    """Every row of the four books that is judged by one reading, with its measurand and whether the bore can be bored."""
    found = []
    for name in BOOKS:
        book = parse_book((files(gudgeon.demo) / "books" / f"{name}.toml").read_text(encoding="utf-8"), name)
        for row in book.limits:
            kind = CHARACTERISTICS[row.of]
            if len(kind.wants) == 1 and not kind.wants[0].statistic.startswith("spread") and kind.dimension != "words":
                found.append((f"{name} {row.address}", row, MEASURANDS[kind.wants[0].measurand],
                              book.layout.bore == "iron"))  # fmt: skip
    return tuple(found)


def ends(row: LimitRow) -> tuple[float, float]:
    given = [v for v in (row.new_low, row.new_high, row.least, row.most) if v is not None]
    return min(given), max(given)


def seen(value: float | str, of: tuple[str, LimitRow, Measurand, bool], places: int = 3) -> Seen:
    _name, row, kind, bored = of
    size = units.read(value if isinstance(value, str) else f"{value:.{places}f}", kind.dimension, unit=kind.unit)
    return Seen(size=size, kind=kind, row=row, bored=bored, step=0.001)  # no metric gauge of a workshop shows less


def typical(row: LimitRow) -> float:
    low, high = ends(row)
    return round((low + high) / 2.0, 3)


def right(slip: Slip | None, key: str, meant: float, within: float) -> bool:
    return slip is not None and slip.key == key and slip.meant is not None and abs(slip.meant - meant) <= within


@pytest.mark.parametrize(
    ("key", "factor", "places"),
    [("ten_times_off", 10.0, 3), ("ten_times_off", 0.1, 4), ("inch_for_mm", 1 / 25.4, 4), ("mm_for_inch", 25.4, 3)],
    ids=["ten times more", "a tenth", "inches typed as mm", "mm typed as inches"],
)
def test_what_is_off_by_a_factor_is_asked_with_what_was_meant(key: str, factor: float, places: int) -> None:
    """Every row of the four books; what may be next to nothing is asked where it left what its part can be."""
    silent = Counter[str]()
    for of in limits():
        name, row, kind, _bored = of
        if kind.dimension != "length" and key != "ten_times_off":
            continue
        meant = typical(row)
        slipped = seen(meant * factor, of, places)
        slip, (low, high) = slip_of(slipped), believed(slipped)
        if low <= slipped.size.value <= high:
            assert slip is None or slip.other, name
            silent[kind.key] += 1
            continue
        assert slip is not None and slip.meant is not None, name
        if kind.key not in NEAR_NOTHING:
            assert right(slip, key, meant, 0.51 * 10.0**-places / factor), (name, slip)
    possible = NEAR_NOTHING | {"valve_to_piston"} if factor > 1.0 else NEAR_NOTHING
    assert set(silent) <= possible, silent


def test_two_digits_swapped_are_asked_with_what_was_meant_where_they_leave_what_the_part_can_be() -> None:
    asked = 0
    for of in limits():
        name, row, kind, _bored = of
        low, high = ends(row)
        if kind.dimension != "length" or low <= 0.0 or kind.key in NEAR_NOTHING:
            continue
        text = f"{typical(row):.3f}"
        dot = text.index(".")
        for n in (*range(dot - 1), dot + 1, dot + 2):
            if n + 1 >= len(text) or text[n] == text[n + 1]:
                continue
            slipped = seen(text[:n] + text[n + 1] + text[n] + text[n + 2 :], of)
            slip, (least, most) = slip_of(slipped), believed(slipped)
            if not least <= slipped.size.value <= most:
                asked += 1
                assert slip is not None and slip.meant is not None and low <= slip.meant <= high, (name, text, slip)
                assert slip.key != "digits_swapped" or right(slip, "digits_swapped", float(text), high - low), (
                    name,
                    slip,
                )
    assert asked > 80, asked


def test_of_thousands_of_plausible_readings_at_most_one_in_a_hundred_is_asked() -> None:
    """Worn or new, a fifth of them worn past the limit by up to half of what the book allows; seeded, the share printed."""
    random, asked, count = Random(174), Counter[str](), 0
    others = {b: [(r.address, r) for _n, r, _k, _b in limits() if _n.startswith(b)] for b in BOOKS}
    for of in limits():
        name, row, kind, bored = of
        low, high = ends(row)
        if low == high:
            low, high = (0.5 * low, low) if row.most is not None else (low, 1.5 * low)
        past = 0.5 * (high - low)
        for _ in range(60):
            value = random.uniform(low, high)
            if random.random() < 0.2 and CHARACTERISTICS[row.of].rule == "wear":
                value = high + random.uniform(0, past) if row.most is not None else low - random.uniform(0, past)
            size = units.read(f"{max(value, 0.0):.3f}", kind.dimension, unit=kind.unit)
            near = tuple((n, r) for n, r in others[name.split()[0]] if r is not row and r.of == row.of)
            slip = slip_of(Seen(size=size, kind=kind, row=row, others=near, bored=bored, step=0.001))
            count += 1
            asked[slip.key if slip else ""] += 1
    share = 1.0 - asked[""] / count
    print(f"asked back: {100 * share:.2f} % of {count} plausible readings; {dict(asked)}")
    assert count > 5000 and share <= 0.01


TWO_STEMS = BOOK.replace('of = "stem_diameter"\n', 'of = "stem_diameter"\nside = "in"\n') + """
[[limit]]
of = "stem_diameter"
side = "ex"
new = ["5.440 mm", "5.455 mm"]
least = "5.425 mm"
[[limit]]
of = "piston_diameter"
new = ["65.955 mm", "65.970 mm"]
least = "65.900 mm"
[[limit]]
of = "pin_diameter"
new = ["15.994 mm", "16.000 mm"]
least = "15.970 mm"
"""  # fmt: skip


@pytest.mark.parametrize(
    ("measurand", "where", "text", "other"),
    [("stem_diameter", "c1.ex", "5.468", "stem diameter intake"), ("stem_diameter", "c1.ex", "5,468", "stem diameter intake"),
     ("stem_diameter", "c1.in", "15.98", "piston pin diameter")],
)  # fmt: skip
def test_the_other_part_is_named_and_lands_when_it_is_so(measurand: str, where: str, text: str, other: str) -> None:
    bench = shop(book=TWO_STEMS)
    wrong = refused(bench, read(measurand, where, text, "mic", "top x"))
    assert isinstance(wrong, Asked) and wrong.slip.key == "other_part"
    assert f"It looks like another part: {other}." in str(wrong), str(wrong)
    bench.record(JOB, [read(measurand, where, text, "mic", "top x", confirmed=("other_part",))], HAND)


@pytest.mark.parametrize(
    ("where", "text"), [("c1.in", "5.455"), ("c1.ex", "5.440"), ("c1.ex", "5.456"), ("c1.in", "5.476")]
)
def test_what_its_own_row_allows_is_no_other_part(where: str, text: str) -> None:
    shop(book=TWO_STEMS).record(JOB, [read("stem_diameter", where, text, "mic", "top x")], HAND)


def test_what_no_such_part_of_this_engine_can_be_is_asked_without_a_meaning() -> None:
    wrong = refused(shop(), read("stem_diameter", "c1.in", "5.90", "mic", "top x"))
    assert isinstance(wrong, Asked) and wrong.slip == Slip(key="beyond_the_book")


@pytest.mark.parametrize(("bore", "asked"), [("iron", False), ("plated", True)])
def test_an_oversize_is_believed_of_a_bore_that_can_be_bored_and_asked_of_a_plated_one(bore: str, asked: bool) -> None:
    bench = shop(book=BOOK.replace('bore = "plated"', f'bore = "{bore}"'))
    bench.put_shelf(SHELF + GAUGES + gauge("bg", "bore gauge", low="50 mm", high="80 mm"))
    body = read("bore_diameter", "c1", "66.508", "bg", "top x")
    if asked:
        assert isinstance(refused(bench, body), Asked)
    else:
        bench.record(JOB, [body], HAND)


def test_finer_digits_than_the_gauge_shows_are_inches() -> None:
    bench = shop()
    bench.put_shelf(SHELF + GAUGES + gauge("lever", "lever dial", resolution="0.01 mm"))
    wrong = refused(bench, read("stem_runout", "c1.in", "0.0008", "lever"))
    assert isinstance(wrong, Asked) and "Did you mean 0.02032 mm?" in str(wrong), str(wrong)


def test_the_same_part_of_the_other_side_is_named_wherever_its_new_sizes_leave_this_row() -> None:
    """Every pair of rows of one measurand in the four books: a new part of one read at the other's place."""
    named = 0
    for of in limits():
        name, row, kind, bored = of
        others = [o for o in limits() if o[0].split()[0] == name.split()[0] and o[1].of == row.of and o[1] is not row]
        for _name, other, *_rest in others:
            if None in (row.new_low, row.new_high, other.new_low, other.new_high) or kind.dimension == "percent":
                continue
            assert other.new_low is not None and other.new_high is not None
            assert row.new_low is not None and row.new_high is not None
            value, (low, high), quarter = (
                round((other.new_low + other.new_high) / 2, 3),
                ends(row),
                (row.new_high - row.new_low) / 4,
            )
            size = units.read(f"{value:.3f}", kind.dimension, unit=kind.unit)
            slip = slip_of(Seen(size=size, kind=kind, row=row, others=(("the other", other),), bored=bored, step=0.001))
            unworn = value > high + quarter if row.least is not None else value < low - quarter
            past = value < low if row.least is not None else value > high
            assert (slip is not None) == ((unworn or past) and CHARACTERISTICS[row.of].rule == "wear"), (
                name,
                value,
                slip,
            )
            named += slip is not None and slip.key == "other_part" and slip.other == "the other"
    assert named >= 8, named
