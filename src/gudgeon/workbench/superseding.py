"""Whether a paper that was handed over still says what the job says: worked out anew, never stored."""

from __future__ import annotations

from msgspec.structs import replace

from gudgeon.papers.catalogue import PAPERS
from gudgeon.papers.marking import content
from gudgeon.view.job import JobView
from gudgeon.workbench.build import Worked
from gudgeon.workbench.recording import recorded


def with_papers(worked: Worked) -> JobView:
    """The read model, its issued papers each held against what would be printed now."""
    record = recorded(worked)
    kinds = {p.paper for p in worked.view.papers}
    now = {key: content(kind.blocks(record)) for key, kind in PAPERS.items() if key in kinds}
    papers = tuple(replace(p, superseded=now.get(p.paper) != p.content) for p in worked.view.papers)
    return replace(worked.view, papers=papers)
