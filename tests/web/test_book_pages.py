"""The pages of a book over HTTP: a copied table, a book like another, a photo beside a row, bolts, a new book; right and wrong."""

from __future__ import annotations

import io
import re
from html import unescape

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image
from tests.web.conftest import JOB

from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.starting import FOLLOWERS, kept_books

TABLE = (
    "Item\tnew (mm)\tlimit (mm)\nStem diameter, intake\t4.975–4.990\t4.961\n"
    "Guide bore, intake\t5.000–5.012\t5.041\nphase of the moon\t1.5–2.5\t3.5\n"
)
LAYOUT = {"family": "Fellrigg 212", "cylinders": "2", "valves_in": "2", "valves_ex": "2", "follower": "bucket_over"}


@pytest.fixture
def sha(workshop: Workbench) -> str:
    return workshop.view(JOB).job.book.sha256


def fields(html: str) -> dict[str, str]:
    """What the form of offered rows would send as it stands."""
    found = {n: unescape(v) for n, v in re.findall(r'<input[^>]* name="([\w.]+)"[^>]* value="([^"]*)"', html)}
    ticked = set(re.findall(r'name="(take\.\d+)" value="1" checked', html))
    found = {n: v for n, v in found.items() if not n.startswith("take.") or n in ticked}
    for name, options in re.findall(r'<select name="([\w.]+)">(.*?)</select>', html, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', options)
        found[name] = chosen[1] if chosen else ""
    return found


def test_a_pasted_table_is_offered_row_by_row_and_taken_as_one_edition(
    client: Client, workshop: Workbench, sha: str
) -> None:
    before = len(kept_books(workshop))
    html = client.post(f"/more/book/{sha}/table", {"text": TABLE}).content.decode()
    assert "Stem diameter, intake" in html and "phase of the moon" in html
    assert len(kept_books(workshop)) == before, "offering keeps nothing"
    answer = client.post(f"/more/book/{sha}/table/accept", fields(html))
    assert answer.status_code == 302, unescape(answer.content.decode())
    new = answer["Location"].split("/")[3]
    row = workshop.book(new).limit_for("stem_diameter", "c1.in.left")
    assert row is not None and row.least == pytest.approx(4.961)
    assert client.get(answer["Location"]).status_code == 200


def test_one_row_that_cannot_be_taken_keeps_all_out(client: Client, workshop: Workbench, sha: str) -> None:
    sent = fields(client.post(f"/more/book/{sha}/table", {"text": TABLE}).content.decode())
    sent["new.0" if "new.0" in sent else "new.1"] = "4.990–4.975 mm"
    before = len(kept_books(workshop))
    answer = client.post(f"/more/book/{sha}/table/accept", sent)
    assert answer.status_code == 422 and "swapped" in answer.content.decode()
    assert len(kept_books(workshop)) == before


@pytest.mark.parametrize("text", ["", "   \n\n", "x" * 10_000_000, "\x00\x01\x02"],
                         ids=["nothing", "blank", "ten megabytes", "control characters"])  # fmt: skip
def test_what_is_no_table_is_answered_in_words(client: Client, workshop: Workbench, sha: str, text: str) -> None:
    answer = client.post(f"/more/book/{sha}/table", {"text": text})
    html = answer.content.decode()
    assert answer.status_code in (400, 422) and "Traceback" not in html
    assert answer.status_code == 400 or 'role="alert"' in html
    assert len(html) < 400_000


def test_rows_without_a_figure_are_offered_and_none_is_ticked(client: Client, workshop: Workbench, sha: str) -> None:
    answer = client.post(f"/more/book/{sha}/table", {"text": "stem\tloose\nguide\tworn"})
    html = answer.content.decode()
    assert answer.status_code == 200 and "stem" in html
    assert not [name for name in fields(html) if name.startswith("take.")]
    assert client.post(f"/more/book/{sha}/table/accept", fields(html)).status_code == 422


def test_a_book_like_another_is_a_book_of_its_own(client: Client, workshop: Workbench, sha: str) -> None:
    answer = client.post(f"/more/book/{sha}/like", {"name": "Corrie 390"})
    assert answer.status_code == 302 and answer["Location"].endswith(f"/grid/lash?than={sha}")
    new = answer["Location"].split("/")[3]
    assert workshop.book(new).name == "Corrie 390"
    assert workshop.book(new).limits == workshop.book(sha).limits
    for name in ("", "  ", "Corrie 371", "x" * 300):
        refused = client.post(f"/more/book/{sha}/like", {"name": name})
        assert refused.status_code == 422 and 'role="alert"' in refused.content.decode()


def picture() -> bytes:
    kept = io.BytesIO()
    Image.new("RGB", (60, 80), "white").save(kept, "JPEG")
    return kept.getvalue()


def test_a_photo_stands_beside_its_row_until_it_is_taken_away(client: Client, workshop: Workbench, sha: str) -> None:
    page = f"/more/book/{sha}/photo/stem_diameter"
    assert client.get(f"{page}/picture.jpg").status_code == 404
    sent = {"photo": SimpleUploadedFile("page.jpg", picture())}
    assert client.post(page, sent).status_code == 302
    shown = client.get(f"{page}/picture.jpg")
    assert (shown.status_code, shown["Content-Type"]) == (200, "image/jpeg")
    client.post(page, {"away": "1"})
    assert client.get(f"{page}/picture.jpg").status_code == 404


@pytest.mark.parametrize("data", [b"", b"no picture", picture()[:40]], ids=["nothing", "words", "cut off"])
def test_what_is_no_photo_of_a_page_is_refused(client: Client, workshop: Workbench, sha: str, data: bytes) -> None:
    page = f"/more/book/{sha}/photo/stem_diameter"
    answer = client.post(page, {"photo": SimpleUploadedFile("page.jpg", data)})
    assert answer.status_code == 422 and 'role="alert"' in answer.content.decode()
    sent = {"photo": SimpleUploadedFile("p.jpg", picture())}
    assert client.post(f"/more/book/{sha}/photo/no-such-row", sent).status_code == 422


def test_bolts_are_kept_in_the_order_they_were_tapped(client: Client, workshop: Workbench, sha: str) -> None:
    n = next(i for i, row in enumerate(workshop.book(sha).fasteners) if row.count == 4)
    answer = client.post(f"/more/book/{sha}/bolts/{n}", {"places": "-40 0\n40 0\n40 80\n-40 80"})
    assert answer.status_code == 302
    new = answer["Location"].split("/")[3]
    kept = workshop.book(new).fasteners[n]
    assert kept.positions_mm == ((-40, 0), (40, 0), (40, 80), (-40, 80))
    assert kept.order == (1, 2, 3, 4)
    for places in ("", "-40 0\n40 0", "a b\nc d\ne f\ng h", "1 1\n1 1\n1 1\n1 1"):
        refused = client.post(f"/more/book/{sha}/bolts/{n}", {"places": places})
        assert refused.status_code == 422 and 'role="alert"' in refused.content.decode(), places
    assert client.get(f"/more/book/{sha}/bolts/99").status_code == 404


def test_a_new_book_begins_with_its_layout_alone(client: Client, workshop: Workbench) -> None:
    shown = client.get("/more/new").content.decode()
    assert shown.count("<svg") == len(FOLLOWERS), "each layout has its small section"
    answer = client.post("/more/new", LAYOUT)
    assert answer.status_code == 302 and answer["Location"].endswith("/grid")
    book = workshop.book(answer["Location"].split("/")[3])
    assert (book.name, book.layout.cylinders, book.layout.intake.follower) == ("Fellrigg 212", 2, "bucket_over")
    assert client.get(answer["Location"]).status_code == 200


@pytest.mark.parametrize("cells", [{"family": ""}, {"family": "Corrie 371"}, {"cylinders": "0"}, {"follower": "springs"},
                                   {"valves_in": "nine"}], ids=["no name", "kept", "none", "no such", "no count"])  # fmt: skip
def test_a_new_book_that_cannot_be_keeps_what_was_typed(
    client: Client, workshop: Workbench, cells: dict[str, str]
) -> None:
    before = len(kept_books(workshop))
    answer = client.post("/more/new", LAYOUT | cells)
    html = answer.content.decode()
    assert answer.status_code == 422 and 'role="alert"' in html
    assert f'name="valves_ex" value="{LAYOUT["valves_ex"]}"' in html
    assert len(kept_books(workshop)) == before


def test_a_screw_at_the_cam_is_a_layout_of_its_own(client: Client, workshop: Workbench) -> None:
    answer = client.post("/more/new", LAYOUT | {"follower": "rocker_screw at cam", "cams": "one"})
    side = workshop.book(answer["Location"].split("/")[3]).layout.intake
    assert (side.follower, side.screw_end) == ("rocker_screw", "cam")
