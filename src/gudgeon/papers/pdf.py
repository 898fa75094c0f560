"""Blocks to a PDF sheet by Typst: same blocks, same bytes; tagged for readers that do not see; fonts of our own inside.

The template is fixed and the words travel beside it as data, so typed text can hold anything and is never markup.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file, files
from json import dumps
from typing import Literal

import typst

from gudgeon.papers.blocks import Block, title_of
from gudgeon.papers.payload import Unshown, payload
from gudgeon.problem import refuse

Paper = Literal["a4", "us-letter"]
Standard = Literal["ua-1", "a-3a", "a-2a"]
FONTS = ("Source Sans Pro", "Libertinus Serif", "DejaVu Sans Mono")
NO_GLYPH = re.compile(r'the text `"(.+?)"` could not be displayed')
CODE_POINT = re.compile(r"\\u\{([0-9a-f]+)\}")


@cache
def _fonts() -> typst.Fonts:
    with as_file(files("gudgeon.papers") / "fonts") as folder:
        return typst.Fonts(include_system_fonts=False, font_paths=[folder])


@cache
def _template() -> bytes:
    return (files("gudgeon.papers") / "sheet.typ").read_bytes()


def _compiled(data: str, standard: Standard) -> bytes:
    return typst.compile(
        _template(),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        format="pdf",
        sys_inputs={"sheet": data},
        pdf_standards=[standard],
        timestamp=0,
    )


def _without_glyph(error: typst.TypstError) -> Unshown:
    """The characters that no font of ours can draw, as Typst names them."""
    named = NO_GLYPH.findall(str(error.diagnostic) or str(error))
    return frozenset("".join(CODE_POINT.sub(lambda m: chr(int(m[1], 16)), text) for text in named))


def pdf(
    blocks: tuple[Block, ...],
    *,
    paper: Paper = "a4",
    language: str = "en",
    standard: Standard = "ua-1",
    translate: Mapping[str, str] | None = None,
) -> bytes:
    """The paper as a PDF. A character that no font can draw is written as its code point, ``‹U+1F600›``."""
    name = title_of(blocks).paper
    if paper not in ("a4", "us-letter") or not re.fullmatch(r"[a-z]{2,3}", language):
        what = "{paper} or language {language} is not known."
        raise refuse(
            name, what, "Give a4 or us-letter, and a language of two or three letters.", paper=paper, language=language
        )
    unshown: Unshown = frozenset()
    while True:
        data = dumps(payload(blocks, unshown, translate) | {"paper": paper, "language": language, "fonts": FONTS})
        try:
            return _compiled(data, standard)
        except typst.TypstError as error:
            more = _without_glyph(error)
            if more <= unshown:
                raise refuse(name, "The sheet could not be set: {why}.", "Report this.", why=error.message) from error
            unshown |= more
