"""What a workshop owns and how it decides, as a screen reads it: books with their audit, gauges with their doubt, rules."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.audit.catalogue import audit
from gudgeon.audit.shape import Finding
from gudgeon.problem import refuse
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.starting import BookCard, kept_books


class GaugeView(Struct, frozen=True, kw_only=True):
    """A gauge: its range, how well it knows what it shows (95 of 100 single readings), and who says so."""

    id: str
    name: str
    kind: str
    range: str
    doubt: str
    master: str
    source: str
    due: str
    overdue: bool


class OwningView(Struct, frozen=True, kw_only=True):
    """Books, and what stands on the shelf in numbers; `own_rules` are those that differ from the usual."""

    books: tuple[BookCard, ...]
    gauges: tuple[GaugeView, ...]
    overdue: int
    wrenches: int
    shims: int
    leftovers: int
    own_rules: int
    usual: bool


class FindingView(Struct, frozen=True, kw_only=True):
    """What the audit of a book says, with its arithmetic."""

    where: str
    what: str
    arithmetic: str
    remedy: str
    severity: str


class BookPage(Struct, frozen=True, kw_only=True):
    """A kept book: its text by lines, and what its audit finds."""

    sha256: str
    name: str
    edition: str
    lines: tuple[str, ...]
    findings: tuple[FindingView, ...]


def owning(bench: Workbench) -> OwningView:
    """Everything behind the last door."""
    shelf, today = bench.shelf(), bench.clock.now()[:10]
    usual, own = Rules().pinned(), shelf.rules.pinned()
    return OwningView(
        books=kept_books(bench),
        gauges=tuple(_gauge(g, today) for g in shelf.gauges),
        overdue=sum(1 for g in shelf.gauges if g.overdue(today)),
        wrenches=len(shelf.wrenches),
        shims=sum(s.count for s in shelf.shims),
        leftovers=sum(p.count for p in shelf.leftovers),
        own_rules=sum(1 for name, value in own.items() if usual[name] != value),
        usual=not bench.library.shelf().strip(),
    )


def _gauge(card: GaugeCard, today: str) -> GaugeView:
    middle = (card.low.value + card.high.value) / 2 if card.low and card.high else 0.0
    inside = {"length": "mm", "force": "N", "pressure": "kPa", "percent": "%", "volume": "cm³"}.get(card.dimension, "")
    doubt = f"± {2 * card.u(middle):.2g} {inside}" if card.dimension != "words" else ""
    return GaugeView(
        id=card.id,
        name=card.name,
        kind=card.kind,
        range=f"{card.low} – {card.high}" if card.low and card.high else "",
        doubt=doubt,
        master=" ".join(t for t in (str(card.master) if card.master else "", card.set_with) if t),
        source=card.source,
        due=card.due,
        overdue=card.overdue(today),
    )


def book_page(bench: Workbench, sha256: str) -> BookPage:
    """A kept book with its audit."""
    text = bench.library.book(sha256)
    if text is None:
        raise refuse("book", "No such book is kept.", "Look at the list of books.")
    book = bench.book(sha256)
    return BookPage(sha256=sha256, name=book.name, edition=book.edition, lines=tuple(text.splitlines()),
                    findings=findings(text, bench.shelf(), book.name))  # fmt: skip


def findings(text: str, shelf: Shelf, name: str) -> tuple[FindingView, ...]:
    """What the audit says of a book's text."""
    return tuple(
        FindingView(where=f.where, what=str(f.what), remedy=str(f.remedy),
                    arithmetic=f.arithmetic if isinstance(f, Finding) else "",
                    severity=f.severity if isinstance(f, Finding) else "error")
        for f in audit(text, shelf, name)
    )  # fmt: skip
