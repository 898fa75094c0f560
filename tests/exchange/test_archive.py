"""A whole job in one file: the same bytes out and in, and nothing of a file that is not whole."""

from __future__ import annotations

import io
import re
import zipfile
from hashlib import sha256
from pathlib import Path
from random import Random

import pytest
from PIL import Image
from tests.workbench.memory import workbench

from gudgeon.exchange.archive import Archive, pack, unpack
from gudgeon.job import chain
from gudgeon.job.entries import JobClosed, JobOpened, Note, Reading
from gudgeon.problem import Refused
from gudgeon.storage.pictures import FilePictures
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.trade import export_job, import_job

HAND = Hand(by="k", bench="b")
BOOK = """
[book]
name = "Tallow 98"
[layout]
cylinders = 1
arrangement = "single"
cams = "one"
cam_drive = "chain"
[layout.in]
valves = 1
follower = "rocker_screw"
[layout.ex]
valves = 1
follower = "rocker_screw"
[[limit]]
of = "lash"
least = "0.05 mm"
most = "0.09 mm"
"""


@pytest.fixture(scope="module")
def packed() -> bytes:
    bench = workbench()
    bench.open_job(JobOpened(number="T-1", engine_number="9", scope="leak test"), bench.add_book(BOOK), HAND)
    for n in range(12):
        bench.record("T-1", [Reading(measurand="lash", where="c1.in", text="0.06/0.07", unit="mm", gauge="feelers"),
                             Note(words=f"bell rung {n} times, “quoted” \u2028 and µ")], HAND)  # fmt: skip
    photo = bench.pictures.put(b"\xff\xd8 no picture, but bytes")
    bench.record("T-1", [Note(words="seen", photos=(photo,))], HAND)
    return export_job(bench, "T-1")


def refused(data: bytes) -> Refused:
    """An import into an empty workshop is refused and leaves it empty."""
    bench = workbench()
    with pytest.raises(Refused) as caught:
        import_job(bench, data, "file.zip")
    assert bench.jobs() == () and bench.library.books() == () and vars(bench.pictures)["kept"] == {}
    assert all(p.where and str(p.what) and str(p.remedy) for p in caught.value.problems)
    return caught.value


def test_out_in_and_out_again_gives_the_same_bytes_and_the_same_job(packed: bytes) -> None:
    here = workbench()
    assert import_job(here, packed) == "T-1"
    assert export_job(here, "T-1") == packed
    assert here.verify("T-1") == () and here.view("T-1").ledger.verified
    assert here.view("T-1").ledger.digest == unpack(packed).digests[-1].hex()
    for _ in range(99):
        here.clock.new_id()  # this clock counts from one again, and would give the ids that came in
    here.record("T-1", [Note(words="and it goes on")], HAND)
    with pytest.raises(Refused, match="is here already, up to entry"):
        import_job(here, packed)


def test_cut_off_at_every_97th_byte(packed: bytes) -> None:
    for length in range(0, len(packed), 97):
        refused(packed[:length])


def test_one_byte_altered_anywhere(packed: bytes) -> None:
    rng = Random(97)
    places = [*rng.sample(range(len(packed)), 250), 0, len(packed) - 1]
    for place in places:
        data = bytearray(packed)
        data[place] ^= 1 << rng.randrange(8)
        with pytest.raises(Refused):
            unpack(bytes(data))
    refused(bytes(data))


def test_a_byte_more_at_either_end(packed: bytes) -> None:
    refused(packed + b"\0")
    refused(b"\0" + packed)


def rezipped(packed: bytes, change: dict[str, bytes | None], packing: int = zipfile.ZIP_STORED) -> bytes:
    """The archive with some of its files exchanged, added, or left out."""
    with zipfile.ZipFile(io.BytesIO(packed)) as old:
        files: dict[str, bytes | None] = {name: old.read(name) for name in old.namelist()}
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", packing) as new:
        for name, data in (files | change).items():
            if data is not None:
                new.writestr(name, data)
    return out.getvalue()


