"""Papers of jobs as they come: empty, long, hostile, without prices, with a broken ledger; and whether a paper still holds."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdf
import pytest
from PIL import Image

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job import chain, codec
from gudgeon.job.entries import Finding, JobOpened, Note, Reading, Typed
from gudgeon.papers.catalogue import LABELLED, PAPERS
from gudgeon.papers.labels import STOCKS
from gudgeon.papers.text import lines
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.papers import check_paper, issue, page, paper, paper_html, papers, what_changed
from gudgeon.workbench.ports import Row
from gudgeon.workbench.recording import recorded
from workbench.engine import HAND, did, job, read, record

HOSTILE = "<script>x</script> #eval(1) $x$ *b* \\ @ref \x07\x1b[31m \u202eabc 😀 \ud7ff " + "W" * 300


def text_of(data: bytes) -> str:
    return "\n".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(data)).pages)


@pytest.mark.parametrize("kind", PAPERS)
def test_a_job_without_a_reading_has_every_paper(kind: str) -> None:
    assert PAPERS[kind].NAME in text_of(paper(job(), "T-1", kind))


@pytest.mark.parametrize("scope", ["valves", "leak test", "cylinder", "whole top end"])
def test_every_scope_has_every_paper(scope: str) -> None:
    bench = job(scope)
    for kind in PAPERS:
        assert lines(PAPERS[kind].blocks(recorded(bench.worked("T-1"))))


def test_no_price_is_said_and_never_counted_as_nothing() -> None:
    bench = job()
    record(bench, did("loosen_head", "head"))
    text = "\n".join(lines(PAPERS["parts_order"].blocks(recorded(bench.worked("T-1")))))
    assert "0.00" not in text


def test_without_prices_the_estimate_says_which_are_missing() -> None:
    bench = job()
    record(bench, did("open_cover", "head"), did("loosen_head", "head"))
    for kind in ("estimate", "parts_order"):
        text = text_of(paper(bench, "T-1", kind))
        assert "0.00" not in text and "nan" not in text.casefold()
    assert "No sum yet" in text_of(paper(bench, "T-1", "estimate"))


@pytest.mark.parametrize("kind", PAPERS)
def test_ten_thousand_characters_typed_into_a_job_stay_on_the_sheet(kind: str) -> None:
    bench = job()
    words = "شيء طويل שלום 😀 " + "Q" * 3000
    record(bench, *(Note(words=words, where=where) for where in ("advised", "not done", "")))
    record(bench, Finding(kind="seen", where="c1.in.left/valve", words=words))
    pages = pypdf.PdfReader(io.BytesIO(paper(bench, "T-1", kind))).pages
    assert 1 <= len(pages) <= 40
    if kind == "technical_record":
        assert "".join(p.extract_text() for p in pages).count("Q") >= 10_000


@pytest.mark.parametrize("kind", PAPERS)
def test_typed_words_stay_words(kind: str) -> None:
    bench = job()
    opened = JobOpened(
        number="T-2", engine_number=HOSTILE[:80], scope="head out", machine=HOSTILE, complaint=HOSTILE * 9
    )
    bench.open_job(opened, bench.loaded("T-1").book(), HAND)
    for where in ("", "advised", "not done"):
        bench.record("T-2", (Note(words=HOSTILE * 20, where=where),), HAND)
    bench.record("T-2", (Finding(kind=HOSTILE[:60], where="c1.in.left/valve", words=HOSTILE),), HAND)
    assert paper(bench, "T-2", kind) == paper(bench, "T-2", kind)
    html = paper_html(bench, "T-2", kind)
    assert "<script" not in html and "\x1b" not in html and "\u202e" not in html


def long_job(readings: int) -> Workbench:
    """A job with so many readings, landed straight into its ledger."""
    bench = job("valves")
    record(bench, read("lash", "c1.in.left", "0.12/0.13", "FEEL"))
    rows = list(bench.ledgers.rows("T-1"))
    places = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")
    for n in range(len(rows) + 1, readings + len(rows) + 1):
        body = Reading(measurand="lash", where=places[n % 4], text="0.12/0.13", unit="mm", gauge="FEEL")
        typed = Typed(id=f"id-{n}", typed_at="2026-11-25T10:00:00Z", by="t", bench="b", nth=n, seen=n - 1, body=body)
        line = codec.landed_line(codec.encode(typed), seq=n, landed_at="2026-11-25T10:00:00Z", account="")
        rows.append(Row(seq=n, line=line, digest=chain.link(rows[-1].digest, line)))
    kept = bench.ledgers.job("T-1")
    assert kept is not None
    bench.ledgers.adopt(replace(kept, head=len(rows)), tuple(rows))
    return bench


def test_two_thousand_readings_are_a_record() -> None:
    bench = long_job(2000)
    data = paper(bench, "T-1", "technical_record")
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert len(reader.pages) > 30
    assert "2004" in reader.pages[-3].extract_text() + reader.pages[-4].extract_text() + text_of(data)
    assert len(pypdf.PdfReader(io.BytesIO(paper(bench, "T-1", "hand_over"))).pages) < 60


def test_no_paper_of_a_ledger_that_does_not_verify() -> None:
    bench = job("valves")
    record(bench, read("lash", "c1.in.left", "0.12/0.13", "FEEL"))
    rows = list(bench.ledgers.rows("T-1"))
    rows[-1] = replace(rows[-1], line=rows[-1].line.replace("0.12/0.13", "0.22/0.23"))
    kept = bench.ledgers.job("T-1")
    assert kept is not None
    bench.ledgers.adopt(kept, tuple(rows))
    with pytest.raises(Refused, match=r"does not verify(.|\n)*entry \d+"):
        paper(bench, "T-1", "hand_over")
    with pytest.raises(Refused, match="does not verify"):
        issue(bench, "T-1", "hand_over", HAND)


def test_unknown_kind_size_and_job_are_refused_with_what_is_known() -> None:
    bench = job()
    with pytest.raises(Refused, match="Papers: job_card"):
        paper(bench, "T-1", "invoice")
    with pytest.raises(Refused, match="Sizes: a4, letter"):
        paper(bench, "T-1", "hand_over", size="a0")
    with pytest.raises(Refused, match="no such job"):
        paper(bench, "T-9", "hand_over")


@pytest.mark.parametrize("stock", STOCKS)
def test_labels_are_printed_on_their_sheets_or_refused(stock: str) -> None:
    bench = job()
    whole = LABELLED["labels"](recorded(bench.worked("T-1")))
    assert any("intake left" in one.lines[0] for one in whole)
    assert "intake left" in text_of(paper(bench, "T-1", "labels", size=stock))
    with pytest.raises(Refused, match="Sizes"):
        paper(bench, "T-1", "hand_over", size=stock)


# -- photos ----------------------------------------------------------------------------------------------------------------


def photo(shade: str) -> bytes:
    kept = io.BytesIO()
    Image.new("RGB", (320, 240), shade).save(kept, "JPEG")
    return kept.getvalue()


@pytest.mark.parametrize("kind", ["hand_over", "technical_record"])
def test_photos_of_findings_and_notes_are_printed_and_a_missing_one_is_said(kind: str) -> None:
    bench = job()
    seen, gone = bench.pictures.put(photo("#335577")), "0" * 64
    torn = bench.pictures.put(b"no picture")
    record(bench, Finding(kind="grooved", where="c1.in.left/valve", words="all round", photos=(seen, gone)))
    record(bench, Note(words="as it came in", photos=(torn,)))
    data = paper(bench, "T-1", kind)
    assert data == paper(bench, "T-1", kind)
    pictures = [i.image.size for p in pypdf.PdfReader(io.BytesIO(data)).pages for i in p.images if i.image]
    assert pictures == [(320, 240)]
    text = text_of(data)
    assert "intake left valve, grooved, all round" in text
    assert f"Its photo ({gone[:8]}) is not in this workshop's folder." in text and f"({torn[:8]})" in text
    web = paper_html(bench, "T-1", kind)
    assert web.count('src="data:image/jpeg;base64,') == 1 and gone[:8] in web
    assert check_paper(bench, data).matches


def test_many_photos_are_counted() -> None:
    bench = job("valves")
    many = tuple(bench.pictures.put(photo(f"#{n:02x}0000")) for n in range(15))
    record(bench, Note(words="all of it", photos=many))
    assert "And 3 more photos" in text_of(paper(bench, "T-1", "hand_over"))


# -- handed over, superseded, checked ------------------------------------------------------------------------------------


def issued() -> tuple[Workbench, bytes]:
    """A hand-over that was written down, and its file."""
    bench = job("valves")
    record(bench, read("lash", "c1.in.left", "0.12/0.13", "FEEL"))
    landed = issue(bench, "T-1", "hand_over", HAND)
    return bench, paper(bench, "T-1", "hand_over", head=landed.seq - 1)


def test_handing_over_does_not_supersede_itself() -> None:
    bench, data = issued()
    issue(bench, "T-1", "job_card", HAND)
    assert [(p.paper, p.superseded) for p in bench.view("T-1").papers] == [("hand_over", False), ("job_card", False)]
    found = check_paper(bench, data)
    assert found.matches and found.words[-1] == "The job still says the same."
    assert {k.key: len(k.issued) for k in papers(bench.view("T-1")) if k.issued} == {"job_card": 1, "hand_over": 1}


def test_an_archival_file_says_so_and_is_checked_like_any_other() -> None:
    bench, data = issued()
    head = check_paper(bench, data).entry
    archival = paper(bench, "T-1", "hand_over", head=head, archival=True)
    assert b"<pdfaid:part>2</pdfaid:part>" in archival and b"<pdfaid:conformance>A</pdfaid:conformance>" in archival
    assert b"pdfaid" not in data and check_paper(bench, archival).matches


def test_what_changes_a_paper_supersedes_it_and_is_named() -> None:
    bench, data = issued()
    record(bench, read("lash", "c1.in.right", "0.11/0.12", "FEEL"), Note(words="new battery advised", where="advised"))
    (kept,) = bench.view("T-1").papers
    assert kept.superseded
    changes = what_changed(bench, "T-1", kept)
    assert any("new battery advised" in c and c.startswith("now: ") for c in changes)
    found = check_paper(bench, data)
    assert not found.matches and "Superseded" in found.words[1] and "byte for byte, what" in found.words[0]


def test_a_retraction_that_undoes_the_change_makes_it_stand_again() -> None:
    bench, _data = issued()
    record(bench, Note(words="slip", where="advised"))
    assert bench.view("T-1").papers[0].superseded
    bench.retract("T-1", bench.view("T-1").ledger.head, "slip", HAND)
    assert not bench.view("T-1").papers[0].superseded


def test_a_paper_that_was_touched_does_not_match() -> None:
    bench, data = issued()
    i = data.rindex(b"endstream") - 9
    touched = data[:i] + bytes([data[i] ^ 1]) + data[i + 1 :]
    found = check_paper(bench, touched)
    assert not found.matches and "not byte for byte" in found.words[0]


def test_a_page_is_checked_too() -> None:
    bench, _data = issued()
    whole = page(bench, "T-1", "hand_over")
    assert check_paper(bench, whole.encode()).matches
    assert not check_paper(bench, whole.replace("0.125", "0.135").encode()).matches


def test_a_rewritten_ledger_and_a_strange_file_are_told_apart() -> None:
    bench, data = issued()
    other = job("valves")
    found = check_paper(other, data)
    assert not found.matches and "rewritten or cut" in found.words[0]
    with pytest.raises(Refused, match="no mark"):
        check_paper(bench, b"%PDF-1.7 nothing")
    empty = job("valves", number="T-5")
    assert "no job T-1" in check_paper(empty, data).words[0]


@pytest.mark.parametrize("name", ["corrie", "scree", "gully", "tarn"])
def test_every_layout_has_every_paper(name: str) -> None:
    bench = job()
    bench.put_shelf(shelf_text())
    book = bench.add_book(book_text(name))
    for n, scope in enumerate(("valves", "leak test", "cylinder", "head out", "whole top end")):
        number = f"L-{n}"
        bench.open_job(JobOpened(number=number, engine_number="7", scope=scope), book, HAND)
        view = recorded(bench.worked(number))
        assert all(lines(kind.blocks(view)) for kind in PAPERS.values())
    for kind in ("bench_sheet", "assembly_sheet", "hand_over"):
        assert PAPERS[kind].NAME in text_of(paper(bench, "L-4", kind))
