"""Facts typed in one breath: each is checked on what landed before it, and the list of jobs is told once."""

from __future__ import annotations

from pathlib import Path

import pytest

from gudgeon.job.entries import JobOpened, Note, Reading, TorqueApplied
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Hand, Workbench
from workbench.memory import workbench

BOOK = Path(__file__).resolve().parents[2] / "src/gudgeon/demo/books/corrie.toml"
HAND = Hand(by="k3", bench="b2")


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    sha = wb.add_book(BOOK.read_text(encoding="utf-8"))
    wb.open_job(JobOpened(number="9", engine_number="0500", scope="valves"), sha, HAND)
    return wb


def test_what_was_right_before_a_refusal_has_landed_and_is_told(bench: Workbench) -> None:
    gauge = bench.shelf().of_kind("feeler")[0].id
    good, bad = (
        Reading(measurand="lash", where=where, text="0.12/0.13", unit="mm", gauge=gauge)
        for where in ("c1.in.left", "c1.in.middle")
    )
    with pytest.raises(Refused):
        bench.record("9", (Note(words="cold"), good, bad, Note(words="never said")), HAND)
    words = [type(e.typed.body).__name__ for e in bench.loaded("9").entries][3:]
    assert words == ["Note", "GaugePinned", "Reading"]
    row = bench.ledgers.job("9")
    assert row is not None
    assert row.summary_at == bench.ledgers.head("9").seq


def test_a_fastener_without_a_joint_is_tightened_by_its_name(bench: Workbench) -> None:
    def torque(joint: str) -> TorqueApplied:
        return TorqueApplied(joint=joint, stage=1, of=1, setting="18", unit="N·m", wrench="W1")

    (landed,) = bench.record("9", (torque("engine oil union"),), HAND)
    assert landed.seq == 4
    with pytest.raises(Refused, match="no such joint"):
        bench.record("9", (torque("engine oil onion"),), HAND)
