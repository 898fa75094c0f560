"""Typst as a plain function: template and data in, the same PDF bytes out, whatever machine and whatever was typed.

The fonts lie alone in one folder of ours: a folder that holds a face twice gives other bytes where its files are read in another order.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from json import dumps
from pathlib import Path
from typing import Any, Literal

import typst

from gudgeon.problem import refuse

Paper = Literal["a4", "us-letter"]
Standard = Literal["ua-1", "a-3a", "a-2a"]
Unshown = frozenset[str]
Data = dict[str, Any]
FACES = ("Source Sans Pro", "Libertinus Serif", "DejaVu Sans Mono")
NO_GLYPH = re.compile(r'the text `"(.+?)"` could not be displayed')
HERE = Path(__file__).parent
CODE_POINT = re.compile(r"\\u\{([0-9a-f]+)\}")


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False, font_paths=[HERE / "fonts"])


@cache
def _template(name: str) -> bytes:
    return (HERE / name).read_bytes()


def _compiled(template: str, data: Data, standard: Standard) -> bytes:
    return typst.compile(
        _template(template),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        format="pdf",
        sys_inputs={"sheet": dumps(data | {"fonts": FACES})},
        pdf_standards=[standard],
        timestamp=0,
    )


def _without_glyph(error: typst.TypstError) -> Unshown:
    """The characters that no font of ours can draw, as Typst names them."""
    named = NO_GLYPH.findall(str(error.diagnostic) or str(error))
    return frozenset("".join(CODE_POINT.sub(lambda m: chr(int(m[1], 16)), text) for text in named))


def typeset(template: str, data: Callable[[Unshown], Data], *, where: str, standard: Standard = "ua-1") -> bytes:
    """The PDF; asks for the data once more, with the characters to spell out, when a font lacks some."""
    unshown: Unshown = frozenset()
    while True:
        try:
            return _compiled(template, data(unshown), standard)
        except typst.TypstError as error:
            more = _without_glyph(error)
            if more <= unshown:
                raise refuse(where, "The sheet could not be set: {why}.", "Report this.", why=error.message) from error
            unshown |= more
