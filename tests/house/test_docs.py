"""What README and DEVELOPERS point at is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = ("README.md", "DEVELOPERS.md", "packaging/CHANGELOG.md")


@pytest.mark.parametrize("page", PAGES)
def test_links_and_pictures_lead_somewhere(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    targets = re.findall(r"\]\(([^)#:]+)\)", text)
    missing = [t for t in targets if not ((ROOT / page).parent / t).exists()]
    assert missing == []


def test_the_readme_shows_the_window_and_a_page_of_a_booklet() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", text)
    assert len(pictures) >= 2
    assert all((ROOT / picture).read_bytes()[:8] == b"\x89PNG\r\n\x1a\n" for picture in pictures)


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_files_and_folders_named_in_code_marks_are_there(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    named = re.findall(r"`((?:app|db|resources|packaging|tests)/[\w./-]+)`", text)
    assert [name for name in named if not (ROOT / name).exists()] == []
