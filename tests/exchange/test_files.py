"""Files are read up to a limit and written whole or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from app.exchange.files import (
    FileTrouble,
    make_folder,
    read_file,
    read_whole,
    safe_name,
    write_file,
)


def test_what_is_written_is_there_and_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    write_file(path, b"one")
    write_file(path, b"two")
    assert path.read_bytes() == b"two"
    assert list(tmp_path.iterdir()) == [path]


def test_a_failed_write_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FileTrouble, match="No space left on device"):
        write_file(path, b"new")
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.skipif(os.name == "nt", reason="rights of another kind")
def test_a_replaced_file_keeps_its_rights_and_a_new_one_is_its_owners_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"old")
    path.chmod(0o640)
    mask = os.umask(0)
    try:
        write_file(path, b"new")
        write_file(tmp_path / "b.json", b"new")
        make_folder(tmp_path / "x" / "y")
    finally:
        os.umask(mask)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert stat.S_IMODE((tmp_path / "b.json").stat().st_mode) == 0o600
    assert [stat.S_IMODE((tmp_path / p).stat().st_mode) for p in ("x", "x/y")] == [0o700, 0o700]


def test_a_file_past_the_limit_is_refused_with_its_own_size(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"x" * 1234)
    assert len(read_whole(path, most=1234)) == 1234
    with pytest.raises(FileTrouble, match="has 1,234 bytes; at most 1,000 are read"):
        read_whole(path, most=1000)


def test_a_file_is_read_no_further_than_asked(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(b"x" * 100)
    assert len(read_file(path, most=10)) == 11
    assert len(read_file(path, most=1000)) == 100


@pytest.mark.parametrize(
    ("trouble", "says"),
    [
        (PermissionError(13, "no"), "You may not read there. Choose a folder of your own."),
        (FileNotFoundError(2, "no"), "There is no such file or folder. Check the name."),
        (IsADirectoryError(21, "no"), "That is a folder. Name a file in it."),
        (OSError(5, "Input/output error"), "could not read it (Input/output error)"),
    ],
)
def test_trouble_is_one_sentence_with_the_path(
    trouble: OSError, says: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise trouble

    monkeypatch.setattr(Path, "open", fail)
    with pytest.raises(FileTrouble, match="^a.json: ") as told:
        read_file(Path("a.json"), most=10)
    assert says in told.value.sentence


def test_a_folder_is_made_with_those_above_it(tmp_path: Path) -> None:
    make_folder(tmp_path / "a" / "b")
    make_folder(tmp_path / "a" / "b")
    assert (tmp_path / "a" / "b").is_dir()
    (tmp_path / "c").write_bytes(b"")
    with pytest.raises(FileTrouble, match="A file stands where"):
        make_folder(tmp_path / "c")


@pytest.mark.parametrize(
    ("words", "name"),
    [
        (("Runa Estvik", "Ridge season"), "runa-estvik-ridge-season"),
        (("Łukasz Ødegård", "Büro: 1/2"), "łukasz-ødegård-büro-1-2"),
        (("../../etc", "passwd"), "etc-passwd"),
        (("...", "?*"), "plan"),
        (("x" * 300, ""), "x" * 80),
        (("../../x",), "x"),
        (("a/b", "c\\d"), "a-b-c-d"),
        (("nul\0byte",), "nul-byte"),
        (("\u202egnp.exe",), "gnp-exe"),
        (("\u200frtl\u2067",), "rtl"),
    ],
)
def test_names_are_safe_on_every_system(words: tuple[str, str], name: str) -> None:
    assert safe_name(*words) == name


@pytest.mark.parametrize("name", ["CON", "nul", "Com1", "LPT9"])
def test_a_name_that_stands_for_a_device_is_made_another(name: str) -> None:
    assert safe_name(name) == f"{name.lower()}-plan"
