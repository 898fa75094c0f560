"""How many lines a cell takes, so that a table of thousands is told its row heights instead of setting every cell twice.

Advance widths of our regular face in thousandths of its size, as its `hmtx` table has them (a test reads the file). What is not
among them counts as a full square: a row may then be a line too tall, never too short.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

FIRST = " "
#: From the space to the tilde, in order.
ASCII = (
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497, 497, 497, 497,
    497, 497, 249, 249, 497, 497, 497, 425, 847, 544, 588, 571, 615, 527, 494, 617, 652, 263, 480, 579, 486, 727, 647, 664,
    566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555, 496, 292, 504,
    544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 718, 446, 467, 425, 303, 241, 303, 497,
)  # fmt: skip
OTHERS = {"\u00a0": 202, "–": 480, "−": 497, "±": 497, "≤": 497, "≥": 497, "×": 497, "·": 249, "µ": 562, "°": 331, "…": 948,
          "ä": 504, "ö": 542, "ü": 544, "ß": 576}  # fmt: skip
WIDTHS: Mapping[str, int] = {chr(ord(FIRST) + i): w for i, w in enumerate(ASCII)} | OTHERS
SQUARE = 1000
POINT_MM = 25.4 / 72


@cache
def _width(word: str) -> int:
    return sum(WIDTHS.get(c, SQUARE) for c in word)


def lines_taken(text: str, room_mm: float, points: float) -> int:
    """How many lines the words take at most in a column of that width; 0 where one word alone is wider than it."""
    room = room_mm * 1000 / (points * POINT_MM)
    whole = _width(text)
    if whole <= room:
        return 1
    taken, used = 1, 0.0
    for word in text.split(" "):
        wide = _width(word)
        if wide > room:
            return 0
        if used and used + WIDTHS[" "] + wide > room:
            taken, used = taken + 1, wide
        else:
            used += (WIDTHS[" "] if used else 0) + wide
    return taken
