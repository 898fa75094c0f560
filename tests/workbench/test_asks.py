"""What is asked next: as found, then the parts, then what is proved; what a plan waits for; what settles an open word."""

from __future__ import annotations

import pytest
from tests.workbench.memory import workbench
from tests.workbench.shop import BOOK, GAUGES, HAND, JOB, SHELF, gauge, read, shop

from gudgeon.job.entries import Body, GoNoGo, JobOpened, OperationDone, TorqueApplied
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.growing import ends, grow, row_of
from gudgeon.workbench.starting import start_book

VALVES = ("c1.in", "c1.ex", "c2.in", "c2.ex")
SIX = tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def asked(bench: Workbench) -> list[tuple[str, str, str]]:
    return [(a.measurand, a.place, a.point) for a in bench.measure(JOB).asks]


def kinds(bench: Workbench) -> list[str]:
    return list(dict.fromkeys(m for m, _place, _point in asked(bench)))


def record(bench: Workbench, *bodies: Body) -> None:
    bench.record(JOB, bodies, HAND)


def test_a_valves_job_asks_for_lash_then_for_the_shims_of_the_valves_that_are_out() -> None:
    bench = shop("valves")
    assert asked(bench) == [("lash", v, "") for v in VALVES]
    good = {"c1.in": "0.14/0.15", "c1.ex": "0.25/0.26", "c2.in": "0.14/0.15", "c2.ex": "0.25/0.26"}
    record(bench, *(read("lash", v, "0.05/0.06" if v == "c1.in" else t, "feel") for v, t in good.items()))
    plan = bench.view(JOB).plan("shims")
    assert plan is not None and plan.state == "waits" and "shim_thickness@c1.in" in plan.needs
    assert ("shim_thickness", "c1.in", "") in asked(bench) and bench.view(JOB).next.do == "measure"
    record(bench, OperationDone(operation="open_cam_holder", where="cam.in"))
    assert asked(bench)[0] == ("shim_thickness", "c1.in", ""), (
        "while the holder is off its shim is at hand, its lash is not"
    )
    for _ in range(4):
        measurand, place, _point = (asked(bench) or [("", "", "")])[0]
        if measurand == "shim_thickness":
            record(bench, read("shim_thickness", place, "2.500", "mic"))
    plan = bench.view(JOB).plan("shims")
    assert plan is not None and plan.state in ("ready", "impossible"), plan


def test_a_lash_all_in_setting_leaves_nothing_to_ask() -> None:
    bench = shop("valves")
    record(bench, *(read("lash", v, "0.14/0.15" if "in" in v else "0.25/0.26", "feel") for v in VALVES))
    assert asked(bench) == [] and bench.measure(JOB).ask is None and bench.view(JOB).next.do != "measure"


def test_as_found_then_the_parts_then_what_is_proved() -> None:
    bench = shop("whole top end")
    assert set(kinds(bench)) == {"lash", "leak_down", "compression"}
    record(bench, *(read("lash", v, "0.14/0.15" if "in" in v else "0.25/0.26", "feel") for v in VALVES))
    for c in ("c1", "c2"):
        record(
            bench, read("leak_down", c, "5", "leak", "cold", "%"), read("compression", c, "1100", "comp", "cold", "kPa")
        )
    assert {"stem_diameter", "guide_bore", "bore_diameter", "squish"} <= set(kinds(bench))
    assert not {"lash", "leak_down", "compression"} & set(kinds(bench))
    record(bench, OperationDone(operation="open_cam_holder", where="cam.in"))
    assert "lash" not in kinds(bench) and "stem_diameter" in kinds(bench), "an open engine has no lash to prove"
    record(bench, TorqueApplied(joint="cam.in holder", stage=1, of=1, setting="20", unit="N·m", wrench="W"))
    assert ("lash", "c1.in", "") in asked(bench) and "timing_marks" in kinds(bench)
    assert set(kinds(bench)) <= {"lash", "timing_marks", "leak_down", "compression", "oil_at_cams"}, (
        "a closed engine shows no parts"
    )


