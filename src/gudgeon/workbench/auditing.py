"""A book held against itself, the routes and the shelf, as faces show it."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.audit.catalogue import audit, not_checked
from gudgeon.audit.shape import Finding
from gudgeon.shelf.parse import Shelf


class FindingLine(Struct, frozen=True, kw_only=True):
    """One thing that is wrong with a book: `where` begins with file and line."""

    severity: str
    where: str
    what: str
    arithmetic: str
    remedy: str
    check: str


class BookCheck(Struct, frozen=True, kw_only=True):
    """All that was found, and the checks that could not be made without a shelf."""

    findings: tuple[FindingLine, ...]
    not_checked: tuple[str, ...]

    @property
    def errors(self) -> int:
        """How many of the findings forbid its use."""
        return sum(1 for f in self.findings if f.severity == "error")


def check_book(text: str, shelf: Shelf | None, name: str) -> BookCheck:
    """Audit a book's text; a shelf adds the checks that need one."""
    found = []
    for one in audit(text, shelf, name):
        if isinstance(one, Finding):
            found.append(
                FindingLine(
                    severity=one.severity,
                    where=one.where,
                    what=str(one.what),
                    arithmetic=one.arithmetic,
                    remedy=str(one.remedy),
                    check=one.check,
                )
            )
        else:
            found.append(
                FindingLine(severity="error", where=one.where, what=str(one.what), arithmetic="", remedy=str(one.remedy),
                            check="read")
            )  # fmt: skip
    return BookCheck(findings=tuple(found), not_checked=not_checked(shelf))
