"""An own part, measure, step or check typed cell by cell, for one job: what a form or a command line hands over."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, cast, get_args

from gudgeon.book.own import OWN_ROWS
from gudgeon.job.entries import OwnAdded
from gudgeon.problem import refuse
from gudgeon.shelf.typed import keys_of, nearest
from gudgeon.units import dimension_of
from gudgeon.workbench.growing import ends

Kind = Literal["part", "measure", "step", "check"]
#: Cells that hold several things, set apart by commas; a range may also have a dash between its ends.
LISTS = ("points", "remedies", "scopes", "works_on")
YES = {"yes": True, "true": True, "no": False, "false": False}
BOOLS = ("setting", "holds")


def own_of(kind: str, cells: Mapping[str, str]) -> OwnAdded:
    """The entry that these cells mean; an empty cell says nothing."""
    models = dict(OWN_ROWS.values())
    if kind not in models:
        raise refuse("own", "{kind} is nothing that can be added.", "Use one of: {known}.",
                     kind=kind, known=", ".join(get_args(Kind)))  # fmt: skip
    row: dict[str, str | bool | tuple[str, ...]] = {}
    for key, text in ((key, text.strip()) for key, text in cells.items()):
        if key not in keys_of(models[kind]):
            meant = nearest(key, keys_of(models[kind]))
            raise refuse(f"own {kind}", "{key} is not known here.",
                         "Did you mean {meant}?" if meant else "Use: {known}.", key=key, meant=meant,
                         known=", ".join(keys_of(models[kind])))  # fmt: skip
        if not text:
            continue
        if key in BOOLS:
            if text.casefold() not in YES:
                raise refuse(
                    f"own {kind}", "{key}: {text} is neither yes nor no.", "Write yes or no.", key=key, text=text
                )
            row[key] = YES[text.casefold()]
        elif key in LISTS:
            row[key] = tuple(piece.strip() for piece in text.split(",") if piece.strip())
        elif key == "new" and cells.get("unit", "").strip():
            unit = cells["unit"].strip()
            row[key] = ends(text, dimension_of(unit), unit)
        else:
            row[key] = text
    return OwnAdded(kind=cast(Kind, kind), row=row)
