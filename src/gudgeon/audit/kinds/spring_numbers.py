"""A spring's load follows from its wire and its lengths, within what springs vary."""

from collections.abc import Iterable
from math import isclose

from gudgeon.audit.shape import Finding, found, mm
from gudgeon.book.book import Rows
from gudgeon.book.engine import Spring
from gudgeon.mechanics.spring import load_n, rate_n_per_mm
from gudgeon.problem import Refused
from gudgeon.shelf.parse import Shelf

KEY = "spring_numbers"
NAME = "spring load follows from wire and length"
WHY = "Load and length decide over spacers and valve float; a misprint in one passes a tired spring."
CLOSE = 0.05  # spring loads vary by 5 to 10 %: common practice, no source


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Computed load against the printed one, solid height against the coils, load against its limits."""
    for spring in rows.springs:
        try:
            yield from _load(rows, spring)
        except Refused as refused:
            yield found("error", spring.line, _where(spring), "{words}", "Look at the drawing.",
                        words=str(refused.problems[0]))  # fmt: skip
        if spring.solid is not None and spring.at_length is not None and spring.solid.exact >= spring.at_length.exact:
            yield found("error", spring.line, _where(spring), "It is solid at {solid}, longer than fitted at {fitted}.",
                        "One of the two is a misprint.", solid=str(spring.solid), fitted=str(spring.at_length))  # fmt: skip
        yield from _solid(spring)


def _where(spring: Spring) -> str:
    return f"spring {spring.side}".strip()


def _load(rows: Rows, spring: Spring) -> Iterable[Finding]:
    drawn = (spring.wire, spring.mean_diameter, spring.active, spring.shear_modulus)
    if spring.load is None or spring.free is None or spring.at_length is None:
        return
    row = rows.limit_for("spring_load", f"c1.{spring.side or 'in'}")
    if row and row.new and not row.new[0].exact <= spring.load.exact <= row.new[1].exact:
        yield found("error", spring.line, _where(spring), "A load of {load} lies outside its new range.",
                    "The load, the range or the length is a misprint.",
                    f"{row.new[0]} to {row.new[1]} in line {row.line}", load=str(spring.load))  # fmt: skip
    if all(size is not None for size in drawn):
        wire, across, coils, modulus = (size.value for size in drawn if size is not None)
        rate = rate_n_per_mm(wire, across, coils, modulus)
        made = load_n(spring.free.value, spring.at_length.value, rate)
        if not isclose(made, spring.load.value, rel_tol=CLOSE):
            yield found("error", spring.line, _where(spring), "Wire and length make {made} N, the book says {load}.",
                        "Wire, coils, free length, length or load is a misprint.",
                        f"{rate:.2f} N/mm × ({spring.free.value:g} − {spring.at_length.value:g}) = {made:.1f} N",
                        made=f"{made:.1f}", load=str(spring.load))  # fmt: skip


def _solid(spring: Spring) -> Iterable[Finding]:
    if spring.solid is None or spring.wire is None or spring.total is None:
        return
    made = spring.wire.value * spring.total.value
    if not isclose(made, spring.solid.value, rel_tol=0.08):
        yield found("warning", spring.line, _where(spring), "The coils are solid at {made}, the book says {solid}.",
                    "Wire, coils or solid height is a misprint.", f"{spring.total} × {spring.wire}",
                    made=mm(made, 1), solid=str(spring.solid))  # fmt: skip
