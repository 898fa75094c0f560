"""Two people must not decide past each other: what arrived since the head that a decision was made on."""

from __future__ import annotations

from gudgeon.problem import Problem, said
from gudgeon.workbench.loading import Loaded
from gudgeon.workbench.ports import OldHead
from gudgeon.workbench.words import fact_place, fact_words

#: More than this nobody reads in a refusal.
NAMED = 4


def check_head(seen: int, loaded: Loaded) -> None:
    """Refuse a decision made on an older head, naming what arrived since; storage looks once more as it appends."""
    if seen == loaded.head:
        return
    remedy = said("Look at what changed and decide again.")
    if seen > loaded.head:
        what = said(
            "The job stands at entry {head}, before entry {seen}: a copy was put back.", head=loaded.head, seen=seen
        )
        raise OldHead(Problem(where="head", what=what, remedy=remedy), head=loaded.head)
    since = [e for e in loaded.entries if e.seq > seen]
    words = [f"{e.seq} {fact_words(e.typed.body)} {fact_place(e.typed.body)}".strip() for e in since[:NAMED]]
    words += [f"… {loaded.head}"] if len(since) > NAMED else []
    what = said("Since entry {seen} the job has gone on to entry {head}: {arrived}.",
                seen=seen, head=loaded.head, arrived=", ".join(words))  # fmt: skip
    raise OldHead(Problem(where="head", what=what, remedy=remedy), head=loaded.head)
