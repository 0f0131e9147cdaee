"""A file is written whole or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from sequencer.desk.write import write_whole


def test_a_new_file_holds_exactly_what_was_given(tmp_path: Path) -> None:
    assert write_whole(tmp_path / "plan.ics", b"a\r\nb\r\n") is True
    assert (tmp_path / "plan.ics").read_bytes() == b"a\r\nb\r\n"
    assert [one.name for one in tmp_path.iterdir()] == ["plan.ics"]


def test_the_same_content_leaves_the_file_and_its_date_alone(tmp_path: Path) -> None:
    file = tmp_path / "plan.ics"
    file.write_bytes(b"same")
    os.utime(file, (1000, 1000))
    assert write_whole(file, b"same") is False
    assert file.stat().st_mtime == 1000


def test_a_failed_write_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "plan.txt"
    file.write_bytes(b"old")

    def fails(_: int) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(os, "fsync", fails)
    with pytest.raises(OSError, match="disk full"):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["plan.txt"]


@pytest.mark.skipif(os.name == "nt", reason="modes and links of POSIX")
def test_links_are_followed_and_the_mode_of_the_old_file_stays(tmp_path: Path) -> None:
    real, link = tmp_path / "real.txt", tmp_path / "link.txt"
    real.write_bytes(b"old")
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name == "nt", reason="the null device of POSIX")
def test_a_device_is_written_into_and_not_replaced() -> None:
    assert write_whole(Path(os.devnull), b"gone") is True
    assert not Path(os.devnull).is_file()


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "nowhere" / "plan.txt", b"new")
