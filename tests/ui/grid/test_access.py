"""What a screen reader finds in the grid."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QAccessible

from app.ui.grid import WeekGrid, access
from tests.ui.grid import scene


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


def test_every_day_and_card_has_a_name_and_a_place_inside_the_grid(grid):
    items = access.items_of(grid)
    assert len(items) == 7 + 8
    assert all(item.name for item in items)
    assert all(grid.rect().toRectF().contains(item.rect) for item in items)


def test_the_grid_is_a_list_of_headings_and_items(grid):
    interface = QAccessible.queryAccessibleInterface(grid)
    assert interface.role() == QAccessible.Role.List
    assert interface.text(QAccessible.Text.Name) == "Week 1"
    assert interface.childCount() == 15
    first, second = interface.child(0), interface.child(1)
    assert first.role() == QAccessible.Role.Heading
    assert first.text(QAccessible.Text.Name).startswith("Monday 23")
    assert second.role() == QAccessible.Role.ListItem
    assert second.text(QAccessible.Text.Name) == "Monday, Back squat, 4 sets of 10, RIR 2, 70 kg"
    assert second.rect().isValid()
    assert interface.indexOfChild(second) == 1


def test_selection_and_focus_are_told(grid):
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.setFocus()
    grid.go_to(slot)
    grid.bench.select((slot,))
    state = QAccessible.queryAccessibleInterface(grid).child(1).state()
    assert state.selected
    assert state.selectable
    item = access.items_of(grid)[1]
    assert (item.focused, item.selected) == (True, True)


def test_names_follow_the_plan(grid):
    grid.acts.write_line(scene.slot_id(grid.bench, 0, 0), "5 x 5")
    spoken = QAccessible.queryAccessibleInterface(grid).child(1).text(QAccessible.Text.Name)
    assert "5 sets of 5" in spoken


def test_an_item_that_is_gone_is_not_valid(grid):
    interface = QAccessible.queryAccessibleInterface(grid)
    last = interface.child(14)
    assert last.isValid()
    grid.bench.desk.close()
    assert not last.isValid()
    assert interface.childCount() == 0


def test_a_point_finds_its_item(grid):
    interface = QAccessible.queryAccessibleInterface(grid)
    middle = interface.child(1).rect().center()
    assert interface.childAt(middle.x(), middle.y()) is interface.child(1)
