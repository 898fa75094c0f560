"""Every page of the bench by name, with an address in the told workshop; what answers no page is named beside them."""

from __future__ import annotations

from django.urls import Resolver404, resolve
from tests.web.conftest import JOB, SMALL

from gudgeon.calculators.catalogue import CALCULATORS
from gudgeon.papers.catalogue import PAPERS
from gudgeon.web.urls import urlpatterns
from gudgeon.workbench.bench import Workbench

#: What stands for the digest of the job's book, and for a row of it.
BOOK, ROW = "{book}", "{row}"
PAGES = {
    "jobs": "/",
    "found": "/?search=quad",
    "intake": "/open",
    "take in": "/import",
    "engine": f"/job/{JOB}/",
    "engine, small": f"/job/{SMALL}/",
    "measure": f"/job/{JOB}/measure",
    "measure, small": f"/job/{SMALL}/measure",
    "sheet": f"/job/{SMALL}/sheet",
    "photos": f"/job/{JOB}/photos",
    "decide": f"/job/{JOB}/decide",
    "decide, small": f"/job/{SMALL}/decide",
    "build": f"/job/{JOB}/build",
    "build, small": f"/job/{SMALL}/build",
    "papers": f"/job/{JOB}/papers",
    "retract": f"/job/{JOB}/papers?retract=9",
    **{f"paper {kind}": f"/job/{JOB}/paper/{kind}" for kind in PAPERS},
    "gauge data": f"/job/{JOB}/gauge-data",
    "gauge data, one gauge": f"/job/{JOB}/gauge-data?gauge=CAL-1",
    "returned": f"/job/{JOB}/returned",
    "edition": f"/job/{JOB}/edition",
    "own": f"/job/{JOB}/own",
    "more": "/more",
    "new book": "/more/new",
    "book": f"/more/book/{BOOK}",
    "newest grid": "/more/grid",
    "grid": f"/more/book/{BOOK}/grid",
    "table": f"/more/book/{BOOK}/table",
    "fasteners": f"/more/book/{BOOK}/fasteners",
    "bolts": f"/more/book/{BOOK}/bolts/0",
    "like": f"/more/book/{BOOK}/like",
    "than": f"/more/book/{BOOK}/than?other={BOOK}",
    "page photo": f"/more/book/{BOOK}/photo/{ROW}",
    "shelf": "/shelf",
    "new gauge": "/shelf/gauge",
    "gauge": "/shelf/gauge?id=BG-88",
    "study": "/shelf/study?id=MIC-25",
    "rules": "/rules",
    "benches": "/benches",
    "enter": "/enter",
    "restore": "/copies/2026-11-25T08-00-00Z.sqlite3/restore",
    "calculators": "/calc",
    **{f"calc {name}": f"/calc/{name}" for name in CALCULATORS},
    "style": "/style",
    "wrong": "/no-such-page",
}
#: Addresses that take something, answer a part of a page or a file, or are seen under another name above.
NO_PAGE = {
    "entries", "head", "limit", "worker", "make_copy", "photo", "photo_file", "folded", "pdf", "issued", "data",
    "gauge_rows", "gauge_land", "returned_table", "add_book", "put_shelf", "shelf_file", "put_grid", "drop_gauge",
    "pin_gauge", "put_prices", "pin_rules", "language", "book_grid_page", "book_grid_check", "book_table_accept",
    "book_than", "book_photo_file", "book_file", "end_bench", "pair", "family", "leftovers",
}  # fmt: skip


def address(page: str, workshop: Workbench) -> str:
    """Where a page lies, by its name here; an address stays as it is."""
    sha = workshop.view(JOB).job.book.sha256
    return PAGES.get(page, page).replace(BOOK, sha).replace(ROW, "lash")


def unseen() -> set[str]:
    """The addresses that no page above leads to and that are not said to be none."""
    seen = set()
    for path in PAGES.values():
        try:
            seen.add(resolve(path.split("?")[0]).url_name)
        except Resolver404:
            assert path == PAGES["wrong"]
    return {str(pattern.name) for pattern in urlpatterns} - seen - NO_PAGE
