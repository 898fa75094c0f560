"""Decimal commas on papers: sizes and money change, names do not."""

import pytest
from tests.workbench.shop import HAND, JOB, read, shop

from gudgeon.papers.blocks import Figure, Heading, KeyValues, Para, Table, TitleBlock
from gudgeon.papers.decimals import comma, with_comma
from gudgeon.papers.text import lines
from gudgeon.workbench.papers import check_paper, page, paper_html
from gudgeon.workbench.shelving import pin_rules, put_rules


@pytest.mark.parametrize(
    ("text", "shown"),
    [("0.15 mm", "0,15 mm"), ("75.044 ± 0.006", "75,044 ± 0,006"), ("0.12/0.13", "0,12/0,13"), ("+0.02", "+0,02"),
     ("12.50 EUR.", "12,50 EUR."), ("0.10–0.15", "0,10–0,15"), ("(0.5)", "(0,5)"), ("not over 5.0.", "not over 5,0.")],
)  # fmt: skip
def test_numbers_change(text: str, shown: str) -> None:
    assert comma(text) == shown


@pytest.mark.parametrize(
    "text", ["c1.in", "2.1.3", "2026-11-25", "A-1.5", "1.5-A", "M6x1.0", "v1.2", "entry 12.", "12:30"]
)
def test_names_stay(text: str) -> None:
    assert comma(text) == text


def test_a_paper_keeps_its_names_and_its_title_block() -> None:
    title = TitleBlock(paper="p", engine="e 1.5", job="j", ledger="1.2")
    table = Table(head=("number", "sum"), rows=(("10.5", "10.50"),))
    figure = Figure(svg='<svg viewBox="0 0 1.5 1"><text x="1.5">0.15</text></svg>', alt="gap 0.15")
    shown = with_comma(
        (title, Heading("Sizes"), Para("gap 0.15"), table, KeyValues((("page", "6.12"), ("gap", "0.2"))), figure)
    )
    assert shown[0] is title
    assert lines(shown)[1:] == ("Sizes", "gap 0,15", "10.5 | 10,50", "page: 6.12", "gap: 0,2", "gap 0,15")
    assert isinstance(shown[-1], Figure) and 'viewBox="0 0 1.5 1"' in shown[-1].svg and ">0,15<" in shown[-1].svg


def test_a_job_whose_rules_say_comma_writes_and_checks_its_papers_so() -> None:
    bench = shop()
    put_rules(bench, {"decimal_mark": "comma", "paper_header": "Own bench", "paper_address": "12 Quay\nPort"})
    bench.record(JOB, [read("lash", "c1.in", "0.14/0.15", "feel")], HAND)
    assert "0.145" in paper_html(bench, JOB, "technical_record"), "the rules of its opening"
    pin_rules(bench, JOB, HAND)
    shown = paper_html(bench, JOB, "technical_record")
    assert "0,145" in shown and "0.145" not in shown and "Own bench, 12 Quay, Port" in shown
    assert check_paper(bench, page(bench, JOB, "technical_record").encode()).matches
