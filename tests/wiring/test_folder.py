"""The data folder: made once and private; refused where entries could be lost without a word."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from gudgeon.problem import Refused
from gudgeon.wiring.folder import ANYWAY, data_folder, prepare, shared, warning

DISK = "/dev/sda1 / ext4 rw 0 0\n"


def test_the_folder_and_its_secret_are_made_once(tmp_path: Path) -> None:
    folder = tmp_path / "a" / "data"
    prepare(folder, DISK)
    assert sorted(part.name for part in folder.iterdir()) == ["copies", "pictures", "secret.txt"]
    secret = (folder / "secret.txt").read_text(encoding="ascii")
    assert len(secret.strip()) >= 50
    if os.name == "posix":
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700
        assert stat.S_IMODE((folder / "secret.txt").stat().st_mode) == 0o600
    prepare(folder, DISK)
    assert (folder / "secret.txt").read_text(encoding="ascii") == secret


@pytest.mark.parametrize(
    "place",
    ["Sync/gudgeon", "My Cloud/gudgeon", "some-cloud/x/y", "OurDrive/bench", "our drive/bench", "Synced Files"],
)
def test_a_folder_kept_in_step_is_refused(tmp_path: Path, place: str) -> None:
    with pytest.raises(Refused, match="kept in step with another place") as refused:
        prepare(tmp_path / place, DISK)
    assert [problem.where for problem in refused.value.problems] == ["data folder"]
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("place", ["gudgeon-data", "bench", "drive", "drives", "toolbox"])
def test_an_ordinary_folder_is_taken(place: str) -> None:
    assert shared(Path("/srv") / place, DISK) == ""


MOUNTS = (
    "/dev/sda1 / ext4 rw 0 0\n"
    "server:/export /mnt/nfs nfs4 rw 0 0\n"
    "//server/share /mnt/with\\040space cifs rw 0 0\n"
    "you@server: /mnt/ssh fuse.sshfs rw 0 0\n"
    "/dev/sdb1 /mnt/nfs/local ext4 rw 0 0\n"
    "tmpfs /mnt/covered tmpfs rw 0 0\n"
    "server:/two /mnt/covered nfs rw 0 0\n"
    "broken line\n"
)


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/mnt/nfs/data", "nfs4"),
        ("/mnt/with space/data", "cifs"),
        ("/mnt/ssh", "fuse.sshfs"),
        ("/mnt/covered/x", "nfs"),
        ("/mnt/nfs/local/data", ""),
        ("/mnt/nfsdata", ""),
        ("/srv/data", ""),
    ],
)
def test_a_network_share_is_known_by_its_mount(place: str, kind: str) -> None:
    assert shared(Path(place), MOUNTS) == (f"it is a network share ({kind})" if kind else "")


def test_who_knows_better_may_use_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(ANYWAY, "1")
    prepare(tmp_path / "cloud", DISK)
    assert (tmp_path / "cloud" / "secret.txt").exists()
    assert warning(tmp_path / "cloud").startswith("WARNING: ")
    assert warning(tmp_path) == ""


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Refused, match="cannot be made or written"):
        prepare(tmp_path / "file" / "data", DISK)


def test_the_folder_is_named_by_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_DATA", "~/elsewhere")
    assert data_folder() == Path.home() / "elsewhere"
    monkeypatch.setenv("GUDGEON_DATA", "")
    assert data_folder() == Path.home() / "gudgeon-data"
