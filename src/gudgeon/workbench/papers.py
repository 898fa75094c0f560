"""Papers of a job: made from its ledger, handed over as an entry, and checked against it years later."""

from __future__ import annotations

from dataclasses import replace
from difflib import SequenceMatcher
from html import escape
from typing import Literal

from msgspec import Struct

from gudgeon.job.entries import PaperIssued
from gudgeon.papers.blocks import Block
from gudgeon.papers.catalogue import LABELLED, PAPERS
from gudgeon.papers.decimals import with_comma
from gudgeon.papers.html import html
from gudgeon.papers.labels import STOCKS, label_pdf
from gudgeon.papers.marking import Mark, content, marked, marks_in
from gudgeon.papers.pdf import pdf
from gudgeon.papers.photos import developed
from gudgeon.papers.shape import Paper
from gudgeon.papers.text import lines
from gudgeon.papers.typesetting import Paper as Page
from gudgeon.papers.typesetting import Standard
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.view.job import JobView, PaperView
from gudgeon.view.record import JobRecord
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.build import work_through
from gudgeon.workbench.loading import load
from gudgeon.workbench.ports import Landed
from gudgeon.workbench.recording import recorded

Size = Literal["a4", "letter"]
PAGES: dict[str, Page] = {"a4": "a4", "letter": "us-letter"}
MOST_CHANGES = 40


class PaperKind(Struct, frozen=True, kw_only=True):
    """A kind of paper, and when it was handed over."""

    key: str
    name: str
    for_whom: str
    issued: tuple[PaperView, ...]


class PaperCheck(Struct, frozen=True, kw_only=True):
    """What a paper says of itself, and whether its job still says so: `matches` only where nothing speaks against it."""

    job: str
    paper: str
    entry: int
    matches: bool
    words: tuple[str, ...]


def papers(view: JobView | None = None) -> list[PaperKind]:
    """Every kind of paper in the order in which a job needs them; with a job, when each was handed over."""
    issued = view.papers if view else ()
    return [
        PaperKind(key=k.KEY, name=k.NAME, for_whom=k.FOR, issued=tuple(p for p in issued if p.paper == k.KEY))
        for k in PAPERS.values()
    ]


def paper(
    bench: Workbench, number: str, kind: str, *, size: str = "a4", head: int | None = None, archival: bool = False
) -> bytes:
    """The paper as a PDF: as the job stands, or as it stood after entry `head`; labels also by the size of their sheet.

    Tagged for readers that do not see (PDF/UA-1), or, `archival`, for a file that outlives its programs (PDF/A-2a).
    """
    if kind in LABELLED and size in STOCKS:
        return label_pdf(
            LABELLED[kind](_record(bench, number, head)), STOCKS[size], title=f"{_kind(kind).NAME} {number}"
        )
    page = PAGES.get(size)
    if page is None:
        known = ", ".join((*PAGES, *(STOCKS if kind in LABELLED else ())))
        raise refuse("paper", "There is no size {size}.", "Sizes: {known}.", size=size, known=known)
    standard: Standard = "a-2a" if archival else "ua-1"
    return pdf(_sealed(bench, number, _kind(kind), head), paper=page, standard=standard)


def paper_html(bench: Workbench, number: str, kind: str, *, head: int | None = None) -> str:
    """The same blocks as a piece of a page."""
    return html(_sealed(bench, number, _kind(kind), head))


def page(bench: Workbench, number: str, kind: str, *, head: int | None = None) -> str:
    """A whole page that stands alone, for a printer or a letter."""
    piece = paper_html(bench, number, kind, head=head)
    name = escape(f"{_kind(kind).NAME} {number}")
    return f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{name}</title></head><body>{piece}</body></html>\n'


def issue(bench: Workbench, number: str, kind: str, hand: Hand) -> Landed:
    """Write down that a paper was handed over: what it said, and the entry it was built on (the one before this)."""
    view = _record(bench, number, None)
    fact = PaperIssued(paper=kind, content=content(_kind(kind).blocks(view)), of=view.ledger.head)
    return bench.record(number, (fact,), hand)[0]


def what_changed(bench: Workbench, number: str, issued: PaperView) -> tuple[str, ...]:
    """What a paper that was handed over said and no longer says, and what it says now instead."""
    fact = next((e.typed.body for e in bench.loaded(number).entries if e.seq == issued.entry), None)
    if not isinstance(fact, PaperIssued):
        raise refuse(f"job {number}", "Entry {n} hands over no paper.", "Look at its papers.", n=issued.entry)
    kind = _kind(fact.paper)
    return _changes(kind.blocks(_record(bench, number, fact.of)), kind.blocks(_record(bench, number, None)))


