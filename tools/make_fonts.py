"""Make the fonts that travel with Gudgeon from the ``font-source-sans-pro`` package.

For paper: three files as they are, alone in one folder, because a folder that holds the same face twice gives other bytes on
another machine. For the page: small woff2 subsets under a name of their own, since the licence reserves the name of the original.

Run: ``python tools/make_fonts.py`` (needs fonttools and brotli).
"""

from __future__ import annotations

import shutil
from importlib.resources import files
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

HOME = Path(__file__).resolve().parent.parent / "src" / "gudgeon"
PAPER, PAGE = HOME / "papers" / "fonts", HOME / "web" / "static" / "fonts"
WEIGHTS = {"Regular": 400, "Semibold": 600, "Bold": 700}
FAMILY = "Gudgeon Sans"
RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x2010, 0x2026))
SIGNS = "µμΩωθΔαφπ‹›−×·÷±≤≥≈≠∞√∑←↑→↓↔■□▲△▶▼◀◆◇○●✓′″‰€⁄⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉ﬁﬂ№"
FEATURES = ["kern", "mark", "mkmk", "ccmp", "locl", "tnum", "lnum", "zero", "case", "frac", "sups", "subs"]


def characters() -> set[int]:
    """What the page's own words, European names and the trade's signs need."""
    return {c for low, high in RANGES for c in range(low, high + 1)} | {ord(c) for c in SIGNS}


def rename(font: TTFont, style: str) -> None:
    """Give the subset a name of its own; copyright and licence lines stay."""
    names = {
        1: f"{FAMILY} {style}",
        2: "Regular",
        3: f"{FAMILY} {style}",
        4: f"{FAMILY} {style}",
        6: f"GudgeonSans-{style}",
    }
    for record in list(font["name"].names):
        if record.nameID in (16, 17, 18, 21, 22):
            font["name"].removeNames(nameID=record.nameID)
        elif record.nameID in names:
            font["name"].setName(
                names[record.nameID], record.nameID, record.platformID, record.platEncID, record.langID
            )
    if "CFF " in font:
        top = font["CFF "].cff
        top.fontNames = [names[6]]
        top[0].FullName, top[0].FamilyName = names[4], FAMILY


def make_page_font(source: Path, style: str) -> Path:
    """One woff2 subset."""
    options = subset.Options(
        flavor="woff2", layout_features=FEATURES, name_IDs=["*"], hinting=False, notdef_outline=True
    )
    options.desubroutinize = False
    font = subset.load_font(str(source), options)
    font.recalcTimestamp = False
    tool = subset.Subsetter(options)
    tool.populate(unicodes=characters())
    tool.subset(font)
    rename(font, style)
    target = PAGE / f"gudgeon-sans-{style.lower()}.woff2"
    subset.save_font(font, str(target), options)
    return target


def main() -> None:
    """Write both folders and say what was written."""
    source = Path(str(files("font_source_sans_pro"))) / "files"
    for folder in (PAPER, PAGE):
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source / "LICENSE.txt", folder / "OFL.txt")
    for style in WEIGHTS:
        name = f"SourceSansPro-{style}.otf"
        shutil.copyfile(source / name, PAPER / name)
        made = make_page_font(source / name, style)
        print(f"{made.name}: {made.stat().st_size / 1024:.1f} KB")


if __name__ == "__main__":
    main()