@pytest.mark.parametrize(
    "name", ["../../evil.toml", "/etc/passwd", "books/../../x.toml", "C:\\x", "ledger.jsonl/../x", "note.txt"]
)
def test_a_path_that_climbs_out_or_a_file_too_many(packed: bytes, name: str) -> None:
    assert "does not belong there" in str(refused(rezipped(packed, {name: b"x"})))


def test_a_book_too_many_that_the_manifest_does_not_know(packed: bytes) -> None:
    name = f"books/{sha256(b'x').hexdigest()}.toml"
    assert "The manifest does not know it" in str(refused(rezipped(packed, {name: b"x"})))


def test_a_bomb_is_never_blown_up(packed: bytes) -> None:
    bomb = rezipped(packed, {f"pictures/{'0' * 64}.jpg": b"\0" * 50_000_000}, zipfile.ZIP_DEFLATED)
    assert len(bomb) < 100_000 and "are packed" in str(refused(bomb))
    assert "larger than any job" in str(
        refused(rezipped(packed, {f"pictures/{'0' * 64}.jpg": b"\0" * 210_000_000}, zipfile.ZIP_DEFLATED))
    )


def test_a_later_format_and_a_broken_manifest(packed: bytes) -> None:
    manifest = zipfile.ZipFile(io.BytesIO(packed)).read("manifest.json")
    later = manifest.replace(b"archive/1", b"archive/2")
    assert "Open it with a newer Gudgeon" in str(refused(rezipped(packed, {"manifest.json": later})))
    for broken in (b"", b"{}", b"[1]", b"\xff", manifest[:-5]):
        assert "manifest is missing or broken" in str(refused(rezipped(packed, {"manifest.json": broken})))
    refused(rezipped(packed, {"manifest.json": None}))
    refused(rezipped(packed, {"ledger.jsonl": None}))


def test_a_digest_that_is_another_names_the_file(packed: bytes) -> None:
    ledger = zipfile.ZipFile(io.BytesIO(packed)).read("ledger.jsonl")
    changed = ledger.replace(b"0.06/0.07", b"0.07/0.08", 1)
    assert "file.zip, ledger.jsonl: It was altered" in str(refused(rezipped(packed, {"ledger.jsonl": changed})))


def remade(packed: bytes, line: str, new: str) -> bytes:
    """Somebody with our own code rewrote the ledger whole and made its digests anew."""
    old = unpack(packed)
    lines = tuple(re.sub(line, new, each) for each in old.lines)
    return pack(Archive(number=old.number, title=old.title, engine_number=old.engine_number, scope=old.scope,
                        opened_at=old.opened_at, lines=lines, digests=tuple(chain.digests(lines)), books=old.books,
                        pictures=old.pictures))  # fmt: skip


def test_a_ledger_of_a_later_version_is_refused_whole(packed: bytes) -> None:
    assert "written by a later Gudgeon" in str(refused(remade(packed, "note/1", "note/7")))


def test_a_ledger_of_another_job_or_wrong_numbers(packed: bytes) -> None:
    assert "two jobs" in str(refused(remade(packed, '"number":"T-1"', '"number":"T-2"')))
    assert "another number" in str(refused(remade(packed, '"seq":5,', '"seq":6,')))


def test_a_ledger_whose_book_is_nowhere(packed: bytes) -> None:
    old = unpack(packed)
    bare = pack(Archive(number=old.number, title=old.title, engine_number=old.engine_number, scope=old.scope,
                        opened_at=old.opened_at, lines=old.lines, digests=old.digests, books={}, pictures={}))  # fmt: skip
    assert "No book with the digest" in str(refused(bare))


@pytest.mark.parametrize("data", [b"", b"PK", b"not a zip", b"PK\x05\x06" + b"\0" * 18, bytes(range(256)) * 9])
def test_what_is_no_archive(data: bytes) -> None:
    refused(data)


