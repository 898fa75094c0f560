"""The papers of a whole overhaul: what they say stands in the job, word for word and number for number."""

from __future__ import annotations

import io
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import msgspec
import pypdf
import pytest
import zxingcpp
from PIL import Image

from demo.telling import Told, whole
from gudgeon.demo.story import NUMBER
from gudgeon.papers.blocks import Columns, Signature, Table, Together, title_of
from gudgeon.papers.catalogue import PAPERS
from gudgeon.papers.marking import marks_in
from gudgeon.papers.text import lines
from gudgeon.view.record import JobRecord
from gudgeon.workbench.papers import paper, paper_html
from gudgeon.workbench.recording import recorded

NUMBERS = re.compile(r"\d+\.\d+")


@pytest.fixture(scope="module")
def told() -> Told:
    return whole()


@pytest.fixture(scope="module")
def view(told: Told) -> JobRecord:
    return recorded(told.bench.worked(NUMBER))


def said(view: JobRecord, kind: str) -> str:
    return "\n".join(lines(PAPERS[kind].blocks(view)))


def flat(blocks: tuple[object, ...]) -> Iterator[object]:
    for block in blocks:
        yield block
        inner = block.columns if isinstance(block, Columns) else (block.blocks,) if isinstance(block, Together) else ()
        for part in inner:
            yield from flat(part)


@pytest.mark.parametrize("kind", PAPERS)
def test_every_kind_is_one_file_twice_and_its_code_is_its_mark(kind: str, told: Told, tmp_path: Path) -> None:
    data = paper(told.bench, NUMBER, kind)
    assert data == paper(told.bench, NUMBER, kind)
    text = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    assert PAPERS[kind].NAME in text
    (mark,) = marks_in(data.decode("latin-1"))
    assert (mark.job, mark.paper, mark.head) == (NUMBER, kind, told.bench.ledgers.head(NUMBER).seq)
    assert told.bench.ledgers.head(NUMBER).digest.hex().startswith(mark.ledger)
    (tmp_path / "p.pdf").write_bytes(data)
    command = ["pdftoppm", "-r", "200", "-f", "1", "-l", "1", "-png", "-singlefile", "p.pdf", "p"]
    subprocess.run(command, cwd=tmp_path, check=True, capture_output=True)
    found = {code.text for code in zxingcpp.read_barcodes(Image.open(tmp_path / "p.png"))}
    assert str(mark) in found


@pytest.mark.parametrize("kind", PAPERS)
def test_letter_paper_and_page_say_the_same(kind: str, told: Told, view: JobRecord) -> None:
    letter = pypdf.PdfReader(io.BytesIO(paper(told.bench, NUMBER, kind, size="letter")))
    assert round(float(letter.pages[0].mediabox.width)) == 612
    page = paper_html(told.bench, NUMBER, kind)
    assert page.startswith("<article") and "<script" not in page and " style=" not in page
    assert marks_in(page) and PAPERS[kind].NAME in page


def known_numbers(view: JobRecord) -> set[str]:
    """Every decimal number that the job holds: in a text, or a size at any usual number of places, or its doubt."""
    found: set[str] = set()

    def walk(thing: object) -> None:
        match thing:
            case bool() | None:
                return
            case float() | int():
                found.update(f"{size:.{places}f}" for size in (abs(thing), 2 * abs(thing)) for places in range(7))
            case str():
                found.update(NUMBERS.findall(thing.replace(",", "")))
            case dict():
                for inner in thing.values():
                    walk(inner)
            case list() | tuple():
                for inner in thing:
                    walk(inner)

    walk(msgspec.to_builtins(view))
    return found


@pytest.mark.parametrize(
    "kind", ["hand_over", "technical_record", "recheck_card", "proof_sheet", "old_parts", "bench_sheet"]
)
def test_no_number_comes_from_the_paper(kind: str, view: JobRecord) -> None:
    known = known_numbers(view)
    assert {n for n in NUMBERS.findall(said(view, kind)) if n not in known} == set()


