"""Energy targets: every week's figures, or who gives them instead."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app.booklet import Options, Paper, Part, make
from app.booklet.bind import open_book
from app.booklet.energy_page import MASS_CELL_MM, intro, pages, scale_of
from app.domain import energy
from app.domain.energy import Aim, EnergyPlan
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import WIDE, content, issue, lifter, season


def targets(weeks: int = 21, **client) -> EnergyPlan:
    who = lifter(kcal_now=1900.0, **client)
    plan = energy.plan(who, "gain", on=season(1).start, aim=Aim(weeks=weeks))
    assert isinstance(plan, EnergyPlan)
    return plan


def test_each_week_stands_with_its_energy_and_protein():
    plan = targets()
    booklet = Printed(make(issue(season(21)), content(energy=plan)))
    text = " ".join(booklet.text(page) for page in booklet.pages_with("Energy and protein, week"))
    for week in plan.weeks:
        row = rf"\b{week.number} \d+ \w{{3}} {week.kcal:,.0f} {week.macros.protein_g:.0f}\b"
        assert re.search(row, text), week
    week = plan.weeks[6]
    spread = " ".join(booklet.text(page) for page in booklet.pages_with("Week 7 of 21 "))
    assert f"{week.kcal:,.0f} kcal {week.macros.protein_g:.0f} g protein" in spread


def test_the_account_stands_below_with_a_caution():
    plan = targets()
    booklet = Printed(make(issue(season(21)), content(energy=plan)))
    text = " ".join(booklet.text(page) for page in booklet.pages_with("Energy and protein, week"))
    for line in plan.lines:
        assert line.value in text
    assert "A starting point, not a measurement" in text
    assert "doctor or a dietitian" in text


@pytest.mark.parametrize("weeks", [1, 12, 21, 52])
@pytest.mark.parametrize("paper", WIDE)
def test_all_weeks_fit_on_their_pages(weeks: int, paper: Paper):
    book = open_book(issue(season(3)), content(energy=targets(weeks)), Options(paper=paper))
    booklet = Printed(make(book.issue, book.content, book.options))
    found = booklet.pages_with("Energy and protein, week")
    assert len(found) == len(list(pages(book)))
    for page in found:
        for one in booklet.letters(page):
            assert one.bottom <= paper.height_mm - 13 + 1.2


def test_a_referral_takes_the_place_of_numbers():
    who = lifter(refer=("kidney disease",))
    referral = energy.plan(who, "gain", on=season(1).start)
    booklet = Printed(make(issue(season(2), who), content(energy=referral)))
    (page,) = booklet.pages_with("Ask your doctor or a dietitian")
    assert "kcal" not in booklet.text(page)
    assert "kidney" not in booklet.whole.replace("the kidneys", "")
    assert "kcal" not in " ".join(booklet.text(p) for p in booklet.pages_with("Week 1 of 2 "))


def test_without_targets_nothing_is_said_of_food():
    booklet = Printed(make(issue(season(2)), content()))
    assert "kcal" not in booklet.whole
    left_out = Options(parts=frozenset({Part.WEEKS}))
    assert "kcal" not in Printed(make(issue(season(2)), content(energy=targets()), left_out)).whole


def test_the_sentence_says_where_the_ramp_leads():
    plan = targets()
    text = intro(plan)
    assert f"{plan.weeks[0].kcal:,.0f}" in text
    assert f"{plan.weeks[-1].kcal:,.0f}" in text
    level = replace(plan, weeks=tuple(replace(w, kcal=2400.0) for w in plan.weeks))
    assert "2,400 kcal a day in every week" in intro(level)


def test_the_axis_holds_every_target_and_the_need():
    plan = targets()
    low, high, step = scale_of(plan)
    for kcal in (*(week.kcal for week in plan.weeks), plan.need_kcal):
        assert low <= kcal <= high
    assert (high - low) % step == 0
    assert (high - low) / step <= 6


def test_boxes_for_body_mass_are_large_enough_for_a_hand():
    assert MASS_CELL_MM[0] >= 15
    assert MASS_CELL_MM[1] >= 8.5