def check_paper(bench: Workbench, data: bytes) -> PaperCheck:
    """Whether a paper's file is what this job's ledger gave, and whether the job still says the same."""
    found = marks_in(data.decode("latin-1"))
    if len(found) != 1:
        what = "The file carries {n} marks of a paper." if found else "The file carries no mark of a paper."
        raise refuse("paper", what, "Give the PDF or the page as it was written.", n=len(found))
    mark = found[0]
    if bench.ledgers.job(mark.job) is None:
        return _checked(mark, False, f"There is no job {mark.job} here: import its archive first.")
    rows = bench.ledgers.rows(mark.job)
    at = next((row for row in rows if row.seq == mark.head), None)
    if at is None or not at.digest.hex().startswith(mark.ledger) or bench.verify(mark.job):
        return _checked(
            mark, False, "The ledger was changed, rewritten or cut since: it no longer leads to this paper's digest."
        )
    return _against_content(bench, mark, data)


def _against_content(bench: Workbench, mark: Mark, data: bytes) -> PaperCheck:
    kind = _kind(mark.paper)
    then, now = (kind.blocks(_record(bench, mark.job, head)) for head in (mark.head, None))
    if not content(then).startswith(mark.content):
        return _checked(mark, False, "The ledger is as it was, but gives other words now: another version of Gudgeon, "
                        "or another shelf.", *_changes(then, kind.blocks(_record(bench, mark.job, None))))  # fmt: skip
    same = any(
        data == paper(bench, mark.job, mark.paper, size=size, head=mark.head, archival=archival)
        for archival in (False, True)
        for size in PAGES
    )
    same = same or paper_html(bench, mark.job, mark.paper, head=mark.head).encode() in data
    sound = "The file is, byte for byte, what the ledger gives." if same else (
        "The file is not byte for byte what the ledger gives: its words may have been altered. Print it anew.")  # fmt: skip
    if content(now) == content(then):
        return _checked(mark, same, sound, "The job still says the same.")
    return _checked(mark, False, sound, "Superseded: the job has moved on.", *_changes(then, now))


def _checked(mark: Mark, matches: bool, *words: str) -> PaperCheck:
    return PaperCheck(job=mark.job, paper=mark.paper, entry=mark.head, matches=matches, words=words)


def _kind(key: str) -> Paper[JobRecord]:
    if key not in PAPERS:
        raise refuse("paper", "There is no paper {kind}.", "Papers: {known}.", kind=key, known=", ".join(PAPERS))
    return PAPERS[key]


def _sealed(bench: Workbench, number: str, kind: Paper[JobRecord], head: int | None) -> tuple[Block, ...]:
    view = _record(bench, number, head)
    blocks = kind.blocks(view)
    mark = Mark(job=number, paper=kind.KEY, head=view.ledger.head, ledger=view.ledger.digest, content=content(blocks))
    shown = with_comma(blocks) if view.record.rules.get("decimal_mark") == "comma" else blocks
    return marked(developed(shown, bench.pictures.get), mark)


def _record(bench: Workbench, number: str, head: int | None) -> JobRecord:
    """The job as papers see it; refused where its ledger does not verify."""
    loaded = bench.loaded(number)
    problems = bench.verify(number)
    if problems:
        what = said("The ledger does not verify: no paper is made from it.")
        why = Problem(where=f"job {number}", what=what, remedy=said("Restore a copy from before the change."))
        raise Refused((why, *problems))
    if head is None or head == loaded.head:
        return recorded(bench.worked(number))
    then = replace(load(loaded.rows[:head]), number=number)
    return recorded(work_through(then, bench.book(then.book()), bench.shelf()))


def _changes(then: tuple[Block, ...], now: tuple[Block, ...]) -> tuple[str, ...]:
    before, after = lines(then), lines(now)
    found: list[str] = []
    for tag, a, b, c, d in SequenceMatcher(a=before, b=after, autojunk=False).get_opcodes():
        if tag != "equal":
            found += [f"no longer: {line}" for line in before[a:b]] + [f"now: {line}" for line in after[c:d]]
    return tuple(found[:MOST_CHANGES]) + (
        (f"and {len(found) - MOST_CHANGES} more",) if len(found) > MOST_CHANGES else ()
    )
