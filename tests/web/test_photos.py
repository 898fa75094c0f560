"""Photos from the bench: what is none is refused in words, what a camera writes of place stays out, and a note shows it."""

from __future__ import annotations

import io
import struct
import zlib

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image
from tests.web.conftest import HAND, JOB, SMALL

from gudgeon.job.entries import Note
from gudgeon.workbench.bench import Workbench


def picture(kind: str, **more: object) -> bytes:
    kept = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(kept, kind, **more)
    return kept.getvalue()


def moving() -> bytes:
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue")]
    kept = io.BytesIO()
    frames[0].save(kept, "GIF", save_all=True, append_images=frames[1:])
    return kept.getvalue()


def huge() -> bytes:
    """A PNG of 200 million pixels by what its header says."""
    head = b"IHDR" + struct.pack(">IIBBBBB", 20_000, 10_000, 8, 2, 0, 0, 0)
    line = struct.pack(">I", 13) + head + struct.pack(">I", zlib.crc32(head))
    return b"\x89PNG\r\n\x1a\n" + line + b"\x00\x00\x00\x00IDAT" + struct.pack(">I", zlib.crc32(b"IDAT"))


def send(client: Client, data: bytes, job: str = JOB) -> tuple[int, dict[str, object]]:
    answer = client.post(f"/job/{job}/photo", {"photo": SimpleUploadedFile("p.jpg", data)})
    return answer.status_code, answer.json()


@pytest.mark.parametrize("data", [b"no picture", moving(), huge(), picture("PNG")[:60], b""],
                         ids=["words", "moving", "200 megapixels", "cut off", "empty"])  # fmt: skip
def test_what_is_no_photo_is_refused_in_words(client: Client, workshop: Workbench, data: bytes) -> None:
    status, said = send(client, data)
    assert status == 422
    (problem,) = said["problems"]  # type: ignore[misc]
    assert problem["what"] and problem["remedy"]


def test_a_photo_is_kept_without_place_and_shown_by_the_note_that_names_it(client: Client, workshop: Workbench) -> None:
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (47.0, 12.0, 3.0)}  # GPS directory: 47° 12′ 3″ north (CIPA DC-008, 4.6.6)
    sent = picture("JPEG", exif=exif.tobytes())
    with Image.open(io.BytesIO(sent)) as before:
        assert before.getexif().get_ifd(0x8825), "the position is in what is sent"
    status, said = send(client, sent)
    sha = str(said["photo"])
    address = f"/job/{JOB}/photo/{sha}.jpg"
    assert status == 200
    assert client.get(address).status_code == 404, "no entry names it yet"
    workshop.record(JOB, (Note(words="crack at the plug", where="c1.head", photos=(sha,)),), HAND)
    shown = client.get(address)
    assert shown.status_code == 200 and shown["Content-Type"] == "image/jpeg"
    with Image.open(io.BytesIO(shown.content)) as after:
        assert not after.getexif()
    html = client.get(f"/job/{JOB}/photos").content.decode()
    assert address in html and "crack at the plug" in html
    assert client.get(f"/job/{SMALL}/photo/{sha}.jpg").status_code == 404, "another job does not name it"
    workshop.retract(JOB, workshop.view(JOB).ledger.head, "wrong engine", HAND)
    assert client.get(address).status_code == 404, "taken back"


def test_no_such_job_takes_no_photo(client: Client, workshop: Workbench) -> None:
    assert send(client, picture("PNG"), "99-999")[0] == 422
