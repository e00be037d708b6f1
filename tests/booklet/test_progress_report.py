from __future__ import annotations

from dataclasses import replace

import pytest

from app.booklet import BookletError, Paper
from app.booklet.progress_report import MOST_NEXT, make_progress_report
from app.domain.client import EnergyGoal
from app.domain.progress.series import MassSeries
from app.press import citations, print_progress
from tests.booklet.progress_sample import FONTS, report
from tests.booklet.reading_pdf import Printed
from tests.ui.charts.sample import RUNA


def printed(made=None, **options) -> Printed:
    return Printed(make_progress_report(made or report(), fonts=FONTS, **options))


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
@pytest.mark.parametrize("grey", [False, True])
def test_two_pages_hold_everything_on_either_paper(paper, grey):
    pages = printed(report(references=citations()), paper=paper, grey=grey)
    assert len(pages) == 2
    assert pages.size_mm(1) == pytest.approx((paper.width_mm, paper.height_mm), abs=0.1)
    for text in (
        "Progress of Runa Estvik",
        "Planned and done",
        "of the planned sets were done",
        "Back squat",
        "Body mass",
        "What comes next",
        "From Monday the hinge comes twice a week.",
        "see your doctor or physiotherapist",
        "Brzycki",
        "Iraki",
    ):
        assert text in pages.whole


def test_no_more_than_two_pages_even_at_its_fullest():
    squat = report().strength[0]
    full = report(
        strength=(squat,) * 4, next_words="Longer words of the coach. " * 60, references=citations()
    )
    pages = printed(full, paper=Paper.LETTER)
    assert len(pages) == 2
    assert "Sources: " in pages.whole  # in short, where the whole would not fit


def test_words_past_the_room_are_cut_where_the_dialog_says_so():
    pages = printed(report(next_words="a" * 10 + " " + "b " * MOST_NEXT))
    assert pages.whole.count("b") < MOST_NEXT + 100


def test_without_the_coachs_words_there_are_lines_to_write_on():
    assert "What comes next" in printed(report(next_words="  ")).whole


def test_only_the_initials_stand_without_the_name():
    text = printed(report(named=False)).whole
    assert "Runa" not in text
    assert "R. E." in text or "RE" in text


def test_a_client_with_nothing_yet_gets_a_page_that_says_so():
    empty = report(weeks=(), strength=(), mass=MassSeries((), None), program="")
    text = printed(empty).whole
    assert "No program was open" in text
    assert "Body mass goes up and down" in text
    assert "How this was worked out" not in text


def test_a_corridor_of_common_practice_is_said_to_be():
    losing = replace(RUNA, energy_goal=EnergyGoal.HOLD)
    text = printed(report(client=losing, references=citations())).whole
    assert "corridor of body mass is common practice" in text
    assert "Iraki" not in text


def test_pounds_are_printed_for_who_uses_them():
    text = printed(report(client=replace(RUNA, units="lb"))).whole
    assert "lb a week" in text
    assert "kg a week" not in text


def test_a_letter_without_a_font_is_named():
    with pytest.raises(BookletError, match="漢"):
        printed(report(next_words="漢"))


def test_the_same_report_is_the_same_file():
    assert printed().data == printed().data


def test_markup_in_the_coachs_words_is_printed_as_it_is():
    assert "<b>5 & 6</b> $x$" in printed(report(next_words="<b>5 & 6</b> $x$")).whole


def test_a_client_reads_it_in_the_clients_own_language():
    text = Printed(print_progress(report(client=replace(RUNA, language="de")))).whole
    for word in ("Fortschritt von Runa Estvik", "Geplant und gemacht", "Wie es weitergeht"):
        assert word in text
    assert "kg pro Woche" in text
    assert "Kniebeuge mit Langhantel" in text
    assert "Back squat" not in text
