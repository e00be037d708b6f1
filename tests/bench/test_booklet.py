"""Printing a booklet of 21 weeks beside a raw canvas that draws the same text."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from statistics import median

import pytest
from reportlab.pdfgen.canvas import Canvas

from app import resources
from app.booklet import Content, make
from app.booklet.fonts import Style, open_faces
from app.booklet.pen import Pen
from app.domain.client import Client
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.program import Block, Program
from app.domain.work import Issue
from tests.bench.budgets import hold
from tests.booklet.sample import FONTS, content, issue, lifter, season
from tests.builders import Numbers, program, week

pytestmark = pytest.mark.bench

BUDGET, BUDGET_WITH_FIGURES = 2.0, 3.0
ROUNDS = 7

Line = tuple[float, float, str, float, str]


def lines_of(
    make_booklet: Callable[[], bytes], monkeypatch: pytest.MonkeyPatch
) -> list[list[Line]]:
    """Every piece of text of a booklet as it is seen: place, font, size and letters, by page.

    Text in a form that is drawn once and placed often counts wherever it is placed.
    """
    pages: list[list[Line]] = [[]]
    forms: dict[str, list[Line]] = {}
    into: list[list[Line]] = []
    write, show = Pen._write, Canvas.showPage
    begin, end, place = Canvas.beginForm, Canvas.endForm, Canvas.doForm

    def note(self: Pen, x: float, y: float, text: str, *, style: Style, tone: str) -> None:
        for font, piece in self.faces.runs(text, style.face):
            (into[-1] if into else pages[-1]).append((x, y, font, style.size, piece))
        write(self, x, y, text, style=style, tone=tone)

    def turn(self: Canvas) -> None:
        pages.append([])
        show(self)

    def open_form(self: Canvas, name: str, *box: int) -> None:
        into.append(forms.setdefault(name, []))
        begin(self, name, *box)

    def close_form(self: Canvas, **more: object) -> None:
        end(self, **more)
        into.pop()

    def place_form(self: Canvas, name: str) -> None:
        (into[-1] if into else pages[-1]).extend(forms[name])
        place(self, name)

    with monkeypatch.context() as patch:
        patch.setattr(Pen, "_write", note)
        for name, function in (
            ("showPage", turn),
            ("beginForm", open_form),
            ("endForm", close_form),
            ("doForm", place_form),
        ):
            patch.setattr(Canvas, name, function)
        make_booklet()
    return pages[:-1]


def raw(pages: list[list[Line]]) -> bytes:
    """The same text on a bare canvas."""
    file = BytesIO()
    canvas = Canvas(file, initialFontName="NotoSans-Regular", pageCompression=1)  # type: ignore[arg-type]
    for page in pages:
        for x, y, font, size, text in page:
            canvas.setFont(font, size)
            canvas.drawString(x, y, text)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def seconds(run: Callable[[], object]) -> float:
    """How long `run` takes, s."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def ratio(handed: Issue, what: Content, monkeypatch: pytest.MonkeyPatch) -> float:
    """The booklet's time over the raw canvas's, medians of alternating runs."""
    open_faces(FONTS)
    pages = lines_of(lambda: make(handed, what), monkeypatch)
    ours, floor = [], []
    for _ in range(ROUNDS):
        ours.append(seconds(lambda: make(handed, what)))
        floor.append(seconds(lambda: raw(pages)))
    found = median(ours) / median(floor)
    print(
        f"booklet, {len(pages)} pages: {median(ours) * 1000:.0f} ms, raw canvas "
        f"{median(floor) * 1000:.0f} ms, ratio {found:.2f}"
    )
    return found


def test_a_booklet_of_text_and_tables_costs_at_most_twice_its_text(monkeypatch):
    found = ratio(issue(season(21)), content(), monkeypatch)
    hold("booklet of 21 weeks, text and tables", found, BUDGET)


def test_a_booklet_with_figures_costs_at_most_three_times_its_text(monkeypatch):
    catalogue = resources.catalogue()
    whole = figured_season(catalogue)
    what = content(catalogue=catalogue, poses=resources.poses())
    found = ratio(issue(whole, who(catalogue), catalogue), what, monkeypatch)
    hold("booklet of 21 weeks, with figures", found, BUDGET_WITH_FIGURES)


def figured_season(catalogue: Catalogue) -> Program:
    """21 weeks of three sessions with exercises that have figures."""
    text = (
        "Tue: hip_thrust 4x10 core, back_squat 3x10 core, step_up 2x10, calf_raise_block 3x12 |"
        "Fri: romanian_deadlift 3x10 core, split_squat 3x10, cable_kickback 2x12, plank 2x30 |"
        "Sun: bench_press 3x10 core, one_arm_dumbbell_row 4x10, overhead_press 2x12, pull_up 3x6"
    )
    numbers = Numbers()
    built = tuple(week(text, numbers=numbers) for _ in range(21))
    assert all(catalogue[slot.exercise].figure for slot in built[0].slots())
    return replace(program(""), weeks=built, blocks=(Block("All", 21),), next_id=numbers.last + 1)


def who(catalogue: Catalogue) -> Client:
    """A client with the tests of the sample that the catalogue knows."""
    client = lifter()
    assert ExerciseKey("hip_thrust") in catalogue
    return client