def test_a_ledger_that_does_not_verify_is_not_exported(packed: bytes) -> None:
    bench = workbench()
    import_job(bench, packed)
    rows = vars(bench.ledgers)["rows_of"]["T-1"]
    rows[4] = type(rows[4])(seq=5, line=rows[4].line.replace("lash", "last"), digest=rows[4].digest)
    with pytest.raises(Refused):
        export_job(bench, "T-1")
    with pytest.raises(Refused, match="no such job"):
        export_job(bench, "T-9")


def test_pictures_keep_their_names_from_workshop_to_workshop(tmp_path: Path) -> None:
    """Encoded once more, a picture would have another digest, and the note that names it would show none."""
    raw = io.BytesIO()
    picture = Image.effect_noise((320, 200), 60).convert("RGB")
    picture.save(raw, "PNG")
    one, other = workbench(), workbench()
    one.pictures, other.pictures = FilePictures(tmp_path / "one"), FilePictures(tmp_path / "other")
    one.open_job(JobOpened(number="P", engine_number="1"), one.add_book(BOOK), HAND)
    name = one.pictures.put(raw.getvalue())
    one.record("P", [Note(words="crack", photos=(name,))], HAND)
    import_job(other, export_job(one, "P"))
    assert other.pictures.get(name) == one.pictures.get(name) is not None


def test_a_picture_that_gudgeon_never_stored_is_not_adopted(tmp_path: Path) -> None:
    shop = FilePictures(tmp_path)
    exif, raw, large = Image.Exif(), io.BytesIO(), io.BytesIO()
    exif[0x010E] = "taken at home"
    Image.new("RGB", (9, 9)).save(raw, "JPEG", exif=exif)
    Image.new("RGB", (3000, 9)).save(large, "JPEG")
    for data in (raw.getvalue(), large.getvalue(), b"no picture"):
        with pytest.raises(Refused):
            shop.adopt(data)
    assert list(tmp_path.iterdir()) == []


def test_the_workbench_of_these_tests_is_the_real_one() -> None:
    assert isinstance(workbench(), Workbench)


def test_under_another_number_where_the_own_is_taken_and_out_again_as_it_came(packed: bytes) -> None:
    here = workbench()
    for _ in range(99):
        here.clock.new_id()
    here.open_job(JobOpened(number="T-1", engine_number="another"), here.add_book(BOOK), HAND)
    with pytest.raises(Refused, match="Take it in under another number"):
        import_job(here, packed)
    for wrong in ("a/b", "../x", "x" * 41, "T 1"):
        with pytest.raises(Refused, match="no job number"):
            import_job(here, packed, number=wrong)
    assert import_job(here, packed, number="X-7") == "X-7"
    assert here.view("X-7").job.number == "X-7" and here.view("T-1").job.engine_number == "another"
    assert here.verify("X-7") == () and export_job(here, "X-7") == packed
    here.record("X-7", [Note(words="and it goes on")], HAND)
    with pytest.raises(Refused, match="This very job is here already"):
        import_job(here, packed, number="X-7")
    again = workbench()
    assert import_job(again, export_job(here, "X-7")) == "T-1"


def test_a_closed_job_stays_closed_and_one_opened_again_stays_open() -> None:
    bench = workbench()
    bench.open_job(JobOpened(number="C", engine_number="1"), bench.add_book(BOOK), HAND)
    bench.record("C", [JobClosed(reason="engine sold")], HAND)
    closed = export_job(bench, "C")
    bench.retract("C", bench.loaded("C").head, "not sold", HAND)
    for data, state in ((closed, "closed"), (export_job(bench, "C"), "open")):
        here = workbench()
        import_job(here, data)
        row = here.ledgers.job("C")
        assert row is not None and row.state == here.view("C").job.state == state


def test_a_picture_that_was_lost_does_not_keep_the_job_from_going_out(packed: bytes) -> None:
    bench = workbench()
    import_job(bench, packed)
    vars(bench.pictures)["kept"].clear()
    bare = export_job(bench, "T-1")
    assert unpack(bare).pictures == {} and unpack(bare).lines == unpack(packed).lines
    assert import_job(workbench(), bare) == "T-1"