def test_the_owner_reads_what_was_found_done_renewed_and_left(view: JobRecord) -> None:
    page = said(view, "hand_over").partition("Evidence")[0]
    for words in (
        "hard to start when warm",
        "face grooved",
        "compression, cylinder: 985 kPa, past limit (≥ 1049 kPa)",
        "stem-to-guide clearance, intake left: 0.094 mm, past limit (≤ 0.080 mm)",
        "seat cut: intake left, intake right",
        "valve 371-1301: intake left",
        "spring 371-1310: intake right",
        "oil: engine oil",
        "37.91, over the 37.86 agreed",
        "Near its limit: tip height, intake left, 37.91",
        "Recheck at 414 h and 422 h",
        "head nuts",
        "come first",
    ):
        assert words in page, words
    for valve, as_set, shim in (
        ("intake left", "0.125", "1.503"),
        ("intake right", "0.135", "1.698"),
        ("exhaust left", "0.235", "1.652"),
        ("exhaust right", "0.215", "1.752"),
    ):
        row = next(line for line in page.splitlines() if line.startswith(f"{valve} | "))
        assert as_set in row and shim in row


def test_the_owner_page_is_one_sheet_with_its_signature(told: Told) -> None:
    first = pypdf.PdfReader(io.BytesIO(paper(told.bench, NUMBER, "hand_over"))).pages[0].extract_text()
    assert "received by the owner" in first and "Evidence" not in first


def test_everything_that_stands_rests_on_a_reading_that_is_listed(view: JobRecord) -> None:
    text = said(view, "hand_over")
    listed = set(re.findall(r"^(\d+)(?: · \d\d:\d\d)? \| ", text, re.M))
    for c in view.characteristics:
        if c.verdict != "not measured":
            assert {str(n) for n in c.rests_on} <= listed, c.address
    assert view.ledger.digest[:4] in text and view.job.book.sha256[:4] in text


#: What a record of maintenance holds: 14 CFR 43.9(a) and 43.11(a), CAA rule 43.69(a), each with what of ours answers it.
FIELDS = {
    "43.9(a)(1) description of the work performed": ("guide fitted", "guide reamed", "seat cut", "valve lapped"),
    "43.9(a)(1) or reference to data used": ("Corrie 371, edition 2", "page 6-9", "book"),
    "43.9(a)(2) date of completion": ("2026-03-13",),
    "43.9(a)(3) name of who performed it": ("k1",),
    "43.9(a)(4) signature, certificate, kind": ("released by (name, certificate where one is required): ____",),
    "43.69(a) identification of the item": ("Corrie 371", "no. 0417", "quad 3"),
    "43.69(a) hours in service": ("412 h",),
    "43.69(a) measurements and tests, with their limits": ("compression", "1165 ± 37 kPa", "≥ 1049", "6 %", "0.125"),
    "43.69(a) equipment used": ("MIC-25", "micrometer 0–25", "± 0.002 mm", "due 2027-05-01", "wrench W3"),
    "43.69(a) parts installed, by number": (
        "valve 371-1301",
        "guide 371-1110",
        "spring 371-1310",
        "stem seal 371-1340",
    ),
    "43.69(a) fluids": ("engine oil", "coolant", "oil filter"),
    "43.69(a) torque values where they matter": ("20 – 40 – 62 N·m",),
    "43.11(a)(5) what is not airworthy or was deferred": (
        "37.91, over the 37.86 agreed",
        "not written down: air filter",
    ),
    "next inspection due": ("414 h and 422 h",),
    "whatever was altered in the record shows": ("digest", "449 entries"),
}


@pytest.mark.authority
@pytest.mark.parametrize("field", FIELDS)
def test_record_fields_of_14_cfr_43_9_and_caa_rule_43_69(field: str, told: Told, view: JobRecord) -> None:
    text = said(view, "hand_over").replace(str(view.ledger.head) + " entries", "449 entries")
    text += "\n" + "\n".join(
        p.extract_text() for p in pypdf.PdfReader(io.BytesIO(paper(told.bench, NUMBER, "hand_over"))).pages
    )
    missing = [words for words in FIELDS[field] if words not in text]
    assert missing == []


@pytest.mark.authority
def test_the_record_is_signed_and_dated_by_who_did_it(view: JobRecord) -> None:
    blocks = PAPERS["hand_over"].blocks(view)
    title = title_of(blocks)
    signature = next(b for b in flat(blocks) if isinstance(b, Signature))
    assert view.job.book.name in title.book and view.job.book.edition in title.book
    assert title.date.startswith(view.ledger.at[:10]) and title.by == view.ledger.by
    assert any("name, certificate" in role for role in signature.roles)
    assert any(isinstance(b, Table) and "as typed" in b.head for b in flat(blocks))


