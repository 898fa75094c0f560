"""Pictures: what is no still picture is refused; what is kept is upright, small and says nothing of place or owner."""

from __future__ import annotations

import hashlib
import io
import random
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageOps, PngImagePlugin

from gudgeon.problem import Refused
from gudgeon.storage.pictures import FilePictures, cleaned


def encoded(picture: Image.Image, form: str, **how: object) -> bytes:
    kept = io.BytesIO()
    picture.save(kept, form, **how)
    return kept.getvalue()


def half_red(width: int = 120, height: int = 80) -> Image.Image:
    """Red on the left, white on the right."""
    picture = Image.new("RGB", (width, height), "white")
    picture.paste((200, 0, 0), (0, 0, width // 2, height))
    return picture


def with_camera_data(orientation: int = 6) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = "ACME-CAMERA"
    exif.get_ifd(0x8825)[2] = (52.0, 31.0, 12.0)
    return encoded(half_red(), "JPEG", exif=exif, comment=b"SECRET-COMMENT", icc_profile=b"SECRET-PROFILE" * 20)


def test_a_picture_is_kept_upright_and_bare(tmp_path: Path) -> None:
    pictures = FilePictures(tmp_path / "pictures")
    digest = pictures.put(with_camera_data())
    stored = pictures.get(digest)
    assert stored is not None
    assert hashlib.sha256(stored).hexdigest() == digest
    for secret in (b"ACME", b"SECRET", b"Exif", b"GPS"):
        assert secret not in stored
    picture = Image.open(io.BytesIO(stored))
    assert (picture.format, picture.size, len(picture.getexif())) == ("JPEG", (80, 120), 0)
    # orientation 6: the left of the sensor is the top of the picture
    assert picture.getpixel((40, 10))[1] < 60 < 200 < picture.getpixel((40, 110))[1]
    assert pictures.put(with_camera_data()) == digest
    assert [file.name for file in (tmp_path / "pictures").iterdir()] == [f"{digest}.jpg"]


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_is_turned_as_the_library_itself_turns_it(orientation: int) -> None:
    data = with_camera_data(orientation)
    expected = ImageOps.exif_transpose(Image.open(io.BytesIO(data))).convert("RGB")
    kept = Image.open(io.BytesIO(cleaned(data)))
    assert kept.size == expected.size
    assert max(high for _, high in ImageChops.difference(kept, expected).getextrema()) < 40


@pytest.mark.filterwarnings("ignore")
def test_flipped_bytes_give_a_picture_or_a_refusal() -> None:
    dice = random.Random(7)
    seeds = [with_camera_data(), *(encoded(half_red(), form) for form in ("PNG", "GIF", "WEBP", "BMP")), frames("PNG")]
    done = {"kept": 0, "refused": 0}
    for _ in range(1500):
        data = bytearray(dice.choice(seeds))
        for _ in range(dice.choice([1, 2, 5, 20])):
            data[dice.randrange(min(len(data), dice.choice([60, 400, 10**6])))] = dice.randrange(256)
        try:
            cleaned(bytes(data))
            done["kept"] += 1
        except Refused:
            done["refused"] += 1
    assert min(done.values()) > 100


def test_a_long_picture_is_made_small() -> None:
    picture = Image.open(io.BytesIO(cleaned(encoded(half_red(5000, 2500), "JPEG"))))
    assert picture.size == (2048, 1024)
    assert Image.open(io.BytesIO(cleaned(encoded(half_red(60, 40), "PNG")))).size == (60, 40)


@pytest.mark.parametrize("mode", ["1", "L", "P", "LA", "RGBA", "I;16", "CMYK"])
def test_every_mode_becomes_plain(mode: str) -> None:
    form = "JPEG" if mode == "CMYK" else "PNG"
    picture = Image.new(mode, (30, 20)) if mode == "I;16" else half_red(30, 20).convert(mode)
    kept = Image.open(io.BytesIO(cleaned(encoded(picture, form))))
    assert (kept.mode, kept.size) == ("RGB", (30, 20))


def test_what_was_clear_becomes_white() -> None:
    kept = Image.open(io.BytesIO(cleaned(encoded(Image.new("RGBA", (10, 10), (0, 0, 0, 0)), "PNG"))))
    assert kept.getpixel((5, 5)) == (255, 255, 255)


def test_text_in_a_picture_does_not_come_along() -> None:
    extra = PngImagePlugin.PngInfo()
    extra.add_text("Author", "SECRET")
    assert b"SECRET" not in cleaned(encoded(half_red(), "PNG", pnginfo=extra))


def frames(form: str) -> bytes:
    return encoded(half_red(), form, save_all=True, append_images=[Image.new("RGB", (120, 80), "blue")], duration=100)


def a_bomb() -> bytes:
    """A few kilobytes that claim to be 400 million pixels."""
    return encoded(Image.new("1", (20_000, 20_000)), "PNG", optimize=True)


REFUSALS = {
    "empty": (lambda: b"", "no picture"),
    "words": (lambda: b"<script>alert(1)</script>", "no picture"),
    "svg": (lambda: b'<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>', "no picture"),
    "pdf": (lambda: encoded(half_red(), "PDF"), "no picture"),
    "tiff": (lambda: encoded(half_red(), "TIFF"), "no picture"),
    "cut jpeg": (lambda: with_camera_data()[:-400], "damaged"),
    "cut png": (lambda: encoded(half_red(900, 900), "PNG")[:200], "damaged"),
    "head only": (lambda: with_camera_data()[:60], "no picture|damaged"),
    "moving gif": (lambda: frames("GIF"), "moves"),
    "moving png": (lambda: frames("PNG"), "moves"),
    "moving webp": (lambda: frames("WEBP"), "moves"),
    "41 million pixels": (lambda: encoded(Image.new("L", (8200, 5000)), "PNG"), "million pixels"),
    "a bomb": (a_bomb, "million pixels|too large"),
    "too many bytes": (lambda: b"\xff\xd8" + bytes(31 * 1024 * 1024), "31 MB"),
}


@pytest.mark.parametrize("what", REFUSALS)
def test_what_is_no_still_picture_is_refused(tmp_path: Path, what: str) -> None:
    make, words = REFUSALS[what]
    with pytest.raises(Refused, match=words) as refused:
        FilePictures(tmp_path / "pictures").put(make())
    assert [problem.where for problem in refused.value.problems] == ["picture"]
    assert not (tmp_path / "pictures").exists()


@pytest.mark.parametrize("digest", ["", "../secret", "A" * 64, "a" * 64, "a" * 63, "/etc/passwd"])
def test_only_digests_name_pictures(tmp_path: Path, digest: str) -> None:
    (tmp_path / "secret.jpg").write_bytes(b"secret")
    (tmp_path / "pictures").mkdir()
    assert FilePictures(tmp_path / "pictures").get(digest) is None


def test_a_picture_of_two_views_is_kept_as_its_first() -> None:
    data = encoded(half_red(), "MPO", save_all=True, append_images=[Image.new("RGB", (120, 80), "blue")])
    assert Image.open(io.BytesIO(cleaned(data))).getpixel((10, 10))[0] > 150


def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "pictures").write_text("a file where the folder should be")
    with pytest.raises(Refused, match="could not be kept"):
        FilePictures(tmp_path / "pictures").put(with_camera_data())
