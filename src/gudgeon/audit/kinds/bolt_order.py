"""Every bolt stands in the order once: one left out stays loose under a hot head."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "bolt_order"
NAME = "every bolt in the order once"
WHY = "The screen leads through the order; what is not in it is not tightened."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Tightening and loosening order against the count, and the count against the positions drawn."""
    for row in rows.fasteners:
        for name, order in (("order", row.order), ("loosen", row.loosen)):
            wrong = _wrong(order, row.count)
            if order and wrong:
                yield found("error", row.line, row.name, "The {name} of {count} bolts {wrong}.",
                            "Each number from 1 to {count} stands once.", " – ".join(map(str, order)),
                            name="loosening order" if name == "loosen" else "order", count=row.count, wrong=wrong)  # fmt: skip
        if row.positions_mm and len(row.positions_mm) != row.count:
            yield found("error", row.line, row.name, "{count} bolts, but {drawn} positions.",
                        "Draw each bolt once.", count=row.count, drawn=len(row.positions_mm))  # fmt: skip


def _wrong(order: tuple[int, ...], count: int) -> str:
    wanted = set(range(1, count + 1))
    missing, strange = sorted(wanted - set(order)), sorted(set(order) - wanted)
    twice = sorted({n for n in order if order.count(n) > 1})
    words = [f"leaves out {', '.join(map(str, missing))}"] if missing else []
    words += [f"names {', '.join(map(str, strange))}, which is none"] if strange else []
    words += [f"names {', '.join(map(str, twice))} twice"] if twice else []
    return " and ".join(words)
