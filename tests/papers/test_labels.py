"""A label is read on a tray in poor light and by a camera: it fits its sheet, or is refused with what would help."""

from __future__ import annotations

import io
import re
import subprocess

import pypdf
import pytest
import segno

from gudgeon.papers.labels import STOCKS, Label, LabelStock, label_pdf
from gudgeon.problem import Refused

WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')
MM = 25.4 / 72


def code(text: str) -> str:
    out = io.BytesIO()
    segno.make(text, micro=False).save(out, kind="svg", xmldecl=False)
    return out.getvalue().decode()


def words(data: bytes) -> list[tuple[str, float, float, float, float]]:
    done = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=data, capture_output=True, check=True)
    return [
        (word, float(left) * MM, float(top) * MM, float(right) * MM, float(bottom) * MM)
        for left, top, right, bottom, word in WORD.findall(done.stdout.decode())
    ]


@pytest.mark.parametrize("name", STOCKS)
def test_every_label_stands_inside_its_own(name: str) -> None:
    stock = STOCKS[name]
    count = stock.columns * stock.rows
    labels = tuple(Label(lines=(f"IN-L-{i}", "shim 1.70"), code=code(f"G{i}")) for i in range(count))
    data = label_pdf(labels, stock, title="labels")
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 1
    left, top = stock.margins_mm()
    found = {word: box for word, *box in words(data) if word.startswith("IN-L")}
    assert len(found) == count
    for i in range(count):
        x = left + (i % stock.columns) * (stock.width_mm + stock.gap_x_mm)
        y = top + (i // stock.columns) * (stock.height_mm + stock.gap_y_mm)
        x1, y1, x2, y2 = found[f"IN-L-{i}"]
        assert x <= x1 and x2 <= x + stock.width_mm
        assert y <= y1 and y2 <= y + stock.height_mm


def test_a_begun_sheet_keeps_its_used_places_free_and_runs_on() -> None:
    stock = STOCKS["70 x 37"]
    data = label_pdf(tuple(Label(lines=(f"L{i}",)) for i in range(22)), stock, title="labels", skip=4)
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 2
    first = next(box for word, *box in words(data) if word == "L0")
    assert 70 <= first[0] <= 140
    assert 37 <= first[1] <= 75


def test_same_labels_same_bytes() -> None:
    labels = (Label(lines=("A", "b"), code=code("x")),)
    assert label_pdf(labels, STOCKS["70 x 37"], title="t") == label_pdf(labels, STOCKS["70 x 37"], title="t")


def test_any_words() -> None:
    labels = (Label(lines=("#x $y <z>", "中\x07\u202e")),)
    found = " ".join(word for word, *_ in words(label_pdf(labels, STOCKS["99.1 x 67.7"], title="t")))
    assert "#x $y &lt;z&gt;" in found
    assert "‹U+4E2D›‹U+0007›‹U+202E›" in found


@pytest.mark.parametrize(
    "label", [Label(lines=("W" * 80,)), Label(lines=("a",) * 12), Label(lines=()), Label(lines=("x",), code=code("x"))]
)
def test_too_small_a_label_is_refused(label: Label) -> None:
    tiny = LabelStock(name="20 x 8", columns=2, rows=2, width_mm=20.0, height_mm=8.0)
    with pytest.raises(Refused, match="20 x 8"):
        label_pdf((label,), tiny, title="t")


def test_a_sheet_that_exceeds_its_paper_is_refused() -> None:
    with pytest.raises(Refused, match="do not fit the paper"):
        LabelStock(name="odd", columns=4, rows=8, width_mm=70.0, height_mm=37.0).margins_mm()
    with pytest.raises(Refused):
        label_pdf((), STOCKS["70 x 37"], title="t")
    with pytest.raises(Refused):
        label_pdf((Label(lines=("a",)),), STOCKS["70 x 37"], title="t", skip=24)