def test_the_machinist_reads_bounds_on_both_sides(told: Told) -> None:
    view = recorded(told.after["sent to the shop"])
    text = said(view, "machining_order")
    assert "Bounds: 37.28 to 37.86 mm; tell us before going over; never over 37.94 mm." in text
    assert "valve, marked intake left" in text
    assert "no lapping" in text and "Copper-beryllium" in text
    assert "tip height before the cut: ____" in text
    assert "[ ] faces of the head, except where named above" in text
    assert "machined by: ____" in text and "order: M-2" in text


def test_nothing_left_to_machine_is_said(view: JobRecord) -> None:
    assert "Nothing is left to be machined" in said(view, "machining_order")


def test_the_tag_names_what_is_open(told: Told, view: JobRecord) -> None:
    mid = recorded(told.after["measured"])
    text = said(mid, "do_not_start")
    assert "DO NOT START" in text and "not signed: lash proved" in text and "stale: lash: intake left" in text
    assert "Nothing is open by the record" in said(view, "do_not_start")


def test_the_bench_sheet_has_the_books_values_and_a_line_for_every_place(view: JobRecord) -> None:
    rows = said(view, "bench_sheet").splitlines()
    assert "intake left | new 5.000 – 5.012 mm; ≤ 5.070 mm (6-9) |  |  |  |  |  | " in rows
    assert "exhaust right | 0.20 – 0.25 mm (6-4) |  | " in rows
    for blank in view.record.blanks:
        for row in blank.rows:
            assert any(line.startswith(row.where) for line in rows), row


def test_pressure_is_proved_as_it_is_judged_at_this_altitude(view: JobRecord) -> None:
    assert "cylinder cold | new 1136 – 1311; ≥ 1049 kPa |  | 1165" in said(view, "proof_sheet")


def test_the_sum_of_the_estimate_is_the_sum_of_its_lines(view: JobRecord) -> None:
    text = said(view, "estimate")
    amounts = dict(re.findall(r"^(parts|outside|hours|total) \| .* \| ([\d.]+)$", text, re.M))
    assert round(sum(float(v) for k, v in amounts.items() if k != "total"), 2) == float(amounts["total"])
    assert f"640.00 EUR, said by {view.record.approvals[-1].by}" in text


def test_the_technical_record_holds_every_reading_formula_source_and_gauge(view: JobRecord) -> None:
    text = said(view, "technical_record")
    rows = set(re.findall(r"^(\d+)(?: · \d\d:\d\d)? \| ", text, re.M))
    assert {str(r.seq) for r in view.record.readings} <= rows
    for c in view.characteristics:
        if c.verdict != "not measured":
            assert c.formula.replace("\n", ", ") in text and c.source.replace("\n", ", ") in text
    assert all(f"{card.id} | {card.name}" in text for card in view.record.cards)


def test_shims_that_came_out_go_to_their_box_as_measured(view: JobRecord) -> None:
    text = said(view, "labels")
    assert "OLD intake left | shim 1.845 mm, " in text.replace(", OLD", "OLD")
    assert "OLD intake right | shim 1.797 mm, " in text
    assert "exhaust left | 26-014 · no. 0417, shim 165 · 1.652 mm" in text


@pytest.mark.parametrize("kind", ["proof_sheet", "hand_over", "technical_record"])
def test_the_proof_stands_against_what_was_to_be_expected_with_the_likeliest_leak_path(
    kind: str, view: JobRecord
) -> None:
    text = said(view, kind)
    assert text.index("now\ncold: leak-down 6 %") < text.index("as found\nwarm: leak-down 52 %")
    assert "leak path: intake valve, likely | for: air heard at the intake" in text
    assert "timing marks: 2 of 2 in line" in text and "compression 1165 kPa; as a sound cylinder reads here" in text


def test_a_signature_never_stands_alone_on_a_sheet(told: Told) -> None:
    for kind in PAPERS:
        pages = [p.extract_text() for p in pypdf.PdfReader(io.BytesIO(paper(told.bench, NUMBER, kind))).pages]
        for text in (p for p in pages if "signature" in p):
            assert len(text) > 500, (kind, text)
