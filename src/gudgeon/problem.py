"""What Gudgeon says when something is wrong: where it is, what was found and expected, and what to do about it.

A sentence that a person reads is a :class:`Said`, a template with its values, until a face words (and translates) it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

Value = str | int | float


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence as a template and its values: ``Said("{what} is missing", (("what", "lash"),))``."""

    template: str
    values: tuple[tuple[str, Value], ...] = ()

    def __str__(self) -> str:
        return self.words()

    def words(self, translate: Mapping[str, str] | None = None) -> str:
        """The sentence in words; a template that does not fit its values is shown as it is, never raised."""
        template = (translate or {}).get(self.template, self.template)
        try:
            return template.format_map(dict(self.values))
        except (KeyError, IndexError, ValueError):
            return template


def said(template: str, /, **values: Value) -> Said:
    """A :class:`Said` from keyword values."""
    return Said(template, tuple(values.items()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong: `where` (file and line, or job, entry, feature), `what` was found, and the `remedy`."""

    where: str
    what: Said
    remedy: Said

    def __str__(self) -> str:
        return f"{self.where}: {self.what} {self.remedy}"


class Refused(Exception):
    """Raised where a request cannot be met; carries every problem that was found, all at once."""

    def __init__(self, problems: Problem | Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = (problems,) if isinstance(problems, Problem) else tuple(problems)
        super().__init__("\n".join(str(p) for p in self.problems))


def refuse(where: str, what: str, remedy: str, /, **values: Value) -> Refused:
    """The exception for one problem: ``raise refuse("rod", "{given} is short.", "Give over {least}.", …)``."""
    return Refused(Problem(where=where, what=said(what, **values), remedy=said(remedy, **values)))


#: How every caution ends, wherever it stands.
CAUTION_END = said("The maker's manual, local codes and licensed practice come first.")


def caution(words: str) -> str:
    """A caution as it is shown: what can hurt here, and whose word comes first."""
    return f"{words} {CAUTION_END}" if words else ""
