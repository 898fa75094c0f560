"""Pain 8: a limit misread: a misprint, another row, another model, a wobble taken for a clearance."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job, book

from gudgeon.workbench.auditing import check_book

ROW = 'of = "stem_guide_clearance"\nnew = ["0.025 mm", "0.052 mm"]\nmost = "0.080 mm"'
LASH_EX = 'of = "lash"\nside = "ex"\nleast = "0.20 mm"\nmost = "0.26 mm"'
MISREAD = (
    ("unit_columns", 'of = "stem_runout"\nmost = "0.15 mm"\nalso_most = "0.0006 in"', ""),
    ("unit_columns", 'of = "valve_margin"\nleast = "0.9 mm"\nalso_least = "0.354 in"', ""),
    ("both_sides", "", LASH_EX),
    ("wobble_method", 'of = "wobble"\nmost = "0.33 mm"', ""),
)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
@pytest.mark.parametrize(("check", "more", "less"), MISREAD, ids=[f"{c} {m[:18] or 'missing'}" for c, m, _ in MISREAD])
def test_the_book_is_held_against_itself(layout: str, check: str, more: str, less: str) -> None:
    text = book(layout, more=f"[[limit]]\n{more}\n" if more else "")
    if less:
        text = text.replace(f"[[limit]]\n{less}\n", "")
    clean = {f.check for f in check_book(book(layout), None, "book.toml").findings if f.severity == "error"}
    assert clean == set()
    assert check in {f.check for f in check_book(text, None, "book.toml").findings}


def test_a_lost_decimal_is_said_with_its_arithmetic() -> None:
    text = book("bucket", more='[[limit]]\nof = "stem_runout"\nmost = "0.15 mm"\nalso_most = "0.0006 in"\n')
    one = next(f for f in check_book(text, None, "book.toml").findings if f.check == "unit_columns")
    assert "misprint" in one.remedy and "0.0006 in" in one.arithmetic
    assert one.where.startswith("book.toml:")


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wobble_is_never_judged_by_a_clearance(layout: str) -> None:
    """0.09 on the dial passes no limit of 0.08 and fails none; the clearance stays unmeasured."""
    job = Job(layout, "head out")
    job.bench.put_shelf(job.bench.library.shelf() + '[[gauge]]\nid = "dti"\nkind = "dial indicator"\nname = "dial"\n'
                        'unit = "mm"\nlow = "0 mm"\nhigh = "10 mm"\npermissible_error = "0.01 mm"\nsource = "invented"\n')  # fmt: skip
    job.read("wobble", IN, "0.09", gauge="dti")
    assert job.at(f"wobble@{IN}").verdict == "not comparable"
    assert job.at(f"stem_guide_clearance@{IN}").verdict == "not measured"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wobble_limit_under_the_clearance_judges_nothing(layout: str) -> None:
    text = book(layout).replace(ROW, ROW.replace("0.080 mm", "0.330 mm") + '\nmethod = "wobble, 10 mm open"')
    assert any(f.check == "wobble_method" and f.severity == "error" for f in check_book(text, None, "b.toml").findings)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_every_verdict_names_its_limit_and_its_page(layout: str) -> None:
    job = Job(layout, "head out", more='[[limit]]\nof = "stem_runout"\nmost = "0.05 mm"\npage = "4-12"\n')
    seen = job.bench.measure(job.number, "stem_runout", IN)
    assert seen.limit is not None
    assert (seen.limit.most, seen.limit.page) == ("0.05 mm", "4-12")
    assert "engine number" in job.hold("H0").asks[0]
