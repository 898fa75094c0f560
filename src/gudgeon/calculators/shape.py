"""What a calculator is: a line, its keys, and a function from their values to an answer that says where it comes from.

No comparing and no printing of these shapes: nobody asks for it, and making both would slow every start of ``calc``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

WORDS = "words"
FILE = "file"

# The unit that a bare number takes. Where two units are as usual as each other (pressure, torque, force), none is taken
# and the question goes back to who typed it.
BARE = {
    "length": "mm",
    "angle": "°",
    "volume": "cm³",
    "percent": "%",
    "count": "",
    "number": "",
    "stiffness": "N/mm",
    "distance": "m",
    "speed": "rpm",
    "time": "h",
    "mass": "g",
    "density": "kg/m³",
    "expansion": "1/K",
    "temperature": "°C",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Key:
    """One thing a calculator asks for; required unless it has a `default` or is `optional` (then None is passed).

    `dimension` is one of `units`, or ``"words"`` (one of `choices`, if there are any), or ``"file"`` (the text of a file).
    `unit` is what a bare number takes; ``None`` means the usual one of the dimension, where there is one.
    """

    name: str
    dimension: str
    help: str
    default: str | None = None
    optional: bool = False
    unit: str | None = None
    choices: tuple[str, ...] = ()

    @property
    def argument(self) -> str:
        """The name under which `work` takes the value: ``top-feed`` is ``top_feed``, ``from`` is ``from_``."""
        plain = self.name.replace("-", "_")
        return plain + "_" if plain in ("from", "in", "is", "not", "as", "with", "if") else plain

    @property
    def required(self) -> bool:
        """Whether the calculator cannot do without it."""
        return self.default is None and not self.optional

    @property
    def bare_unit(self) -> str | None:
        """The unit of a number typed without one."""
        return self.unit if self.unit is not None else BARE.get(self.dimension)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Result:
    """One figure of an answer."""

    name: str
    value: float | str
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Curve:
    """A line of a drawing that a page shows beside the figures."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Answer:
    """The figures, how they were found, where the rule comes from, when it holds, and what else must be said.

    `curves` run over crank degrees, in mm; `events` are the four of a cam as a book prints them.
    """

    results: tuple[Result, ...]
    method: str
    source: str
    validity: str
    notes: tuple[str, ...] = ()
    curves: tuple[Curve, ...] = ()
    events: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Calculator:
    """A calculator; `work` takes its keys by keyword: floats in the inside unit, words and file texts as they are."""

    key: str
    line: str
    keys: tuple[Key, ...]
    work: Callable[..., Answer]
    example: str
    example_file: str = ""
