"""One order, complete: what is forgotten stops the engine for a week, and what looks alike is sent wrong."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Heading, KeyValues, Para, Signature, Table, Together
from gudgeon.papers.common import DASH, engine, listed, title
from gudgeon.view.job import BuyView, LineView
from gudgeon.view.record import JobRecord, OrderView

KEY = "parts_order"
NAME = "Parts order"
FOR = "for the supplier"


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """What to order now, what waits for a decision, what was ordered already."""
    plan = view.plan("order")
    head = (title(view, NAME, FOR), KeyValues((("engine", engine(view)), ("machine", view.job.machine or DASH))))
    if plan is None:
        buys = tuple(buy for one in view.plans for buy in one.buys)
        return (*head, _table(view, tuple(_bought(b) for b in buys)), *_foot(view))
    sure = {b.number: b.sure for b in plan.buys}
    now = [
        line for line in plan.lines if line.numbers.get("to_order") and sure.get(str(line.numbers.get("number")), True)
    ]
    waits = [line for line in plan.lines if line.numbers.get("to_order") and line not in now]
    rest = [line for line in plan.lines if not line.numbers.get("to_order")]
    found: list[Block] = [*head, Heading("Order now"), _table(view, tuple(_lined(x, "to_order") for x in now))]
    if waits:
        found += [Heading("Not yet: waits for a decision"), _table(view, tuple(_lined(x, "to_order") for x in waits))]
    if rest:
        found += [Heading("Not to be ordered again"), _table(view, tuple(_lined(x, "count") for x in rest))]
    if plan.reasons:
        found.append(Para(listed(plan.reasons), "context"))
    return (*found, *_foot(view))


Row = tuple[str, str, float, float | None, str]


def _lined(line: LineView, count: str) -> Row:
    n = line.numbers
    price = n.get("price")
    status = "" if n.get("to_order") else str(n.get("status") or "")
    words = "; ".join(w for w in (status, *line.because, str(n.get("delivery") or "")) if w)
    size = n.get(count)
    how_many = size if isinstance(size, float | int) else 0.0
    return (
        str(n.get("number") or ""),
        str(n.get("name") or line.what),
        how_many,
        price if isinstance(price, float) else None,
        words,
    )


def _bought(buy: BuyView) -> Row:
    return buy.number, buy.name, buy.count, buy.price, buy.because


def _table(view: JobRecord, rows: tuple[Row, ...]) -> Table:
    currency = view.record.rules.get("currency", "")
    cells = [
        (number or DASH, name, f"{count:g}", _money(price), _money(price * count if price is not None else None), words)
        for number, name, count, price, words in rows
    ]
    priced = [price * count for _n, _name, count, price, _w in rows if price is not None]
    if priced:
        missing = len(rows) - len(priced)
        words = f"{missing} without a price not counted" if missing else ""
        cells.append(("", "together", "", "", _money(sum(priced)), words))
    head = ("number", "part", "count", f"each{_in(currency)}", f"sum{_in(currency)}", "why, and what it is not")
    return Table(
        head=head, rows=tuple(cells), widths=(1.3, 2.4, 0.8, 1.2, 1.2, 4.2), dense=True,
        align=("left", "left", "right", "right", "right", "left"), empty="nothing",
    )  # fmt: skip


def _in(currency: str) -> str:
    return f", {currency}" if currency else ""


def _money(amount: float | None) -> str:
    return DASH if amount is None else f"{amount:.2f}"


def _foot(view: JobRecord) -> tuple[Block, ...]:
    given = [o for o in view.record.orders if o.kind == "parts"]
    lines = tuple(f"{o.order}: " + ", ".join(_given(o, number, n) for number, n in o.lines.items()) for o in given)
    past: tuple[Block, ...] = (Heading("Orders given so far"), Para(listed(lines), "dense")) if lines else ()
    return (Together((*past, Signature(("ordered by",)))),)


def _given(order: OrderView, number: str, count: int) -> str:
    came = order.arrived.get(number, 0)
    return f"{count} × {number}" + ("" if came == count else f" ({came} came)" if came else " (on its way)")
