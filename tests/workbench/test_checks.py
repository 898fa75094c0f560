"""What cannot be used is refused before it lands, with where it is wrong, what was given and what to do."""

from __future__ import annotations

import pytest
from tests.workbench.shop import GAUGES, HAND, JOB, SHELF, gauge, read, refused, shop

from gudgeon.job.entries import (
    Arrived,
    Body,
    BookPinned,
    Disposition,
    EstimateApproved,
    GaugePinned,
    GoNoGo,
    HoldPassed,
    JobClosed,
    JobOpened,
    Note,
    OperationDone,
    Ordered,
    PartFitted,
    PartReceived,
    PartRemoved,
    PartsSwapped,
    Reading,
    Retraction,
    RulesPinned,
    ScopeWidened,
    TorqueApplied,
    ZeroChecked,
)
from gudgeon.workbench.slips import Asked

IN = "c1.in"


def torque(
    joint: str = "head head", stage: int = 1, of: int = 2, setting: str = "20", unit: str = "N·m", wrench: str = "W"
) -> Body:
    return TorqueApplied(joint=joint, stage=stage, of=of, setting=setting, unit=unit, wrench=wrench)


def pin(size: str = "5.5", gauge: str = "hole", point: str = "top x") -> GoNoGo:
    return GoNoGo(measurand="guide_bore", where=IN, point=point, gauge=gauge, size=size, unit="mm", enters=True)


CASES: tuple[tuple[Body, str], ...] = (
    (JobOpened(number="X", engine_number="1"), "open already"),
    (read("lush", IN, "0.1", "feel"), "Nothing of this name is measured"),
    (read("lash", "c3.in", "0.14/0.15", "feel"), "This engine has none at c3.in"),
    (read("lash", "", "0.14/0.15", "feel"), "This engine has none at"),
    (read("lash", IN, "0.14/0.15", "feel", "top x"), "There is no point top x"),
    (read("stem_diameter", IN, "5.46", "mic"), "There is no point without name"),
    (read("lash", IN, "0.14/0.15", "gone"), "no gauge gone"),
    (read("lash", IN, "0.14", "mic"), "A micrometer does not read this"),
    (read("lash", IN, "0.14/0.15 furlong", "feel"), "furlong"),
    (read("lash", IN, "0.14 kPa", "feel"), "length is wanted"),
    (read("lash", IN, "0.15/0.14", "feel"), "Did you mean 0.14/0.15"),
    (read("lash", IN, "", "feel"), "Nothing was typed"),
    (read("lash", IN, "-0.05", "feel"), "below nothing"),
    (read("lash", IN, "0.0055", "feel"), "outside the range"),
    (read("lash", IN, "5" * 70, "feel"), "70 characters long"),
    (read("lash", IN, "0.14/0.15", "feel", temperature="warm"), "temperature"),
    (read("stem_diameter", IN, "no gap", "mic", "top x"), "no reading of it"),
    (read("stem_diameter", IN, "5.46/5.47", "mic", "top x"), "no reading of it"),
    (read("stem_diameter", IN, ">5.46", "mic", "top x"), "no reading of it"),
    (read("stem_diameter", IN, "54.6", "mic", "top x"), "Did you mean 5.46 mm? Take another gauge"),
    (read("seal_test", IN, "perhaps", "eye", unit=""), "none of its words"),
    (read("stem_diameter", "part:none", "5.46", "mic", "top x"), "There is no part none"),
    (pin("five"), "five"),
    (pin("-5"), "no size of a gauge"),
    (pin("0.55"), "no size of a gauge"),
    (pin("55"), "no size of a gauge"),
    (pin(point="nowhere"), "There is no point"),
    (GoNoGo(measurand="stem_diameter", where=IN, point="top x", gauge="mic", size="5.4", unit="mm", enters=True), "enters nothing"),
    (OperationDone(operation="polish", where=IN), "Nothing of this name is done"),
    (OperationDone(operation="lap_valve", where="c9.in"), "It is not done at c9.in"),
    (OperationDone(operation="lap_valve", where=IN), "Not on a coated part"),
    (OperationDone(operation="hone", where="c1"), "Not on a plated part"),
    (OperationDone(operation="wash", where="c1.ex/valve", before="nobody", because="seen"), "wash|not done|not in this job"),
    (PartReceived(kind="turbo"), "This engine has no turbo"),
    (PartReceived(kind="shim", thickness="thick"), "thickness"),
    (PartRemoved(slot="c1.in/turbo"), "no such slot"),
    (PartFitted(part="nobody", slot="c1.in/shim"), "There is no part nobody"),
    (PartFitted(part="orig:c1.in/valve", slot="c1.in/shim"), "A valve does not go there"),
    (PartsSwapped(slot="c1.in/valve", other="c1.in/shim"), "two kinds"),
    (PartsSwapped(slot="c1.in/valve", other="c1.on/valve"), "no such slot"),
    (PartRemoved(slot="c1.in/shim", before="nobody", because="seen"), "not in this job"),
    (HoldPassed(hold="H99"), "There is no such hold"),
    (HoldPassed(hold="H10"), "It waits for: lash@c1.in"),
    (torque(joint="tooth filling"), "no such joint"),
    (torque(stage=3), "Stage 3 of 2"),
    (torque(stage=0), "Stage 0 of 2"),
    (torque(setting="20 mm"), "torque is wanted"),
    (torque(setting="80"), "outside the proved range"),
    (Retraction(entry="nobody", reason="slip"), "no such entry"),
    (Disposition(part="orig:c1.in/turbo", what="renew", reason="worn"), "no such part"),
    (Disposition(part="orig:c1.in/valve", what="renew", reason="  "), "needs its reason"),
    (EstimateApproved(amount="much", currency="EUR", by="o"), "much"),
    (EstimateApproved(amount="-5", currency="EUR", by="o"), "below nothing"),
    (ScopeWidened(scope="everything"), "no scope everything"),
    (BookPinned(name="x", edition="1", sha256="0" * 64), "No book with the digest"),
    (RulesPinned(rules={"risk": "2"}), "A risk of"),
    (RulesPinned(rules={"mood": "good"}), "mood"),
    (GaugePinned(gauge="mic", card={"id": "mic"}), "kind"),
    (GaugePinned(gauge="mic", card={"id": "eye", "kind": "eye", "name": "eye", "source": "s"}), "another gauge"),
    (ZeroChecked(gauge="gone", text="0", unit="mm", holds=True), "no gauge gone"),
    (Ordered(order="P-1", kind="parts", lines={"9-1": 0}), "0 of 9-1 is no count"),
    (Arrived(order="P-1", lines={"9-1": -2}), "-2 of 9-1 is no count"),
    (Note(words="n" * 10_001), "10001 characters"),
)  # fmt: skip


