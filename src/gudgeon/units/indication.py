"""What a stepped gauge says: two ends, the leaf that goes and the leaf that does not, or that there is no gap."""

from __future__ import annotations

import re
from dataclasses import dataclass

from gudgeon.problem import refuse
from gudgeon.units.number import fold, quoted
from gudgeon.units.quantity import Quantity, Span, read

_NO_GAP = frozenset({"no gap", "nogap", "none", "tight", "no clearance"})
_VALUE = r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_PAIR = rf"(?P<goes>{_VALUE}) ?(?P<sign>/|-|\.\.\.?|to) ?(?P<not>{_VALUE})(?P<unit>(?: ?[^0-9 /.,].*)?)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Indication:
    """Where the true value lies: equal ends are one value, a missing end is open, `no_gap` is no value at all."""

    text: str
    low: Quantity | None
    high: Quantity | None
    no_gap: bool = False


def read_indication(
    text: str, dimension: str, *, unit: str | None = None, where: str = "value", within: Span | None = None
) -> Indication:
    """An indication as typed: ``0.12``, ``0.12/0.13`` (goes / does not go), ``>0.30``, ``<0.03`` or ``no gap``."""
    folded = fold(text, where)
    if folded.casefold() in _NO_GAP:
        return Indication(text=text, low=None, high=None, no_gap=True)
    if folded[:1] in ("<", "≤", ">", "≥"):
        end = read(folded[1:].strip(), dimension, unit=unit, where=where, within=within)
        return (
            Indication(text=text, low=None, high=end)
            if folded[0] in "<≤"
            else Indication(text=text, low=end, high=None)
        )
    pair = re.fullmatch(_PAIR, folded)
    if pair is not None and not _is_fraction(pair, dimension, unit, where):
        return _pair(text, pair, dimension, unit, where, within)
    exact = read(text, dimension, unit=unit, where=where, within=within)
    return Indication(text=text, low=exact, high=exact)


def _is_fraction(pair: re.Match[str], dimension: str, unit: str | None, where: str) -> bool:
    """``1/16`` in inches is a fraction, ``5/6`` in thou are two leaves."""
    if pair["sign"] != "/" or not (pair["goes"] + pair["not"]).isdigit():
        return False
    return read(f"1 {pair['unit']}", dimension, unit=unit, where=where).unit in ("in", "ft")


def _pair(
    text: str, pair: re.Match[str], dimension: str, unit: str | None, where: str, within: Span | None
) -> Indication:
    shown = pair["unit"].strip() or unit
    goes = read(pair["goes"], dimension, unit=shown, where=where, within=within)
    does_not = read(pair["not"], dimension, unit=shown, where=where, within=within)
    if goes.exact >= does_not.exact:
        raise refuse(
            where,
            "{given}: the leaf that goes must be thinner than the one that does not.",
            "Did you mean {swapped}?" if goes.exact > does_not.exact else "Type one value, or two different leaves.",
            given=quoted(text),
            swapped=f"{pair['not']}/{pair['goes']}",
        )
    return Indication(text=text, low=goes, high=does_not)