def test_readings_are_grouped_by_gauge() -> None:
    bench = shop("whole top end")
    record(bench, *(read("lash", v, "0.14/0.15" if "in" in v else "0.25/0.26", "feel") for v in VALVES))
    order = [a.gauge_kind for a in bench.measure(JOB).asks]
    assert order == sorted(order, key=order.index) and len(dict.fromkeys(order)) < len(order)
    assert bench.measure(JOB).left_with_gauge == order.count(order[0])


def test_what_is_too_close_is_asked_first_at_the_place_that_decides_with_the_gauge_that_settles() -> None:
    bench = shop("head out")
    bench.put_shelf(SHELF + GAUGES.replace('"0.002 mm"', '"0.008 mm"') + gauge("fine", "micrometer", error="0.0004 mm"))
    record(bench, *(read("stem_diameter", "c1.in", "5.441" if p == "bottom x" else "5.470", "mic", p) for p in SIX))
    stem = bench.view(JOB).at("stem_diameter@c1.in")
    assert stem is not None and stem.verdict == "too close to call" and [s.gauge for s in stem.settles] == ["fine"]
    seen = bench.measure(JOB, "stem_diameter", "c1.in")
    assert ("stem_diameter", "c1.in", "bottom x") in asked(bench)
    assert seen.ask is not None and seen.ask.point == "bottom x" and seen.gauge is not None and seen.gauge.id == "fine"
    record(bench, read("stem_diameter", "c1.in", "5.4412", "fine", "bottom x"))
    assert bench.view(JOB).at("stem_diameter@c1.in").verdict in ("serviceable", "past limit")  # type: ignore[union-attr]
    assert ("stem_diameter", "c1.in", "bottom x") not in asked(bench)


def test_a_guide_that_stopped_the_no_go_gauge_at_both_ends_is_not_asked_for_its_middle() -> None:
    limit = '\n[[limit]]\nof = "guide_bore"\nmost = "5.540 mm"\n'
    bench = shop("head out", book=BOOK + limit)
    for point in ("top x", "top y", "bottom x", "bottom y"):
        record(
            bench,
            GoNoGo(
                measurand="guide_bore", where="c1.in", point=point, gauge="hole", size="5.540", unit="mm", enters=False
            ),
        )
    assert bench.view(JOB).at("guide_bore@c1.in").verdict == "serviceable"  # type: ignore[union-attr]


def test_an_address_that_is_none_is_refused() -> None:
    bench = shop()
    for measurand, place in (("lush", "c1.in"), ("lash", "c9.in")):
        with pytest.raises(Refused, match="Choose it from the list"):
            bench.measure(JOB, measurand, place)


# -- a book that grows ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["0.10–0.15", "0.10-0.15", "0.10 - 0.15", "0.10 to 0.15", "0.10/0.15", "0.10 / 0.15", "0.10...0.15", "0.10..0.15", "0.10…0.15",
     "0.10 mm - 0.15 mm", "0.10−0.15", "0,10–0,15", "0.10-0.15 mm", "0.10—0.15", "0.10 mm to 0.15 mm", " 0.10 ‒ 0.15 ", "0.10mm-0.15mm",
     ".10-.15", "100-150 µm"],
)  # fmt: skip
def test_every_spelling_of_a_range(text: str) -> None:
    from gudgeon.units import read as quantity

    low, high = ends(text, "length", "mm")
    assert (quantity(low, "length").value, quantity(high, "length").value) == (pytest.approx(0.10), pytest.approx(0.15))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("0.004-0.006 in", "0.004 in", "0.006 in"),
        ("4-6 thou", "4 thou", "6 thou"),
        ('.004"-.006"', "0.004 in", "0.006 in"),
        ("1/16 - 1/8 in", "1/16 in", "1/8 in"),
        ("0.004 in to 0.15 mm", "0.004 in", "0.15 mm"),
    ],
)
def test_ranges_in_inches_keep_their_inches(text: str, low: str, high: str) -> None:
    assert ends(text, "length", "mm") == (low, high)


@pytest.mark.parametrize(
    "text", ["", "0.10", "x-y", "-", "0.10-", "–0.15", "0.1-0.2-0.3", "0.10 kPa – 0.15 kPa", "to", "0.1 to", "9" * 99]
)
def test_what_is_no_range(text: str) -> None:
    with pytest.raises(Refused):
        ends(text, "length", "mm")


