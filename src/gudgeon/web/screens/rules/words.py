"""What each rule is called, and its choices in words."""

from __future__ import annotations

from django.utils.translation import gettext as _

from gudgeon.web.cells import Choices

#: Key, label, choices, lines of text.
Row = tuple[str, str, Choices, int]
#: Title, a word on it, and its rules.
Section = tuple[str, str, tuple[Row, ...]]


def sections() -> tuple[Section, ...]:
    """The page in its order."""
    return (_decided(), _aims(), _prices(), _papers())


def _row(key: str, label: str, choices: Choices = (), lines: int = 0) -> Row:
    return key, label, choices, lines


def _decided() -> Section:
    walls = (("guarded", _("guarded: proven")), ("face value", _("as read")))
    word = _("Wear limits and what wrecks an engine are proven; settings are judged as the book does.")
    amounts = (
        ("full", _("full: every place")),
        ("quick", _("quick: the worst first, the rest near a limit")),
        ("sample", _("sample: of parts alike, too, the worst first")),
    )
    rows = (
        _row("measuring", _("measuring"), amounts),
        _row("risk", _("risk of passing what is bad")),
        _row("wear", _("wear limits"), walls),
        _row("tight_wall", _("lash, tight wall"), walls),
        _row("loose_wall", _("lash, loose wall"), walls),
    )
    return _("How is decided"), word, rows


def _aims() -> Section:
    aims = (
        ("middle", _("the middle")),
        ("loose third", _("where the loose third begins")),
        ("loose edge", _("the loose edge")),
    )
    rows = (
        _row("shim_aim", _("lash is aimed at"), aims),
        _row("squish_least", _("squish, least")),
        _row("valve_to_piston_in", _("valve to piston, intake, least")),
        _row("valve_to_piston_ex", _("valve to piston, exhaust, least")),
        _row("leak_down_most", _("leak-down, most")),
        _row("seal_test_time", _("seal test holds for")),
        _row("springs", _("a weak spring is renewed"), (("side", _("with all of its side")), ("one", _("alone")))),
    )
    return _("Aims and guards"), _("Where the book says nothing."), rows


def _prices() -> Section:
    rows = (
        _row("hour_price", _("an hour costs")),
        _row("currency", _("currency")),
        _row("tax_name", _("tax, its name")),
        _row("tax_rate", _("tax, its rate")),
        _row("overrun", _("over the approved price without a new yes")),
    )
    return _("Hours and prices"), "", rows


def _papers() -> Section:
    marks = (("point", _("point: 0.15")), ("comma", _("comma: 0,15")))
    rows = (
        _row("paper_header", _("workshop")),
        _row("paper_address", _("address, line by line"), lines=3),
        _row("decimal_mark", _("numbers on papers are written with a"), marks),
    )
    return _("On papers"), "", rows
