"""How a face words what the core says: its sentences and names in the language of the screen, numbers with its mark."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import datetime
from functools import cache

from django.http import HttpRequest
from django.template import Library
from django.utils.formats import date_format, get_format
from django.utils.translation import get_language, gettext
from django.utils.translation import gettext_noop as _

from gudgeon.figures.tightening import TighteningSpec, tightening
from gudgeon.problem import Problem, Said
from gudgeon.web.sentences import sentence
from gudgeon.workbench.vocabulary import NAMES

register = Library()
_POINT = re.compile(r"(?<![\w.])(\d+)\.(\d+)(?![\w.]*\d)")

#: What stands between names in any language: units, numbers, and codes such as P-3 or H11b.
_PLAIN = re.compile(r"(?<![\w-])(?:mm|µm|kPa|bar|cm³|ml|N·m|N|kg|g|h|°C|°|[A-Z]{1,4}-?\d[\w-]*|\d[\w.-]*)(?!\w)")
_TEXT_NODE = re.compile(r">([^<>]*\d\.\d[^<>]*)<")

#: What scripts say. They look a sentence up as it stands here.
SCRIPTS = (
    _("empty"),
    _("{n} waiting"),
    _("no network"),
    _("this bench is not paired any more: pair it again, nothing is lost"),
    _("this page is from before a restart or sign-in: load it again"),
    _("the bench answered {status}"),
    _("it is right"),
    _("type again"),
    _("put away"),
    _("who?"),
    _("Who types?"),
    _("initials"),
    _("leave it"),
    _("keep"),
    _("photo"),
    _("note"),
    _("Note"),
    _("skip"),
    _("Skipped: why?"),
    _("not reachable"),
    _("gauge missing"),
    _("later"),
    _("another reason"),
    _("it shows"),
    _("page"),
    _("{a} goes, {b} not"),
    _("Which reading?"),
    _("or some letters of its name"),
    _("not taken"),
    _("Temperature of the engine or part, °C"),
    _("at {degrees}"),
    _("temperature"),
    _("waits"),
    _("This tablet's clock says {mine}, the bench's {theirs} (UTC): set it right. What is typed lands all the same."),
    _("What was pasted has {n} signs, the field takes {most}: nothing was taken."),
    _("typed again"),
    _("kept, entry {n}"),
    _("skipped {what}: {why}"),
    _("The photo could not be sent: no network. It is kept here: press again when the network is back."),
    _("The photo could not be sent. It is kept here: press again."),
    _("this tablet's storage is full: keep the page open"),
)


def worded(said: Said) -> str:
    """A sentence of the core in the language of the screen, its names too."""
    values = {key: spoken(value) if isinstance(value, str) else value for key, value in said.values}
    translated = gettext(said.template) if said.template else ""
    return Said(translated, tuple(values.items())).words()


def problem_words(problem: Problem) -> dict[str, str]:
    """A problem as it is shown and sent."""
    return {"where": spoken(problem.where), "what": worded(problem.what), "remedy": worded(problem.remedy)}


@register.filter
def spoken(text: object) -> str:
    """Words of the core that are made of its names; a text with anything else in it stays as it was written."""
    words = str(text)
    language = get_language() or "en"
    if language.startswith("en") or not words:
        return words
    whole = gettext(words)
    if whole != words:
        return whole
    pieces = _names().split(words)
    if not any(sign.isalpha() for piece in pieces[::2] for sign in _PLAIN.sub("", piece)):
        said_as = "".join(_named(piece) if n % 2 else piece for n, piece in enumerate(pieces))
        return said_as[:1].upper() + said_as[1:] if words[:1].isupper() else said_as
    return sentence(words, language.split("-")[0], spoken) or words


@register.filter
def marked(text: object) -> str:
    """Numbers in a text with the decimal mark of the screen's language."""
    mark = str(get_format("DECIMAL_SEPARATOR"))
    return str(text) if mark == "." else _POINT.sub(rf"\1{mark}\2", str(text))


class Figures(Mapping[str, str]):
    """The words of drawings in the language of the screen, as `figures` asks for them."""

    def __getitem__(self, words: str) -> str:
        return spoken(words)

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 1


FIGURES = Figures()


@register.filter(is_safe=True)
def figures(svg: str) -> str:
    """A drawing with its figures in the decimal mark of the screen."""
    return _TEXT_NODE.sub(lambda found: f">{marked(found[1])}<", svg)


@register.filter
def tightened(spec: TighteningSpec) -> str:
    """The order of tightening as a drawing in the language of the screen."""
    return figures(tightening(spec, FIGURES))


@register.filter
def moment(text: object) -> str:
    """Day and time of an entry as the screen's language writes them."""
    try:
        at = datetime.fromisoformat(str(text))
    except ValueError:
        return str(text)
    if (get_language() or "en").startswith("en"):
        return f"{at:%Y-%m-%d %H:%M}"
    return date_format(at, "d.m.Y H:i" if get_language() == "de" else "SHORT_DATETIME_FORMAT")


def _named(piece: str) -> str:
    return gettext(piece if piece in NAMES else piece[:1].lower() + piece[1:])


@cache
def _names() -> re.Pattern[str]:
    longest = sorted(NAMES, key=len, reverse=True)
    return re.compile(r"(?<!\w)(" + "|".join(re.escape(name) for name in longest) + r")(?!\w)", re.IGNORECASE)


def scripts(request: HttpRequest) -> dict[str, object]:
    """What scripts say in another language than they are written in."""
    if (get_language() or "en").startswith("en"):
        return {"script_words": {}}
    return {"script_words": {text: gettext(text) for text in SCRIPTS}}
