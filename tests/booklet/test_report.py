"""The findings report in print: everything that was found, said with its source, on any paper."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pypdfium2 as pdfium
import pytest

from app.booklet import BookletError, Paper
from app.booklet.flow import MARGIN_MM
from app.booklet.report import Report, make_report
from app.domain.edits.fields import accept
from app.domain.findings import Edit, Finding, Place, Weight
from app.domain.ranges import Range
from tests.booklet.reading_pdf import MM, Printed
from tests.booklet.sample import FONTS, SOURCES, lifter, season

PROGRAM = season(6)
BAND = Range("weekly_sets", 12, 20, "sets/week", "bazvalle2022")


def finding(week: int, **changed) -> Finding:
    plain = Finding(
        "weekly_sets",
        Weight.OUTSIDE,
        Place(week=PROGRAM.weeks[week - 1].id),
        "quadriceps",
        "Quadriceps 10 sets, 2 short of 12–20",
        measured=10.0,
        range=BAND,
        below=True,
        reason="more sets, more growth, up to a point",
        source="bazvalle2022",
        mend=Edit("Add 2 sets", accept),
    )
    return replace(plain, **changed)


KNEE = finding(
    2,
    rule="limits",
    weight=Weight.CONFLICT,
    place=Place(week=PROGRAM.weeks[1].id, day=3),
    about="knee",
    text="Split squat bends the left knee past 90°",
    measured=None,
    range=None,
    source="limitation of 2 Oct 2026",
    mend=None,
)
FINDINGS = (KNEE, finding(1), finding(2), finding(4, text="Quadriceps 9 sets, 3 short of 12–20"))


def report(**changed) -> Report:
    plain = Report(
        lifter(),
        PROGRAM,
        FINDINGS,
        date(2026, 11, 25),
        coach="Tavi Hellmark",
        references=SOURCES,
    )
    return replace(plain, **changed)


def printed(one: Report | None = None, **options) -> Printed:
    return Printed(make_report(one or report(), fonts=FONTS, **options))


def test_every_finding_is_told_with_measure_range_reason_and_source() -> None:
    text = printed().whole
    for part in (
        "Split squat bends the left knee past 90°",
        "Thursday. More sets, more growth, up to a point. Limitation of 2 Oct 2026.",
        "Quadriceps 10 sets, 2 short of 12–20",
        "10, range 12–20",
        "More sets, more growth, up to a point. Bazvalle 2022 [1].",
        "Would settle it: Add 2 sets.",
        "1 bazvalle2022 (a source made up for tests).",
    ):
        assert part in text, part


def test_it_is_sorted_by_weight_then_by_week() -> None:
    text = printed().whole
    order = ["Conflict 1", "Week 2", "Outside 3", "Weeks 1–2", "Week 4", "Sources", "Reviewed by"]
    places = [text.index(part) for part in order]
    assert places == sorted(places)
    monday = PROGRAM.week_start(3)
    assert f"from {monday.day} {monday:%B %Y}" in text


def test_an_acceptance_is_told_with_its_reason_in_a_section_of_its_own() -> None:
    program = accept(PROGRAM, finding=KNEE.id, reason="agreed with her physiotherapist")
    text = printed(report(program=program)).whole
    assert "Accepted 1" in text
    assert "Conflict, accepted: Agreed with her physiotherapist." in text
    assert "3 outside and 1 accepted" in text
    assert "Conflict 1" not in text


def test_head_and_foot_say_what_whose_and_when() -> None:
    found = printed()
    text = found.text(1)
    for part in ("Findings report", "25 November 2026", "Tavi Hellmark", "Jorunn Aske"):
        assert part in text
    assert f"6 weeks from {PROGRAM.start.day} {PROGRAM.start:%B %Y}" in text
    assert f"page 1 of {len(found)}" in text


def test_without_the_name_the_initials_alone_are_printed() -> None:
    found = printed(report(named=False))
    assert "Jorunn" not in found.whole
    assert "Aske" not in found.whole
    assert "J. A." in found.text(1)
    assert b"Jorunn" not in found.data


def test_it_says_that_it_clears_nobody() -> None:
    text = printed().text(1)
    assert "does not clear anybody for training" in text
    assert "a doctor, a physiotherapist or local rules" in text


def test_a_program_without_findings_says_so() -> None:
    text = printed(report(findings=())).whole
    assert "no findings" in text
    assert "The checks have nothing to say about this program." in text
    assert "Sources" not in text


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER, Paper.A5])
def test_nothing_leaves_the_margins_and_no_heading_stands_alone(paper: Paper) -> None:
    many = tuple(
        finding(
            1 + k % 6,
            about=f"muscle {k}",
            text=f"{'Very ' * (k % 25)}long finding {k}",
            reason="because " * (k % 40 + 1),
        )
        for k in range(90)
    )
    found = printed(report(findings=many), paper=paper)
    assert len(found) > 3
    assert found.size_mm(1) == pytest.approx((paper.width_mm, paper.height_mm), abs=0.1)
    for page in range(1, len(found) + 1):
        letters = list(found.letters(page))
        assert min(letter.left for letter in letters) >= MARGIN_MM - 0.5
        assert max(letter.right for letter in letters) <= paper.width_mm - MARGIN_MM + 0.5
        body = [each for each in letters if each.bottom < paper.height_mm - 18]
        lowest = max(each.bottom for each in body)
        line = [each for each in body if each.bottom > lowest - 2]
        assert max(each.size for each in line) < 12, "no section's title ends a page"
    told = found.whole
    assert all(f"long finding {k}" in told for k in range(90))


def test_the_same_report_gives_the_same_bytes() -> None:
    assert make_report(report(), fonts=FONTS) == make_report(report(), fonts=FONTS)


def test_grey_has_no_colour() -> None:
    page = pdfium.PdfDocument(make_report(report(), fonts=FONTS, grey=True))[0]
    picture = page.render(scale=1).to_pil().convert("RGB")
    assert all(max(pixel) - min(pixel) <= 2 for _, pixel in picture.getcolors(1 << 20))


def test_text_of_findings_is_never_taken_for_markup() -> None:
    odd = finding(1, text="Squat <b>5</b> & 'row' <img src='x'/>")
    assert "Squat <b>5</b> & 'row' <img src='x'/>" in printed(report(findings=(odd,))).whole


def test_letters_without_a_font_are_refused_by_name() -> None:
    with pytest.raises(BookletError):
        printed(report(findings=(finding(1, text="Squat \U0001f9ff"),)))


def test_the_smallest_print_is_nine_points() -> None:
    found = printed()
    assert min(each.size for each in found.letters(1)) >= 9
    assert MM > 0
