"""Every kind of paper, in the order in which a job needs them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from gudgeon.papers.kinds import (
    assembly_sheet,
    bench_sheet,
    do_not_start,
    estimate,
    hand_over,
    job_card,
    labels,
    machining_order,
    old_parts,
    parts_order,
    proof_sheet,
    recheck_card,
    technical_record,
)
from gudgeon.papers.labels import Label
from gudgeon.papers.shape import Paper
from gudgeon.view.record import JobRecord

PAPERS: Mapping[str, Paper[JobRecord]] = {
    kind.KEY: kind
    for kind in (
        job_card,
        do_not_start,
        labels,
        bench_sheet,
        machining_order,
        parts_order,
        estimate,
        assembly_sheet,
        proof_sheet,
        recheck_card,
        old_parts,
        hand_over,
        technical_record,
    )
}

#: Papers that are printed on label sheets.
LABELLED: Mapping[str, Callable[[JobRecord], tuple[Label, ...]]] = {labels.KEY: labels.labels}
