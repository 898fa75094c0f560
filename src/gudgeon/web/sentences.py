"""A sentence of the core in the language of the screen, found again by its template.

The read model holds plain text, so that a screen, a paper and ``--json`` say the same. A sentence that was made of a template
is recognised by what stands between its values; its values keep their digits, and are worded themselves where they are words.
Text that a person typed is hardly ever of such a form, and is shown as it was typed where a template never stands.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from string import Formatter

LOCALE = Path(__file__).resolve().parents[1] / "locale"
#: A template with fewer letters of its own says too little to be recognised by.
LEAST_LETTERS = 3
#: No sentence of the core is longer; what is was typed.
LONGEST = 600
#: Values that a person typed: never worded.
TYPED = ("reason", "by")
NUMBER = r"[+\-−]?\d[\d.,]*%?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """What a sentence looks like, its longest fixed piece, the names of its values, and the sentence in the other language."""

    looks: re.Pattern[str]
    fixed: str
    names: tuple[str, ...]
    said_as: str


def sentence(text: str, language: str, spoken: Callable[[str], str]) -> str | None:
    """The sentence in that language, or none where no template made it; `spoken` words its values."""
    if len(text) > LONGEST:
        return None
    found = _found(text, language)
    if found is None:
        return _piecewise(text, spoken)
    template, values = found
    worded = {name: value if name in TYPED or _is_number(value) else spoken(value) for name, value in values}
    return "".join(
        fixed + (worded.get(name, "") if name else "")
        for fixed, name, _spec, _how in Formatter().parse(template.said_as)
    )


def _piecewise(text: str, spoken: Callable[[str], str]) -> str | None:
    """A row of sentences, each worded that can be; a list of names only where every one of them is known."""
    for mark in (m for m in (" · ", "; ", ": ", ", ") if m in text):
        pieces = text.split(mark)
        worded = [spoken(piece) for piece in pieces]
        known = [new != old or not any(map(str.isalpha, old)) for old, new in zip(pieces, worded, strict=True)]
        if all(known) or (mark in (" · ", "; ") and any(known)):
            return mark.join(worded)
    return None


def _is_number(value: str) -> bool:
    return re.fullmatch(NUMBER, value) is not None


@lru_cache(maxsize=8192)
def _found(text: str, language: str) -> tuple[Template, tuple[tuple[str, str], ...]] | None:
    for template in _templates(language):
        if template.fixed in text and (match := template.looks.fullmatch(text)):
            return template, tuple(zip(template.names, match.groups(), strict=True))
    return None


@cache
def _templates(language: str) -> tuple[Template, ...]:
    """Every translated template, those with most words of their own first."""
    from babel.messages.mofile import read_mo

    file = LOCALE / language / "LC_MESSAGES" / "django.mo"
    if not file.exists():
        return ()
    with file.open("rb") as opened:
        pairs = [(m.id, m.string) for m in read_mo(opened) if isinstance(m.id, str) and isinstance(m.string, str)]
    made = [(_letters(text), _template(text, said)) for text, said in pairs if "{" in text and said]
    return tuple(t for letters, t in sorted(made, key=lambda pair: -pair[0]) if letters >= LEAST_LETTERS)


def _letters(text: str) -> int:
    return sum(c.isalpha() for fixed, _name, _spec, _how in Formatter().parse(text) for c in fixed)


def _template(text: str, said_as: str) -> Template:
    looks, names, fixed = "", [], [""]
    for piece, name, spec, _how in Formatter().parse(text):
        looks += re.escape(piece)
        fixed.append(piece)
        if name:
            names.append(name)
            looks += f"({NUMBER})" if spec else "(.*?)"
    return Template(looks=re.compile(looks, re.DOTALL), fixed=max(fixed, key=len), names=tuple(names), said_as=said_as)
