"""Part drawings: a value stands only where it was read, the wanted one is marked, and the words say what the drawing shows."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.figures import levels, marks, svg
from gudgeon.figures.part import CAPTIONS, DRAWINGS, part_drawing
from gudgeon.figures.places import DrawingSpec, PlaceFigure, assign
from gudgeon.figures.stack import StackRow, stack
from gudgeon.figures.tightening import Fastener, TighteningSpec, tightening
from gudgeon.problem import Refused

SVG = "{http://www.w3.org/2000/svg}"
BORE = (
    PlaceFigure(key="bore top y", label="top, across the pin", figure="88.026", state="taken"),
    PlaceFigure(key="bore top x", label="top, along the pin", figure="88.013", state="taken", note="oval 0.013"),
    PlaceFigure(key="bore middle y", label="middle, across the pin", state="wanted"),
    PlaceFigure(key="bore bottom y", label="bottom, across the pin"),
)
TRAINS = ("finger", "bucket", "bucket over", "rocker", "rocker screw", "rocker screw at cam", "push-rod")


def texts(drawn: str, pen: str | None = None) -> list[tuple[str, float, float]]:
    root = ElementTree.fromstring(drawn)
    found = [t for t in root.iter(f"{SVG}text") if pen is None or t.get("class") == pen]
    return [(t.text or "", float(t.get("x", 0)), float(t.get("y", 0))) for t in found]


def test_values_stand_at_their_depth_and_the_wanted_one_is_blue() -> None:
    drawn = part_drawing("bore", DrawingSpec(title="Bore", places=BORE))
    where = {text: (x, y) for text, x, y in texts(drawn)}
    assert where["88.026"][1] < where["?"][1] < where["bottom"][1]
    assert where["88.013"][0] > where["88.026"][0] + 150
    assert {text for text, _, _ in texts(drawn, "blue")} == {"?", "middle"}
    assert {"intake side", "exhaust side", "oval 0.013"} <= set(where)


def test_the_drawing_in_words() -> None:
    root = ElementTree.fromstring(part_drawing("bore", DrawingSpec(title="Bore", places=BORE)))
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == "Bore"
    assert root.findtext(f"{SVG}desc") == (
        "wanted: middle, across the pin; taken: top, across the pin 88.026, top, along the pin 88.013; "
        "later: bottom, across the pin"
    )


def test_an_unknown_place_is_listed_and_never_put_somewhere() -> None:
    lost = PlaceFigure(key="bore collar q", label="collar", figure="88.111", state="taken")
    spec = DrawingSpec(title="Bore", places=(*BORE, lost))
    found, left = assign(spec.places, DRAWINGS["bore"][1](spec))
    assert left == (lost,)
    assert len(found) == 4
    assert next(y for text, _, y in texts(part_drawing("bore", spec)) if text == "88.111") > 600


def test_two_values_for_one_spot_do_not_cover_each_other() -> None:
    spec = DrawingSpec(title="Bore", places=(BORE[0], BORE[0]))
    _, left = assign(spec.places, DRAWINGS["bore"][1](spec))
    assert len(left) == 1


@pytest.mark.parametrize("kind", [*DRAWINGS, "gauge", "nothing"])
def test_every_drawing_is_well_formed_and_plain(kind: str) -> None:
    wanted = PlaceFigure(key="x", label="<b>&\"'\x07 \u202e\U0001f600", state="wanted")
    for train in TRAINS:
        drawn = part_drawing(kind, DrawingSpec(title="a < b", places=(wanted,), train=train, bolts=6))  # type: ignore[arg-type]
        root = ElementTree.fromstring(drawn)
        assert "style" not in drawn
        assert "id=" not in drawn
        assert "‹U+0007›" in drawn
        for mark in root.iter():
            if mark.get("stroke") or mark.tag == f"{SVG}text":
                assert mark.get("class") in {"ink", "grey", "blue", "hatch", "wash", "paper"}
                assert mark.get("color", "").startswith("#")
        assert drawn == part_drawing(kind, DrawingSpec(title="a < b", places=(wanted,), train=train, bolts=6))  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", DRAWINGS)
def test_every_fixed_word_can_be_translated(kind: str) -> None:
    """A word on an outline that is not in the list would stay English for everyone."""
    words = {word: f"«{word}»" for word in CAPTIONS}
    for train in TRAINS:
        spec = DrawingSpec(title="t", train=train, left_side="«left»", right_side="«right»")  # type: ignore[arg-type]
        found = [text for text, _, _ in texts(part_drawing(kind, spec, words))]
        assert [t for t in found if not t.startswith("«") and not t.endswith("°")] == []


@pytest.mark.parametrize("lash_at", ["cam", "tip"])
@pytest.mark.parametrize("train", TRAINS)
def test_every_train_shows_the_gap(train: str, lash_at: str) -> None:
    place = (PlaceFigure(key="lash", label="lash", state="wanted"),)
    spec = DrawingSpec(title="Lash", train=train, lash_at=lash_at, places=place)  # type: ignore[arg-type]
    ((_, spot),), left = assign(spec.places, DRAWINGS["lash"][1](spec))
    assert not left
    assert spot.start is not None and spot.end is not None
    assert spot.end[1] - spot.start[1] == pytest.approx(12.0)


@given(st.text(max_size=200), st.text(max_size=60))
def test_any_typed_text_gives_well_formed_drawings(words: str, figure: str) -> None:
    place = PlaceFigure(key="seat_width", label=words, figure=figure, state="taken", note=words)
    ElementTree.fromstring(part_drawing("seat", DrawingSpec(title=words, places=(place,))))
    row = StackRow(kind=words, shape="now", word=words, name=words, line1=words, line2=words, now=True)
    ElementTree.fromstring(stack((row,), words))


def test_hatching_is_cut_at_the_outline() -> None:
    drawn = str(marks.hatch(svg.box(100, 50, 80, 40)))
    ends = [(float(x), float(y)) for x, y in re.findall(r"[ML]([\d.]+) ([\d.]+)", drawn)]
    assert len(ends) >= 16
    for x, y in ends:
        assert 99.98 <= x <= 180.02 and 49.98 <= y <= 90.02
        on_edge = min(abs(x - 100), abs(x - 180), abs(y - 50), abs(y - 90))
        assert on_edge < 0.02


def test_hatching_leaves_a_hole_open() -> None:
    ring = (*marks.arc(0, 0, 100, 0, 360, 72), *reversed(marks.arc(0, 0, 60, 0, 360, 72)))
    lines = re.findall(r"M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)", str(marks.hatch(ring)))
    assert len(lines) > 20
    for x1, y1, x2, y2 in lines:
        middle = ((float(x1) + float(x2)) / 2, (float(y1) + float(y2)) / 2)
        assert 55 < (middle[0] ** 2 + middle[1] ** 2) ** 0.5 < 101


def luminance(colour: str) -> float:
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.authority
@pytest.mark.parametrize("pen", [svg.INK, svg.GREY, svg.BLUE])
def test_words_keep_seven_to_one_on_paper(pen: svg.Pen) -> None:
    """WCAG 2.2, relative luminance and contrast ratio; 7 : 1 is its level AAA for text."""
    for paper in (svg.PAPER.colour, "#fefdf9"):
        assert (luminance(paper) + 0.05) / (luminance(pen.colour) + 0.05) >= 7.0


def test_stack_has_one_row_per_level_and_one_blue_level() -> None:
    shapes = ("later", "waits", "new", "out", "now", "done", "stop")
    rows = tuple(
        StackRow(kind=kind, shape=shapes[i % 7], word=shapes[i % 7], name=kind, line1=f"line {i}", now=i == 4)  # type: ignore[arg-type]
        for i, kind in enumerate(levels.LEVELS)
    )
    drawn = stack(rows, "Quad 3")
    heights = [y for text, _, y in texts(drawn) if text.startswith("line ")]
    assert heights == sorted(heights) and len(set(heights)) == len(rows)
    assert {text for text, _, _ in texts(drawn, "blue")} == {"now", rows[4].name, "line 4"}
    assert "rockers: now, line 4" in ElementTree.fromstring(drawn).findtext(f"{SVG}desc", "")
    assert ElementTree.fromstring(stack((), "empty")) is not None


def test_tightening_numbers_follow_the_order() -> None:
    corners = (Fastener(name="N1", x=0, y=0), Fastener(name="N2", x=1, y=1), Fastener(name="N3", x=1, y=0))
    drawn = tightening(
        TighteningSpec(title="Head", fasteners=corners, stages=("20 N·m", "40 N·m"), state="oil", done=1)
    )
    where = {text: (x, y) for text, x, y in texts(drawn)}
    assert where["1"][0] < where["2"][0] and where["1"][1] < where["2"][1]
    assert where["3"][0] == where["2"][0]
    assert [text for text, _, _ in texts(drawn, "blue")] == ["2"]
    assert "N1, N2, N3; 20 N·m – 40 N·m; oil" in ElementTree.fromstring(drawn).findtext(f"{SVG}desc", "")
    with pytest.raises(Refused, match="N9"):
        TighteningSpec(title="Head", fasteners=(Fastener(name="N9", x=1.4, y=0),))


def test_no_number_is_never_drawn() -> None:
    with pytest.raises(Refused):
        svg.plain_number(float("nan"))
    with pytest.raises(Refused):
        svg.figure(float("inf"), 3)
    assert svg.figure(-0.0001, 2) == "0.00"
    assert svg.figure(-0.5, 1) == "−0.5"


def test_the_source_never_writes_a_style() -> None:
    for file in Path(svg.__file__).parent.glob("*.py"):
        assert "style=" not in file.read_text(encoding="utf-8")
