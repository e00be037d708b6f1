"""What is made for the coach can be read by nobody else, whatever the mask says."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from db.private import make_private, make_private_folder

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")


@pytest.fixture(autouse=True)
def open_mask() -> Iterator[None]:
    before = os.umask(0)
    yield
    os.umask(before)


def mode(path: Path) -> int:
    return path.stat().st_mode & 0o777


def test_a_file_is_the_owners_alone_and_replaces_what_was_there(tmp_path):
    path = tmp_path / "file"
    path.write_text("old", encoding="utf-8")
    path.chmod(0o666)
    make_private(path)
    assert (mode(path), path.read_bytes()) == (0o600, b"")


def test_every_folder_that_is_made_is_the_owners_alone(tmp_path):
    tmp_path.chmod(0o755)
    make_private_folder(tmp_path / "a" / "b" / "c")
    assert [mode(tmp_path / part) for part in ("a", "a/b", "a/b/c")] == [0o700] * 3
    assert mode(tmp_path) == 0o755


def test_a_folder_that_is_there_keeps_its_rights(tmp_path):
    folder = tmp_path / "shared"
    folder.mkdir(mode=0o750)
    make_private_folder(folder)
    assert mode(folder) == 0o750


def test_a_file_in_the_place_of_the_folder_is_said(tmp_path):
    (tmp_path / "taken").write_text("", encoding="utf-8")
    with pytest.raises(FileExistsError):
        make_private_folder(tmp_path / "taken")
