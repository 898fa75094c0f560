"""What each rule is called, and its choices in words."""

from __future__ import annotations

from django.utils.translation import gettext as _

from gudgeon.web.cells import Choices

#: Key, label, choices, lines of text.
Row = tuple[str, str, Choices, int]


def sections() -> tuple[tuple[str, str, tuple[Row, ...]], ...]:
    """Title, a word on it, and its rules."""
    walls = (("guarded", _("guarded: proven")), ("face value", _("as read")))
    aims = (
        ("middle", _("the middle")),
        ("loose third", _("where the loose third begins")),
        ("loose edge", _("the loose edge")),
    )
    return (
        (
            _("How is decided"),
            _("Wear limits and what wrecks an engine are proven; settings are judged as the book does."),
            (
                ("risk", _("risk of passing what is bad"), (), 0),
                ("wear", _("wear limits"), walls, 0),
                ("tight_wall", _("lash, tight wall"), walls, 0),
                ("loose_wall", _("lash, loose wall"), walls, 0),
                ("readings", _("readings of one place"), (("quick", _("the worst place first")), ("full", _("all of them"))), 0),
            ),
        ),
        (
            _("Aims and guards"),
            _("Where the book says nothing."),
            (
                ("shim_aim", _("lash is aimed at"), aims, 0),
                ("squish_least", _("squish, least"), (), 0),
                ("valve_to_piston_in", _("valve to piston, intake, least"), (), 0),
                ("valve_to_piston_ex", _("valve to piston, exhaust, least"), (), 0),
                ("leak_down_most", _("leak-down, most"), (), 0),
                ("seal_test_time", _("seal test holds for"), (), 0),
                ("springs", _("a weak spring is renewed"), (("side", _("with all of its side")), ("one", _("alone"))), 0),
            ),
        ),
        (
            _("Hours and prices"),
            "",
            (
                ("hour_price", _("an hour costs"), (), 0),
                ("currency", _("currency"), (), 0),
                ("tax_name", _("tax, its name"), (), 0),
                ("tax_rate", _("tax, its rate"), (), 0),
                ("overrun", _("over the approved price without a new yes"), (), 0),
            ),
        ),
        (
            _("On papers"),
            "",
            (
                ("paper_header", _("workshop"), (), 0),
                ("paper_address", _("address, line by line"), (), 3),
                ("decimal_mark", _("numbers on papers are written with a"), (("point", _("point: 0.15")), ("comma", _("comma: 0,15"))), 0),
            ),
        ),
    )  # fmt: skip