@pytest.mark.parametrize(("body", "why"), CASES, ids=[f"{type(b).__name__} {w[:24]}" for b, w in CASES])
def test_it_is_refused_and_nothing_lands(body: Body, why: str) -> None:
    words = str(refused(shop(), body))
    assert any(part in words for part in why.split("|")), words


def test_a_second_of_each_check_on_what_is_retracted_and_closed() -> None:
    bench = shop()
    bench.record(JOB, [Note(words="one"), JobClosed(reason="done")], HAND)
    note, closing = bench.entry_id(JOB, 4), bench.entry_id(JOB, 5)
    assert "closed since entry 5" in str(refused(bench, Note(words="two")))
    assert "closed since entry 5" in str(refused(bench, Retraction(entry=note, reason="slip")))
    assert bench.jobs()[0].state == "closed"
    bench.record(JOB, [Retraction(entry=closing, reason="one more valve")], HAND)
    bench.record(JOB, [Note(words="two"), Retraction(entry=note, reason="slip")], HAND)
    assert bench.jobs()[0].state == "open"


def test_what_is_for_good_and_the_only_book_cannot_be_retracted() -> None:
    bench = shop()
    for seq in (1, 2):
        assert "cannot be retracted" in str(refused(bench, Retraction(entry=bench.entry_id(JOB, seq), reason="slip")))
    assert "needs its reason" in str(refused(bench, Retraction(entry=bench.entry_id(JOB, 3), reason=" ")))


def test_work_that_a_material_forbids_is_written_where_it_was_done_already() -> None:
    bench = shop()
    bench.record(JOB, [OperationDone(operation="lap_valve", where=IN, detail={"already": "done"})], HAND)
    part = next(p for p in bench.view(JOB).parts if p.slot == f"{IN}/valve")
    assert "no longer usable" in part.findings[0]


def test_late_work_needs_its_reason() -> None:
    bench = shop()
    bench.record(JOB, [read("lash", IN, "0.14/0.15", "feel")], HAND)
    first = bench.entry_id(JOB, 5)
    body = OperationDone(operation="open_cam_holder", where="cam.in", before=first)
    assert "needs its reason" in str(refused(bench, body))
    bench.record(
        JOB, [OperationDone(operation="open_cam_holder", where="cam.in", before=first, because="told by ivo")], HAND
    )


def test_a_gauge_that_was_set_on_another_master_is_another_gauge() -> None:
    """Read by the new card and judged by the pinned one, +26 would silently be ten thousandths too small."""
    bench = shop()
    bench.record(JOB, [read("bore_diameter", "c1", "+26", "dial", "top x", "µm")], HAND)
    moved = GAUGES.replace("66.000 mm", "66.010 mm")
    bench.put_shelf(SHELF + moved)
    words = str(refused(bench, read("bore_diameter", "c1", "+16", "dial", "top y", "µm")))
    assert "reads it from 66.000 mm; on the shelf it now stands on 66.010 mm" in words
    bench.put_shelf(SHELF + moved + gauge("dial-2", "bore gauge", unit="µm", deviation="true", master="66.020 mm"))
    bench.record(JOB, [read("bore_diameter", "c1", "+6", "dial-2", "top y", "µm")], HAND)


