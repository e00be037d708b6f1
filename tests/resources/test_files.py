"""Shipped files are found, read and, when broken, refused with their place."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from app.domain.errors import ResourceError
from app.resources import files

ROOT = Path(__file__).resolve().parents[2]


def test_the_folder_is_the_one_of_the_checkout() -> None:
    assert files.folder() == ROOT / "resources"


def test_a_frozen_program_reads_its_own_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "resources").mkdir()
    (tmp_path / "resources" / "references.json").write_text("[]", encoding="utf-8")
    monkeypatch.setattr(sys, "_MEIPASS", str(tmp_path), raising=False)
    assert files.folder.__wrapped__() == tmp_path / "resources"


def test_a_missing_folder_is_said_with_the_places_searched(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(files, "__file__", str(tmp_path / "app" / "resources" / "files.py"))
    monkeypatch.setattr(sys, "prefix", str(tmp_path / "prefix"))
    with pytest.raises(ResourceError, match=r"missing.*Install Weekloom again"):
        files.folder.__wrapped__()


def test_an_installed_program_reads_its_share_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    share = tmp_path / "share" / "weekloom" / "resources"
    share.mkdir(parents=True)
    (share / "references.json").write_text("[]", encoding="utf-8")
    monkeypatch.setattr(files, "__file__", str(tmp_path / "a" / "b" / "c.py"))
    monkeypatch.setattr(sys, "prefix", str(tmp_path))
    assert files.folder.__wrapped__() == share


def test_text_and_data_agree() -> None:
    assert files.text("muscles.toml").encode("utf-8") == files.data("muscles.toml")


@pytest.mark.parametrize("relative", ["no_such_file.toml", "../pyproject.toml", "exercises/x.toml"])
def test_a_file_that_is_not_shipped_is_refused_by_name(relative: str) -> None:
    with pytest.raises(ResourceError, match="There is no shipped file") as caught:
        files.text(relative)
    assert relative in caught.value.sentence


def test_text_that_is_not_utf8_is_refused_with_the_byte(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "latin.toml").write_bytes(b"name = '\xe9'")
    monkeypatch.setattr(files, "folder", lambda: tmp_path)
    with pytest.raises(ResourceError, match=r"latin\.toml: Byte 8 is not UTF-8"):
        files.text("latin.toml")


def test_toml_is_read_as_tables() -> None:
    assert files.read_toml("muscles.toml")["gluteals"] == {
        "trade": "Gluteals",
        "plain": "glutes",
        "group": "Glutes",
    }


def test_broken_toml_is_refused_with_its_line() -> None:
    with pytest.raises(ResourceError, match=r"mine\.toml: This is not TOML: .*line 2"):
        files.tables_from_toml("a = 1\nb = \n", source="mine.toml")


def test_files_of_a_folder_come_sorted() -> None:
    names = files.names_in("exercises", ".toml")
    assert "exercises/squats.toml" in names
    assert list(names) == sorted(names)


def test_a_font_has_its_place() -> None:
    assert files.font_path("NotoSans-Regular.ttf").suffix == ".ttf"
