"""Typed text to a number and the rest: digits, one decimal sign, groups, inch fractions; nothing else is ever tried.

A single point is a decimal point. A single comma is a decimal comma; where it may as well group thousands (``1,234``)
both meanings are handed on, for the unit and the range of the thing to settle, or to be asked. With both signs the last
one is the decimal sign if the other groups by threes. Spaces may group by threes. One sign that comes twice is refused:
it is more often two readings run together than a million.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction

from gudgeon.problem import Refused, refuse

LONGEST = 60
DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64, 128})
_SAME = {
    "º": "°",
    "˚": "°",
    "°": "°",
    "″": '"',
    "”": '"',
    "“": '"',
    "′": "'",
    "’": "'",
    "´": "'",
    "−": "-",
    "⁄": "/",
    "∕": "/",
    "\t": " ",
}
_NUMBER = re.compile(
    r"(?P<sign>[+-]?) ?"
    r"(?:(?:(?P<whole>[0-9]+)(?: |-))?(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)"
    r"|(?P<body>[0-9]{1,3}(?: [0-9]{3})+(?![0-9])(?:[.,][0-9]+)?|[0-9.,]+)(?P<exponent>[eE][+-]?[0-9]+)?)"
    r"(?P<rest>.*)"
)


WIDE = Context(prec=1000)  # more digits than anything typed or shown can need
_FINE = Context(prec=34)


def ends(exact: Fraction) -> bool:
    """Whether the fraction can be written as a decimal that ends."""
    rest = exact.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest == 1


def as_decimal(exact: Fraction) -> Decimal:
    """The fraction as a decimal: all its digits if they end, else 34 of them."""
    context = WIDE if ends(exact) else _FINE
    return context.divide(Decimal(exact.numerator), Decimal(exact.denominator))


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A number as typed, the step its last digit makes, what stood behind it; `grouped` where a comma may group thousands."""

    number: Decimal
    resolution: Decimal
    rest: str
    is_fraction: bool
    has_exponent: bool
    grouped: Decimal | None = None


def quoted(text: str) -> str:
    """The text short and visible, for a sentence: long text is cut, what cannot be seen is spelled out."""
    short = text if len(text) <= 24 else text[:23] + "…"
    seen = "".join(
        c if c.isprintable() else " " if unicodedata.category(c) == "Zs" else f"\\u{ord(c):04x}" for c in short
    )
    return f"“{seen}”"


def fold(text: str, where: str) -> str:
    """The text in plain signs: wide digits, dashes, spaces and marks of every keyboard become one of each."""
    if len(text) > LONGEST:
        raise refuse(
            where,
            "{given} is {length} characters long; a value has at most {most}.",
            "Type one number and its unit.",
            given=quoted(text),
            length=len(text),
            most=LONGEST,
        )
    stripped = text.strip()
    if stripped.isascii() and stripped.isprintable():
        return " ".join(stripped.split(" ")) if "  " not in stripped else " ".join(stripped.split())
    out: list[str] = []
    for sign in stripped:
        out.append(_fold_one(sign, out[-1] if out else "", text, where))
    return " ".join("".join(out).split())


def _fold_one(sign: str, before: str, text: str, where: str) -> str:
    if sign in _SAME:
        return _SAME[sign]
    if sign.isascii() and sign.isprintable():
        return sign
    category = unicodedata.category(sign)
    folded = unicodedata.normalize("NFKC", sign)
    match category:
        case "Zs":
            return " "
        case "Pd":
            return "-"
        case "No" if "⁄" in folded:
            return " " + folded.replace("⁄", "/")
        case "No" if not (folded in "0123456789" and (before[-1:].isalpha() or before == "-")):
            raise _strange(sign, text, where)
        case "Cc" | "Cf" | "Cs" | "Co" | "Cn" | "So" | "Sk" | "Mn" | "Me" if folded == sign:
            raise _strange(sign, text, where)
        case _:
            pass
    return "".join(_SAME.get(c, c) for c in folded)


def _strange(sign: str, text: str, where: str) -> Refused:
    return refuse(
        where,
        "{given} holds a sign that no value has ({name}).",
        "Type it again with plain digits and letters.",
        given=quoted(text),
        name=unicodedata.name(sign, f"code {ord(sign):04x}").lower(),
    )


def parse(folded: str, *, given: str, example: str, where: str) -> Typed:
    """The number at the start of folded text; `given` is what was typed, for the sentence when it cannot be read."""
    found = _NUMBER.fullmatch(folded)
    if found is None:
        raise refuse(
            where,
            "{given} is not a number with a unit.",
            "Type digits first, for example {example}.",
            given=quoted(given),
            example=example,
        )
    minus = found["sign"] == "-"
    if found["top"] is not None:
        number, resolution = _fraction(found["whole"], found["top"], found["bottom"], given, where)
        is_fraction = True
    else:
        number = _decimal(found["body"], found["exponent"] or "", given, where)
        resolution = Decimal((0, (1,), int(number.as_tuple().exponent)))
        is_fraction = False
    return Typed(
        number=number.copy_negate() if minus and number else number,
        resolution=resolution,
        rest=found["rest"].strip(),
        is_fraction=is_fraction,
        has_exponent=found["exponent"] is not None,
        grouped=_grouped(found["sign"], found["body"] or ""),
    )


def _grouped(sign: str, body: str) -> Decimal | None:
    """The thousands that one comma before three digits may group; none where it can only be a decimal comma."""
    if not re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", body):
        return None
    return Decimal(sign + body.replace(",", ""))


def _fraction(whole: str | None, top: str, bottom: str, given: str, where: str) -> tuple[Decimal, Decimal]:
    if int(bottom) not in DENOMINATORS or not 0 < int(top) < int(bottom):
        raise refuse(
            where,
            "{given} is not a fraction of an inch.",
            "Write a proper fraction of halves, quarters … 128ths (1 1/16 in), or decimals.",
            given=quoted(given),
        )
    part = Fraction(1, int(bottom))
    return as_decimal(int(whole or 0) + int(top) * part), as_decimal(part)


def _decimal(body: str, exponent: str, given: str, where: str) -> Decimal:
    if len(exponent.lstrip("eE+-")) > 2:
        raise refuse(
            where,
            "{given} is beyond anything on a bench.",
            "Write the number with an exponent of at most two digits.",
            given=quoted(given),
        )
    return Decimal(_point(body, given, where) + exponent)


def _point(body: str, given: str, where: str) -> str:
    """The digits with a decimal point."""
    body = body.replace(" ", "")
    points, commas = body.count("."), body.count(",")
    if body[-1] in ".,":
        raise refuse(
            where,
            "{given} ends in a decimal sign, so digits may be missing.",
            "Type the digits the gauge shows, or leave the sign out.",
            given=quoted(given),
        )
    if points and commas:
        return _both(body, given, where)
    if points + commas > 1:
        raise refuse(
            where,
            "{given} has more than one decimal sign.",
            "Type one value, with one decimal sign.",
            given=quoted(given),
        )
    return body.replace(",", ".")


def _both(body: str, given: str, where: str) -> str:
    decimal_sign = max(".,", key=body.rfind)
    group = "," if decimal_sign == "." else "."
    whole, _, digits = body.rpartition(decimal_sign)
    if not re.fullmatch(rf"[0-9]{{1,3}}(?:{re.escape(group)}[0-9]{{3}})+", whole):
        raise refuse(
            where,
            "{given} uses point and comma in a way that has no one meaning.",
            "Type it without grouping, with one decimal sign.",
            given=quoted(given),
        )
    return f"{whole.replace(group, '')}.{digits}"
