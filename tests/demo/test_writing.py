"""The demo as files: every kind of paper, and a picture of the window."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from app import resources
from app.demo import members, write_to
from app.domain.errors import CoachError
from app.filing import open_plan


def fake_picture(path: Path, out: Path) -> None:
    assert not path.exists()
    out.write_bytes(b"a picture")


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    return list(write_to(tmp_path_factory.mktemp("demo") / "new" / "folder", picture=fake_picture))


def test_every_member_with_a_plan_has_plan_report_and_booklet(written: list[Path]) -> None:
    endings = [path.name.partition(".")[2] for path in written]
    for ending in ("check.txt", "check.json", "booklet.pdf"):
        assert endings.count(ending) == 5
    assert endings.count("plan.json") == 6
    assert [path.name for path in written if path.suffix == ".png"] == ["window.png"]
    assert all(path.stat().st_size > 0 for path in written)
    assert len(list(written[0].parent.iterdir())) == len(written), "something was left behind"


def test_the_plan_files_read_back_as_the_team(written: list[Path]) -> None:
    catalogue = resources.catalogue()
    plans = [open_plan(path, catalogue) for path in written if path.name.endswith(".plan.json")]
    team = members(catalogue)
    assert [(plan.client, plan.program) for plan in plans] == [(m.client, m.program) for m in team]


def test_the_reports_agree_with_each_other(written: list[Path]) -> None:
    text = next(path for path in written if path.name.endswith(".check.txt"))
    record = json.loads(text.with_suffix(".json").read_text(encoding="utf-8"))
    lines = text.read_text(encoding="utf-8").splitlines()
    assert lines[0] == "Ridge season, Runa Estvik"
    assert lines[2].startswith(f"{record['counts']['conflict']} conflict")
    assert len(record["findings"]) == sum(record["counts"].values())


def test_a_booklet_names_the_member_and_the_coach(written: list[Path]) -> None:
    path = next(path for path in written if path.name.endswith(".booklet.pdf"))
    with pypdfium2.PdfDocument(path) as pdf:
        cover = pdf[0].get_textpage().get_text_range()
        assert len(pdf) > 21
    assert "Runa Estvik" in cover
    assert "Tavi Hellmark" in cover


def test_a_file_where_the_folder_should_be_is_told_in_one_sentence(tmp_path: Path) -> None:
    place = tmp_path / "taken"
    place.write_text("mine", encoding="utf-8")
    with pytest.raises(CoachError, match="A file stands where the folder should be"):
        next(write_to(place, picture=fake_picture))
    assert place.read_text(encoding="utf-8") == "mine"
