"""The pages of the guide are whole: their links lead somewhere, their tables say what is so."""

from __future__ import annotations

import re

import pytest

from app import resources
from app.domain.ranges import Range
from app.ui.actions import ACTIONS
from app.ui.guide_text import Command, Page, amount, filled, find_page, pages, whom

PAGES = pages()
MUST_HAVE = {
    "first-client",
    "first-program",
    "dragging-and-keys",
    "checks-and-ranges",
    "substitutes",
    "changing-the-split",
    "progression",
    "tests-and-loads",
    "booklet",
    "plan-files",
    "files-backup-privacy",
    "cautions",
    "shortcuts",
    "sources",
    "results",
    "check-ins-and-charts",
    "warm-up",
}


def test_every_task_has_its_page() -> None:
    names = {page.name.removeprefix("the-") for page in PAGES}
    assert names == MUST_HAVE


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_a_page_begins_with_its_title_and_links_to_pages_that_are_there(page: Page) -> None:
    assert page.text.startswith(f"# {page.title}\n")
    for link in re.findall(r"(?<!!)\[[^\]]*\]\(([^)]+)\)", page.text):  # and no picture
        assert find_page(link)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_table_is_filled_in(page: Page) -> None:
    text = filled(page)
    assert "{{" not in text
    widths = [line.count("|") for line in text.splitlines() if line.startswith("|")]
    assert all(width >= 3 for width in widths)


def test_the_shortcuts_name_every_command_with_its_keys_by_menu() -> None:
    commands = [Command("File", "Close", "Ctrl+Q"), Command("Help", "A | B", "")]
    text = filled(find_page("shortcuts"), commands)
    assert "## File\n\n| command | keys |\n| --- | --- |\n| Close | Ctrl+Q |\n" in text
    assert "## Help\n\n| command | keys |\n| --- | --- |\n| A / B |  |\n" in text


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_a_command_that_a_page_names_is_in_the_menu(page: Page) -> None:
    known = {f"{action.menu} > {action.text}" for action in ACTIONS}
    named = re.findall(r"\*\*(\w+ > [^*]+)\*\*", page.text)
    assert set(named) <= known
    for command, keys in re.findall(r"\*\*(\w+ > [^*]+)\*\* \((Ctrl[^)]+|F\d)\)", page.text):
        action = next(a for a in ACTIONS if f"{a.menu} > {a.text}" == command)
        assert keys in action.shortcuts


def test_the_table_of_ranges_holds_every_range() -> None:
    rows = [line for line in filled(find_page("checks-and-ranges")).splitlines() if " | " in line]
    book = resources.range_book().ranges
    assert len(rows) == 2 + sum(len(bands) for bands in book.values())


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (12, 20, "12–20 sets"),
        (2, None, "from 2 sets"),
        (None, 0, "none"),
        (None, None, "Because."),
    ],
)
def test_a_range_reads_as_words(low: float | None, high: float | None, text: str) -> None:
    band = Range("r", low, high, "sets", "common practice", reason="Because.")
    assert amount(band) == text


def test_for_whom_a_range_is_reads_as_words() -> None:
    (band, *_) = resources.range_book().ranges["weekly_sets"]
    assert "_" not in whom(band)


def test_a_page_that_is_not_there_is_not_found() -> None:
    with pytest.raises(KeyError):
        find_page("nowhere")
