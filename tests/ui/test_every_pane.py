"""The window's panes and pages by the rules of the dialogs: named, of a kind, legible, in reach.

The window is full: a demo client with results, tests, check-ins and findings. What is painted is
walked part by part, as assistive technology meets it.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from app.ui import theme
from app.ui.charts.window import ChartsWindow
from app.ui.client.strength_section import StrengthSection
from app.ui.results.dialog import ResultsDialog
from app.ui.window import Window
from tests.ui.access import (
    LEAST_PX,
    faint,
    marked_up,
    out_of_reach,
    painted,
    silent,
    too_small,
    unnamed,
)

TODAY = date(2026, 11, 25)
RULES = (unnamed, silent, too_small, marked_up, faint)
SIZES = ((1600, 1000), (1280, 720))


def start_page(window: Window) -> QWidget:
    window.show_home()
    assert window.home.model.lines
    return window


def first_page(window: Window) -> QWidget:
    desk = window.bench.desk
    desk.open(desk.client.id, None)
    assert window.centre.currentWidget() is window.welcome
    return window


def heat(window: Window) -> QWidget:
    window.season.show_heat(True)
    return window


def folded(window: Window) -> QWidget:
    window.client_pane.fold(True)
    return window


def small(window: Window) -> QWidget:
    window.resize(*SIZES[1])
    return window


def curtain(window: Window) -> QWidget:
    window.curtain.drop()
    assert window.curtain.is_down
    return window


def results(window: Window) -> QWidget:
    made = ResultsDialog(window.bench, window, today=TODAY)
    made.show()
    return made


def charts(window: Window) -> QWidget:
    made = ChartsWindow(window.bench, window, today=TODAY)
    made.show()
    return made


PAGES: dict[str, Callable[[Window], QWidget]] = {
    "plan": lambda window: window,
    "plan, small": small,
    "plan, client folded": folded,
    "plan as heat strip": heat,
    "start page": start_page,
    "first page": first_page,
    "curtain": curtain,
    "results": results,
    "charts": charts,
}


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
@pytest.mark.parametrize("page", PAGES)
def test_every_page_can_be_used_by_everybody(full: Window, page: str, colours) -> None:
    theme.force(colours)
    full.dress()
    shown = PAGES[page](full)
    QApplication.processEvents()
    found = [f"{rule.__name__}: {fault}" for rule in RULES for fault in rule(shown)]
    shown.close()
    assert found == []


@pytest.mark.parametrize("page", PAGES)
def test_every_control_of_a_page_is_in_reach_of_the_tab_key(full: Window, page: str) -> None:
    shown = PAGES[page](full)
    shown.activateWindow()
    QApplication.processEvents()
    unreached = out_of_reach(shown)
    shown.close()
    assert unreached == []


def test_all_sections_of_the_client_are_filled_in_this_walk(full: Window) -> None:
    sections = full.client_pane.sections
    assert all(section.isVisible() for section in sections)
    for section in sections:
        assert [label for label in section.findChildren(QLabel) if label.text()], type(section)
    assert full.bench.desk.client.tests
    assert full.client_pane.section(StrengthSection).isVisible()


# -- the order of the focus ------------------------------------------------------------------------


def pane_of(window: Window, widget: QWidget | None) -> QWidget | None:
    """The pane that a widget belongs to."""
    panes = (
        window.top,
        window.library,
        window.season,
        window.head,
        window.grid,
        window.tally,
        window.findings,
        window.client_pane,
    )
    return next(
        (p for p in panes if widget is not None and (p is widget or p.isAncestorOf(widget))), None
    )


@pytest.mark.parametrize("size", SIZES)
def test_tab_goes_from_pane_to_pane_as_they_are_read(full: Window, size) -> None:
    full.resize(*size)
    full.grid.setFocus()
    QApplication.processEvents()
    order: list[QWidget | None] = []
    first = None
    for _ in range(300):
        focus = QApplication.focusWidget()
        assert focus is not None
        if first is None:
            first = focus
        elif focus is first:
            break
        pane = pane_of(full, focus)
        if not order or order[-1] is not pane:
            order.append(pane)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    else:
        raise AssertionError("Tab never comes back")
    names = [type(pane).__name__ for pane in order]
    # each pane is gone through once, in one piece, and the grid's neighbours follow it
    assert len(set(names)) == len(names), names
    start = names.index("TopBar")
    turned = names[start:] + names[:start]
    assert turned == [
        "TopBar",
        "LibraryPane",
        "SeasonStrip",
        "WeekHead",
        "WeekGrid",
        "TallyPane",
        "FindingsPane",
        "ClientPane",
    ]


# -- what is painted -------------------------------------------------------------------------------


def speakers(window: Window) -> dict[str, QWidget]:
    return {
        "grid": window.grid,
        "season": window.season,
        "tally": window.tally.bars,
        "findings": window.findings.list,
        "library": window.library.list,
    }


@pytest.mark.parametrize("as_heat", [False, True], ids=["score", "heat strip"])
def test_all_that_is_painted_has_a_name_a_kind_and_a_place(full: Window, as_heat: bool) -> None:
    full.season.show_heat(as_heat)
    QApplication.processEvents()
    kinds = {QAccessible.Role.ListItem, QAccessible.Role.Heading, QAccessible.Role.Cell}
    for name, widget in speakers(full).items():
        parts = list(painted(widget))
        assert parts, name
        for part in parts:
            assert part.text(QAccessible.Text.Name).strip(), name
            assert part.role() in kinds, (name, part.role())
            assert part.parent().object() is widget
            assert part.rect().isValid(), (name, part.text(QAccessible.Text.Name))


def test_what_is_painted_speaks_for_every_thing_once(full: Window) -> None:
    bench = full.bench
    cards = len(list(bench.open_week.slots()))
    assert len(list(painted(full.grid))) == 7 + cards
    assert len(list(painted(full.season))) == len(bench.desk.program.weeks)
    assert len(list(painted(full.tally.bars))) == len(full.tally.bars.rows)
    assert len(list(painted(full.findings.list))) == full.findings.list.count()
    full.season.show_heat(True)
    cells = [p for p in painted(full.season) if p.role() is QAccessible.Role.Cell]
    names = [cell.text(QAccessible.Text.Name) for cell in cells]
    assert len(set(names)) == len(names) >= len(bench.desk.program.weeks)


@pytest.mark.parametrize("size", SIZES)
def test_painted_targets_are_large_enough(full: Window, size) -> None:
    full.resize(*size)
    QApplication.processEvents()
    for name in ("grid", "season", "tally", "findings"):
        for part in painted(speakers(full)[name]):
            rect = part.rect()
            least = min(rect.width(), rect.height())
            assert least >= LEAST_PX, (name, part.text(QAccessible.Text.Name), rect)


def test_a_point_on_a_painted_part_is_that_part(full: Window) -> None:
    for widget in (full.season, full.tally.bars):
        interface = QAccessible.queryAccessibleInterface(widget)
        for number, part in enumerate(painted(widget)):
            middle = part.rect().center()
            assert interface.childAt(middle.x(), middle.y()) is interface.child(number)


def test_the_week_in_focus_and_the_chosen_ones_are_told(full: Window) -> None:
    full.season.setFocus()
    full.bench.show_week(2)
    full.season.choose(range(1, 3))
    states = [part.state() for part in painted(full.season)]
    assert [bool(s.selected) for s in states[:4]] == [False, True, True, False]
    assert [k for k, s in enumerate(states) if s.focused] == [2]
    bars = full.tally.bars
    bars.setFocus()
    QTest.keyClick(bars, Qt.Key.Key_Down)
    assert [k for k, part in enumerate(painted(bars)) if part.state().focused] == [1]


def test_behind_the_curtain_no_painted_part_is_visible(full: Window) -> None:
    part = next(painted(full.season))
    full.curtain.drop()
    assert part.state().invisible
    full.curtain.lift()
    assert not part.state().invisible


def test_tab_goes_down_the_client_pane_whichever_section_was_filled_last(full: Window) -> None:
    pane = full.client_pane
    for section in (pane.sections[2], pane.sections[0]):
        section.refresh()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    pane.sections[0].stops()[0].setFocus()
    heights = []
    while pane_of(full, focus := QApplication.focusWidget()) is pane:
        assert focus is not None
        heights.append(
            focus.mapTo(full, focus.rect().topLeft()).y()
            + pane.scroll_area.verticalScrollBar().value()
        )
        QTest.keyClick(focus, Qt.Key.Key_Tab)
        assert len(heights) < 100
    assert len(heights) >= 10
    assert heights == sorted(heights)
