"""The engine in section: each level says where it stands, and moves when the ledger does."""

from __future__ import annotations

from tests.workbench.engine import did, job, read, record
from tests.workbench.memory import workbench

from gudgeon.anatomy import Layout, Side
from gudgeon.book.write import empty_book
from gudgeon.job.entries import Disposition, EstimateApproved, JobOpened, PartFitted, PartReceived, Reading
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.stack import LevelView, engine, stack

VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


def level(wb: Workbench, key: str) -> LevelView:
    return next(one for one in stack(wb.worked("T-1")) if one.key == key)


def stems(wb: Workbench, valve: str, text: str) -> None:
    points = [f"{height} {axis}" for height in ("top", "middle", "bottom") for axis in "xy"]
    record(wb, *(read("stem_diameter", valve, text, "MIC", point) for point in points))


def test_levels_stand_from_the_cover_down() -> None:
    keys = [one.key for one in stack(job().worked("T-1"))]
    assert keys == [
        "cover",
        "cams",
        "followers",
        "springs",
        "valves",
        "head",
        "gasket",
        "barrel",
        "piston",
        "crankcase",
    ]


def test_exactly_one_level_is_asked_for_and_it_is_the_next_thing() -> None:
    wb = job()
    view = engine(wb, "T-1")
    now = [one for one in view.levels if one.now]
    assert [one.key for one in now] == ["followers"]
    assert now[0].address == view.job.next.address
    assert view.job.next.words in now[0].line1


def test_what_the_scope_does_not_ask_stays() -> None:
    wb = job("valves")
    assert (level(wb, "barrel").word, level(wb, "barrel").line2) == ("stays", "not in this job")


def test_a_worn_valve_is_decided_then_renewed_then_done() -> None:
    wb = job()
    record(wb, did("open_cover", "head"), did("loosen_head", "head"), did("open_keepers", "c1.in.left"))
    stems(wb, "c1.in.left", "4.430")
    worn = level(wb, "valves")
    assert worn.line1.endswith("1 to decide") and "past limit" in worn.line2 and "least 4.460" in worn.line2
    record(wb, Disposition(part="orig:c1.in.left/valve", what="renew", reason="worn"))
    assert "1 valve new" in level(wb, "valves").line1
    record(wb, PartReceived(kind="valve"))
    new = wb.loaded("T-1").entries[-1].typed.id
    record(wb, PartFitted(part=new, slot="c1.in.left/valve"))
    assert "valve new" not in level(wb, "valves").line1


def test_out_until_it_came_back() -> None:
    wb = job()
    record(wb, did("loosen_head", "head"), did("sent_out", "head/head", order="M-2"))
    assert (level(wb, "head").shape, level(wb, "head").line1) == ("out", "head out, order M-2")
    record(wb, did("came_back", "head/head"))
    assert level(wb, "head").shape != "out"


def test_something_fallen_in_stops_the_engine_until_it_is_found() -> None:
    wb = job()
    record(wb, did("dropped_in", "engine", what="keeper"))
    assert level(wb, "crankcase").shape == "stop"
    record(wb, did("found", "engine", what="keeper"))
    assert level(wb, "crankcase").shape != "stop"


def test_rags_are_counted_at_the_mouth() -> None:
    wb = job()
    record(wb, did("rag_in", "engine", count="2"))
    assert level(wb, "crankcase").line1 == "2 rags in, counted"


def test_tight_lash_names_every_valve() -> None:
    wb = job("valves")
    for valve, text in zip(VALVES, ("0.05", "0.12", "0.22", "0.23"), strict=True):
        record(wb, read("lash", valve, text, "FEEL"))
    tight = level(wb, "followers")
    assert "in left 0.050" in tight.line2 and "ex right 0.230" in tight.line2 and tight.line2.endswith("tight")


def test_a_word_is_said_once() -> None:
    wb = job("valves")
    record(wb, did("open_cam_holder", "cam.in"), did("tighten_cam_holder", "cam.in"), did("turn_forwards", "engine"))
    record(wb, Reading(measurand="timing_marks", where="cam.in", text="in line", unit="", gauge="eye"))
    assert level(wb, "cams").line2 == "timing marks, cam intake: in line"


def test_the_ceiling_is_the_last_yes() -> None:
    wb = job()
    assert engine(wb, "T-1").approved == ""
    record(wb, EstimateApproved(amount="300", currency="EUR", by="owner"))
    record(wb, EstimateApproved(amount="640.00", currency="EUR", by="owner"))
    assert engine(wb, "T-1").approved == "640.00 EUR"


def test_a_push_rod_engine_has_its_cam_below() -> None:
    side = Side(valves=1, follower="pushrod_screw")
    layout = Layout(cylinders=1, arrangement="single", intake=side, exhaust=side, cams="one", cam_drive="pushrod")
    wb = workbench()
    sha = wb.add_book(empty_book(layout, "Rods"))
    wb.open_job(JobOpened(number="T-1", engine_number="1"), sha, Hand(by="t", bench="b"))
    keys = [one.key for one in stack(wb.worked("T-1"))]
    assert "cams" not in keys and keys.index("pushrods") == keys.index("followers") + 1