def test_wrong_ends_and_empty_cells_add_nothing() -> None:
    bench = shop()
    books, rows = bench.library.books(), bench.ledgers.rows(JOB)
    for cells, why in (({"measurand": "valve_margin", "new": "1.2-0.8", "unit": "mm"}, "swapped"),
                       ({"measurand": "valve_margin", "unit": "mm"}, "Both cells are empty"),
                       ({"measurand": "contact", "new": "1-2"}, "no limit of its own"),
                       ({"measurand": "nothing", "new": "1-2"}, "no limit of its own"),
                       ({"measurand": "valve_margin", "limit": "thick", "unit": "mm"}, "thick"),
                       ({"measurand": "lash", "new": "0.2", "unit": "mm"}, "no two ends")):  # fmt: skip
        with pytest.raises(Refused, match=why):
            grow(bench, JOB, cells, HAND)
    assert (bench.library.books(), bench.ledgers.rows(JOB)) == (books, rows)


@pytest.mark.parametrize(
    ("measurand", "place", "side", "end"),
    [("stem_diameter", "c1.in", "in", "least"), ("guide_bore", "c2.ex", "ex", "most"), ("ring_gap", "c1.ring.top", "top", "most"),
     ("bore_diameter", "c1", "", "most"), ("lobe_height", "cam.in", "in", "least"), ("valve_margin", "c1.ex", "ex", "least")],
)  # fmt: skip
def test_two_cells_become_a_row_on_its_side(measurand: str, place: str, side: str, end: str) -> None:
    row = row_of(
        {"measurand": measurand, "place": place, "unit": "mm", "new": "5.0-5.1", "limit": "4.9", "page": " 7-3 "}
    )
    assert row == {"of": measurand, "side": side, "new": ("5.0 mm", "5.1 mm"), end: "4.9 mm", "page": "7-3"}


def test_an_empty_book_reaches_its_first_verdict_within_ten_typed_values() -> None:
    bench = workbench()
    typed = [choices := {"name": "Own 125", "cylinders": "1", "arrangement": "single", "follower": "bucket_under",
                         "in": "2", "ex": "2", "cams": "two", "cam_drive": "chain"}]  # picked from pictures, but for the name  # fmt: skip
    values = 1
    bench.open_job(JobOpened(number=JOB, engine_number="5", scope="valves"), start_book(bench, choices), HAND)
    values += 1
    seen = bench.measure(JOB)
    assert seen.ask is not None and seen.ask.measurand == "lash" and seen.limit_wanted and seen.gauge is not None
    record(bench, read("lash", seen.ask.place, "0.12/0.13", seen.gauge.id))
    values += 1
    assert bench.view(JOB).at(f"lash@{seen.ask.place}").verdict == "not comparable"  # type: ignore[union-attr]
    grow(bench, JOB, {"measurand": "lash", "place": seen.ask.place, "unit": "mm", "new": "0.10-0.15"}, HAND)
    values += 2
    assert bench.view(JOB).at(f"lash@{seen.ask.place}").verdict == "in setting"  # type: ignore[union-attr]
    assert values <= 10 and len(typed) == 1
    assert bench.measure(JOB, "lash", seen.ask.place).limit is not None


def test_a_limit_typed_again_replaces_the_row_and_the_job_is_judged_by_it() -> None:
    bench = shop()
    record(bench, read("lash", "c1.in", "0.14/0.15", "feel"))
    sha = grow(bench, JOB, {"measurand": "lash", "place": "c1.in", "unit": "mm", "new": "0.20-0.30"}, HAND)
    seen = bench.view(JOB)
    assert seen.job.book.sha256 == sha and seen.at("lash@c1.in").verdict == "tight"  # type: ignore[union-attr]
    assert sum(1 for r in bench.book(sha).limits if (r.of, r.side) == ("lash", "in")) == 1
    bench.retract(JOB, seen.ledger.head, "wrong page", HAND)
    assert bench.view(JOB).at("lash@c1.in").verdict == "in setting"  # type: ignore[union-attr]