def test_a_gauge_that_left_the_shelf_still_reads_in_the_job_that_knows_it() -> None:
    bench = shop()
    bench.record(JOB, [read("lash", IN, "0.14/0.15", "feel")], HAND)
    bench.put_shelf(SHELF + gauge("mic", "micrometer"))
    bench.record(JOB, [read("lash", "c2.in", "0.14/0.15", "feel")], HAND)
    assert bench.view(JOB).at("lash@c2.in").verdict == "in setting"  # type: ignore[union-attr]
    card = bench.card("mic", bench.worked(JOB).given.state)
    assert card is not None
    assert "another card" in str(refused(bench, GaugePinned(gauge="feel", card=card.pinned() | {"id": "feel"})))


@pytest.mark.parametrize(
    ("number", "scope", "hours", "altitude"),
    [("", "valves", "", ""), ("a b", "valves", "", ""), ("../x", "valves", "", ""), ("n" * 41, "valves", "", ""),
     ("N", "all", "", ""), ("N", "valves", "many", ""), ("N", "valves", "", "12 kPa")],
)  # fmt: skip
def test_a_job_that_cannot_be_opened_is_not_opened(number: str, scope: str, hours: str, altitude: str) -> None:
    from gudgeon.problem import Refused

    bench = shop()
    with pytest.raises(Refused):
        bench.open_job(JobOpened(number=number, engine_number="1", scope=scope, hours=hours, altitude=altitude),
                       next(iter(bench.library.books()))[0], HAND)  # fmt: skip
    assert [row.number for row in bench.jobs()] == [JOB]


# -- slips -----------------------------------------------------------------------------------------------------------------

SLIPS = (
    (read("stem_diameter", IN, "0.5455", "mic", "top x"), "ten_times_off", "5.455 mm"),
    (read("stem_diameter", IN, "0.2150", "mic", "top x"), "inch_for_mm", "5.461 mm"),
    (read("lash", IN, "1.4/1.5", "feel"), "ten_times_off", "0.14 mm"),
    (read("lash", IN, "3.81/3.90", "feel", unit="mm"), "mm_for_inch", "0.15 mm"),
    (read("stem_diameter", IN, "4.557", "mic", "top x"), "digits_swapped", "5.457 mm"),
    (read("stem_diameter", IN, "0.2510", "mic", "top x", "in"), "digits_swapped", "5.461 mm"),
    (read("bore_diameter", "c1", "+260", "dial", "top x", "µm"), "ten_times_off", "66.026 mm"),
    (read("bore_diameter", "c1", "260", "dial", "top x", "µm"), "ten_times_off", "66.026 mm"),
    (read("compression", "c1", "98", "comp", "cold", "kPa"), "ten_times_off", "980 kPa"),
    (read("leak_down", "c1", "110", "leak", "cold", "%"), "ten_times_off", "11 %"),
    (read("valve_margin", IN, "40", "cal"), "ten_times_off", "4 mm"),
    (read("compression", "c1", "5", "comp", "cold", "kPa"), "implausible", ""),
)


@pytest.mark.parametrize(("body", "key", "meant"), SLIPS, ids=[f"{k} {b.text}" for b, k, _ in SLIPS])
def test_a_slip_is_asked_with_its_likely_meaning_and_lands_when_confirmed(body: Reading, key: str, meant: str) -> None:
    bench = shop()
    bench.put_shelf(SHELF + GAUGES + gauge("cal", "caliper"))
    wrong = refused(bench, body)
    assert isinstance(wrong, Asked), wrong
    assert wrong.slip.key == key and (f"Did you mean {meant}?" in str(wrong) or not meant), str(wrong)
    other = Reading(
        **{f: getattr(body, f) for f in body.__struct_fields__ if f != "confirmed"}, confirmed=("no_such_slip",)
    )
    assert isinstance(refused(bench, other), Asked), "another slip was confirmed, not this one"
    sure = Reading(**{f: getattr(body, f) for f in body.__struct_fields__ if f != "confirmed"}, confirmed=(key,))
    bench.record(JOB, [sure], HAND)
    assert bench.loaded(JOB).entries[-1].typed.body == sure


@pytest.mark.parametrize("text", ["5.430", "5.475", "5.400", "0.2145 in", "5.50"])
def test_what_a_worn_or_new_stem_can_be_is_not_asked(text: str) -> None:
    shop().record(JOB, [read("stem_diameter", IN, text, "mic", "top x")], HAND)


@pytest.mark.parametrize(
    ("measurand", "text", "with_", "unit"),
    [("leak_down", "1", "leak", "%"), ("leak_down", "35", "leak", "%"), ("compression", "700", "comp", "kPa"),
     ("compression", "1300", "comp", "kPa")],
)  # fmt: skip
def test_a_limit_with_one_end_leaves_its_other_side_open(measurand: str, text: str, with_: str, unit: str) -> None:
    shop().record(JOB, [read(measurand, "c1", text, with_, "cold", unit)], HAND)


@pytest.mark.parametrize("text", ["0.03/0.04", "0.30/0.31", "0.40/0.42", "<0.03", "no gap", ">0.5"])
def test_what_a_lash_as_found_can_be_is_not_asked(text: str) -> None:
    shop().record(JOB, [read("lash", IN, text, "feel")], HAND)
