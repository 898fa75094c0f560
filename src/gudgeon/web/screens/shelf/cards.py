"""The form of a gauge's card: its cells in the order in which a certificate is read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _

from gudgeon.problem import Problem
from gudgeon.web.cells import Cell, Choices, problem_at
from gudgeon.workbench.shelving import kinds


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of the form: its title, its cells, and a word on them."""

    title: str
    cells: tuple[Cell, ...]
    word: str = ""


def card_parts(typed: Mapping[str, str], wrong: Mapping[str, Problem], *, known: bool) -> tuple[Part, ...]:
    """The cells of a card, with what was typed and what is wrong with it."""

    def cell(
        name: str, label: str, *, hint: str = "", choices: Choices = (), wide: bool = False, fixed: bool = False
    ) -> Cell:
        return Cell(name=name, label=label, value=typed.get(name, ""), problem=problem_at(wrong, name), hint=hint,
                    choices=choices, wide=wide, fixed=fixed)  # fmt: skip

    every = kinds()
    units = tuple(dict.fromkeys(unit for _kind, listed in every for unit in listed))
    return (
        Part(
            title=_("What it is"),
            cells=(
                cell("id", _("short name, as on its box"), hint="MIC-25", fixed=known),
                cell("name", _("name"), wide=True),
                cell("kind", _("kind"), choices=tuple((kind, kind) for kind, _units in every)),
                cell("unit", _("it reads in"), choices=tuple((unit, unit) for unit in units)),
            ),
        ),
        Part(
            title=_("What it reads"),
            word=_("A number without a unit is in the unit that it reads in."),
            cells=(
                cell("low", _("from"), hint="0 mm"),
                cell("high", _("to"), hint="25 mm"),
                cell("resolution", _("smallest step"), hint="0.01 mm"),
            ),
        ),
        Part(
            title=_("How far it may be off"),
            word=_("From its sheet, or from its certificate; not both."),
            cells=(
                cell("permissible_error", _("permissible error"), hint="0.004 mm"),
                cell("per_cent", _("and of what it shows"), hint="1.5 %"),
                cell("certificate_u", _("or the certificate's ±"), hint="0.003 mm"),
                cell("k", _("with its k"), hint="2"),
                cell("certified", _("certified on"), hint="2026-11-25"),
                cell("due", _("due again on"), hint="2027-11-25"),
                cell("source", _("who says so"), wide=True),
            ),
        ),
        _master(cell),
        Part(
            title=_("How well it repeats"),
            cells=(cell("repeatability", _("standard deviation of repeats"), hint="0.002 mm"),),
        ),
    )


def _master(make: Callable[..., Cell]) -> Part:
    return Part(
        title=_("Set on a master"),
        word=_("For a dial that shows how far a size is from what it was set on."),
        cells=(
            make("master", _("master"), hint="88.000 mm"),
            make("master_u", _("master known to (standard uncertainty)"), hint="0.0017 mm"),
            make("set_with", _("set with gauge"), hint="MIC-100"),
            make(
                "deviation", _("it shows"), choices=(("", _("the size")), ("true", _("the deviation from its master")))
            ),
            make("direction", _("a larger size shows"), choices=(("1", "+"), ("-1", "−"))),
        ),
    )
