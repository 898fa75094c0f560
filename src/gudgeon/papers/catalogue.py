"""Every kind of paper, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.papers.kinds import bench_sheet, hand_over, machining_order
from gudgeon.papers.shape import Paper
from gudgeon.view.record import JobRecord

PAPERS: Mapping[str, Paper[JobRecord]] = {
    kind.KEY: kind
    for kind in (
        bench_sheet,
        machining_order,
        hand_over,
    )
}
