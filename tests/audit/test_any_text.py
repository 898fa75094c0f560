"""Whatever stands in a book's file, the audit answers with findings and problems, and never with a stack trace."""

import re

from audit_book import BOOK
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gudgeon.audit import Finding, audit
from gudgeon.problem import Problem

LINES = BOOK.split("\n")
VALUES = ('"0 mm"', '"-1 mm"', '"1e9 mm"', '"999999999 mm"', '"1/0 in"', "[]", "{}", "true", "0", "-1", "nan", "inf", '""', '"°"',
          '"{x}"', '"M0"', '"0 N·m"', '["0 mm", "0 mm"]', '"\\u0000"', "[[1, 2], [3]]", "1979-05-27")  # fmt: skip


@st.composite
def damaged(draw: st.DrawFn) -> str:
    """The book with a few of its lines lost, doubled, moved or given another value."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(lines) - 1))
        match draw(st.sampled_from(("lost", "doubled", "moved", "valued", "valued", "valued", "cut"))):
            case "lost":
                del lines[at]
            case "doubled":
                lines.insert(at, lines[at])
            case "moved":
                lines.insert(draw(st.integers(0, len(lines) - 1)), lines.pop(at))
            case "valued" if " = " in lines[at]:
                lines[at] = lines[at].partition(" = ")[0] + " = " + draw(st.sampled_from(VALUES))
            case _:
                lines[at] = lines[at][: draw(st.integers(0, max(len(lines[at]), 1)))]
    return "\n".join(lines)


@settings(max_examples=400, deadline=None)
@given(damaged())
@example(BOOK.replace('stroke = "50.0 mm"', 'stroke = "0 mm"'))
@example(BOOK.replace('step = "0.05 mm"', 'step = "0 mm"'))
@example(BOOK.replace('torque = ["10 N·m"]', 'torque = ["0 N·m"]'))
def test_a_damaged_book_is_answered(text: str) -> None:
    for item in audit(text, None, "b.toml"):
        assert isinstance(item, Finding | Problem)
        assert int(item.where.split(":")[1]) >= 1
        assert not re.search(r"\{[a-z_]{2,}\}|\bnan\b(?!”)", str(item))


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200))
def test_any_text_is_answered(text: str) -> None:
    audit(text)
