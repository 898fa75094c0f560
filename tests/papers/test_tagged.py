"""Papers are for readers that do not see, too: a validator of PDF/UA-1, and what it leaves out, read by pypdf and poppler.

The validator (`pdfua`) runs 12 checks over 16 of the standard's machine-checkable rules and says so itself; the fuller one, veraPDF,
is offered by none of the registries. What it leaves out and a sheet can get wrong is asked here by hand: headings that skip a
level, heads of tables without a scope, drawings without words, fonts without the way back to text, metadata, archival forms.
"""

from __future__ import annotations

import io
import subprocess
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfua
import pypdf
import pytest

from gudgeon.papers.blocks import Block, Figure, Heading, KeyValues, Para, Table, TitleBlock
from gudgeon.papers.labels import STOCKS, Label, label_pdf
from gudgeon.papers.marking import code_svg
from gudgeon.papers.pdf import pdf
from papers.test_pdf import PAPER, STRIP

#: It reads a heading's attributes as one dictionary where the standard allows a list of them; headings are walked below.
BREAKS = {"UA-14-001"}
MANY = tuple((f"{n} · 10:00", f"stem diameter {n}", STRIP if n % 20 == 0 else "4.983 mm") for n in range(90))
LONG: tuple[Block, ...] = (
    TitleBlock(paper="Technical record", engine="Testbed 100", job="26-001", by="k1", date="2026-01-02"),
    Heading("Readings"),
    Para("Words."),
    Heading("Under it", 2),
    Table(
        head=("entry", "what", "as typed"), rows=MANY, groups=((0, "MIC-25 · 2026-01-02"), (45, "BG-88 · 2026-01-03"))
    ),
    Heading("Next"),
    KeyValues((("digest", "9f3c a1d2"),)),
    Figure(svg=STRIP.svg, alt="the same strip"),
)
LABELS = (Label(lines=("intake left", "26-001"), code=code_svg("GUDGEON:26-001:c1.in.left", "code of c1.in.left")),) * 9
MADE = {
    "paper": pdf(PAPER),
    "record": pdf(LONG),
    "German": pdf(PAPER, language="de"),
    "labels": label_pdf(LABELS, STOCKS["70 x 37"], title="Labels 26-001"),
}


@pytest.fixture(params=MADE)
def data(request: pytest.FixtureRequest) -> bytes:
    return MADE[request.param]


def root_of(data: bytes) -> Any:
    return pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]


def elements(node: Any, above: tuple[str, ...] = ()) -> Iterator[tuple[str, Any, tuple[str, ...]]]:
    """Every structure element in reading order, with the roles above it."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if not isinstance(node, dict):
        return
    role = str(node.get("/S", ""))
    if role:
        yield role, node, above
    kids = node.get("/K", [])
    kids = kids.get_object() if hasattr(kids, "get_object") else kids
    for kid in kids if isinstance(kids, list) else [kids]:
        yield from elements(kid, (*above, role) if role else above)


def attribute(node: Any, name: str) -> Any:
    owners = node.get("/A", [])
    owners = owners.get_object() if hasattr(owners, "get_object") else owners
    found = [o.get_object()[name] for o in (owners if isinstance(owners, list) else [owners]) if name in o.get_object()]
    return found[0] if found else None


@pytest.mark.authority
def test_the_validator_finds_nothing(data: bytes, tmp_path: Path) -> None:
    file = tmp_path / "paper.pdf"
    file.write_bytes(data)
    report = pdfua.validate(str(file))
    assert [f"{f.rule_id} {f.message} {f.location.describe()}" for f in report.findings] == []
    assert len(report.outcomes) == 12
    assert {o.rule_id for o in report.outcomes if o.skipped} <= BREAKS


@pytest.mark.authority
def test_the_validator_can_find_something(tmp_path: Path) -> None:
    """The same paper without its tags fails: what it says of the others is worth something."""
    reader = pypdf.PdfWriter(io.BytesIO(MADE["paper"]))
    del reader.root_object["/StructTreeRoot"], reader.root_object["/Lang"]
    file = tmp_path / "bare.pdf"
    reader.write(file)
    assert {"UA-01-005", "UA-06-001"} <= {f.rule_id for f in pdfua.validate(str(file)).findings}


@pytest.mark.authority
def test_document_language_title_and_form(data: bytes) -> None:
    root = root_of(data)
    assert root["/Lang"] == ("de" if data == MADE["German"] else "en")
    assert root["/MarkInfo"]["/Marked"].value and not root["/MarkInfo"]["/Suspects"].value
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value
    metadata = root["/Metadata"].get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in metadata and "<dc:title>" in metadata
    assert all(page.get("/Tabs") in (None, "/S") for page in pypdf.PdfReader(io.BytesIO(data)).pages)


@pytest.mark.authority
def test_headings_never_skip_a_level(data: bytes) -> None:
    levels = [
        int(role[2:]) for role, _, _ in elements(root_of(data)["/StructTreeRoot"]) if role[:2] == "/H" and role[2:]
    ]
    assert data == MADE["labels"] or levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels)), levels


@pytest.mark.authority
def test_every_drawing_has_words_and_every_head_a_scope(data: bytes) -> None:
    roles = list(elements(root_of(data)["/StructTreeRoot"]))
    assert all(str(node.get("/Alt", "")).strip() for role, node, _ in roles if role == "/Figure")
    heads = [attribute(node, "/Scope") for role, node, _ in roles if role == "/TH"]
    assert set(heads) <= {"/Column", "/Both", "/Row"}
    assert all("/Table" in above for role, _, above in roles if role in ("/TR", "/TH", "/TD"))
    if data == MADE["record"]:
        assert len(heads) == 3 + 2, "the head once and each gauge once, however many sheets repeat them"


@pytest.mark.authority
def test_fonts_lie_inside_and_lead_back_to_text(data: bytes) -> None:
    listed = subprocess.run(["pdffonts", "-"], input=data, capture_output=True, check=True).stdout.decode()
    rows = [line.split() for line in listed.splitlines()[2:]]
    assert rows and all(row[-5:-2] == ["yes", "yes", "yes"] for row in rows), listed


@pytest.mark.authority
@pytest.mark.parametrize(("standard", "part", "level"), [("a-2a", 2, "A"), ("a-3a", 3, "A")])
def test_archival_forms_say_what_they_are_and_hold_what_they_must(standard: str, part: int, level: str) -> None:
    """ISO 19005: output intent, no outside action, no encryption, file identifier, tags at level A, one XMP packet."""
    data = pdf(LONG, standard=standard)  # type: ignore[arg-type]
    reader = pypdf.PdfReader(io.BytesIO(data))
    root: Any = reader.trailer["/Root"]
    metadata = root["/Metadata"].get_data().decode()
    assert (
        f"<pdfaid:part>{part}</pdfaid:part>" in metadata
        and f"<pdfaid:conformance>{level}</pdfaid:conformance>" in metadata
    )
    assert root["/OutputIntents"][0]["/S"] == "/GTS_PDFA1"
    assert root["/OutputIntents"][0]["/DestOutputProfile"].get_object().get_data()
    assert not reader.is_encrypted and "/ID" in reader.trailer
    assert root["/MarkInfo"]["/Marked"].value and "/OpenAction" not in root and "/AA" not in root
    assert b"/JavaScript" not in data and b"/Launch" not in data
    assert "/Filter" not in root["/Metadata"]
