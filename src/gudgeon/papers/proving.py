"""What the closed engine proved: each reading against what was to be expected of it, and where a leak most likely goes."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Heading, Para, Table
from gudgeon.papers.common import listed
from gudgeon.view.job import LineView
from gudgeon.view.record import JobRecord

#: When a line speaks of, in the order in which it is read; what has no time is of the engine as it stands.
WHEN = (("now", "now"), ("", "now"), ("as found", "as found"))
#: Said elsewhere on the same papers.
ELSEWHERE = ("first start", "recheck")


def proof(view: JobRecord, level: int = 2) -> tuple[Block, ...]:
    """The proof as its plan says it, now before as found; nothing where the job asks for no proof or has none yet."""
    plan = view.plan("proof")
    lines = tuple(one for one in plan.lines if one.numbers.get("of") not in ELSEWHERE) if plan else ()
    if plan is None or not lines:
        return ()
    single = len({line.where for line in lines if line.where}) <= 1
    rows: list[tuple[str, str]] = []
    groups: list[tuple[int, str]] = []
    for when, over in WHEN:
        for line in (one for one in lines if one.numbers.get("when", "") == when):
            if not groups or groups[-1][1] != over:
                groups.append((len(rows), over))
            rows.append((_what(line, single), "\n".join(line.because)))
    head = ("proved, or found", "against what")
    return (
        Heading("Proof: what was read against what was to be expected", level),
        Table(head=head, rows=tuple(rows), widths=(2, 3), dense=True, groups=tuple(groups)),
        *((Para(listed(plan.reasons), "context"),) if plan.reasons else ()),
    )


def _what(line: LineView, single: bool) -> str:
    """The line without the time that stands over it, with its cylinder where there are several."""
    when = str(line.numbers.get("when", ""))
    words = line.what.removeprefix(when).lstrip(" ,:") if when else line.what
    words = f"leak path: {words}" if line.numbers.get("of") == "leak path" else words
    return words if single or not line.name else f"{line.name}, {words}"
