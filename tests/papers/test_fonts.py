"""The page's fonts: small, licensed, with the trade's signs and figures of equal width."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import gudgeon

FOLDER = Path(gudgeon.__file__).parent / "web" / "static" / "fonts"
STYLES = ("regular", "semibold", "bold")
SIGNS = "0123456789µμΩθ±×·−–—→←↑↓°Ø²³½≤≥…äöüßéñçÆŁő✓"


@pytest.fixture(scope="module", params=STYLES)
def font(request: pytest.FixtureRequest) -> TTFont:
    return TTFont(FOLDER / f"gudgeon-sans-{request.param}.woff2")


@pytest.mark.parametrize("style", STYLES)
def test_small(style: str) -> None:
    assert (FOLDER / f"gudgeon-sans-{style}.woff2").stat().st_size <= 40 * 1024


def test_has_every_sign(font: TTFont) -> None:
    known = font.getBestCmap()
    assert [c for c in SIGNS if ord(c) not in known] == []


def test_figures_have_one_width(font: TTFont) -> None:
    names, widths = font.getBestCmap(), font["hmtx"]
    assert len({widths[names[ord(c)]][0] for c in "0123456789"}) == 1


def test_does_not_carry_the_reserved_name(font: TTFont) -> None:
    """The licence reserves the name 'Source' for the unchanged original (SIL OFL 1.1, condition 3)."""
    assert font["name"].getDebugName(1).startswith("Gudgeon Sans")
    for number in (1, 3, 4, 6, 16):
        assert "Source" not in (font["name"].getDebugName(number) or "")
    assert "Open Font License" in font["name"].getDebugName(13)


def test_licence_lies_beside() -> None:
    assert "SIL OPEN FONT LICENSE" in (FOLDER / "OFL.txt").read_text(encoding="utf-8").upper()
