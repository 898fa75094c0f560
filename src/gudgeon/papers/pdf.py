"""Blocks to PDF sheets: same blocks, same bytes; tagged for readers that do not see; fonts of our own inside."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gudgeon.papers.blocks import Block, title_of
from gudgeon.papers.payload import payload
from gudgeon.papers.typesetting import Data, Paper, Standard, Unshown, typeset
from gudgeon.problem import refuse


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
        what = "The paper {paper} or the language {language} is not known."
        remedy = "Give a4 or us-letter, and a language of two or three letters."
        raise refuse(name, what, remedy, paper=paper, language=language)

    def data(unshown: Unshown) -> Data:
        return payload(blocks, unshown, translate, paper) | {"language": language}

    return typeset("sheet.typ", data, where=name, standard=standard)
