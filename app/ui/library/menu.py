"""What can be done with one exercise of the list, as a menu; every entry shows its keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMenu

from app.domain.exercise import Exercise

if TYPE_CHECKING:
    from app.ui.library.pane import LibraryPane


def exercise_menu(pane: LibraryPane, exercise: Exercise) -> QMenu:
    """The menu for a row of the list."""
    menu = QMenu(pane)
    kept = exercise.key in pane.acts.at_hand
    placing = menu.addAction("Place on the open day\tEnter")
    placing.triggered.connect(lambda: pane.place_wanted.emit(exercise.key))
    placing.setEnabled(pane.bench.desk.has_program)
    picking = menu.addAction("Pick up, to put down\tSpace")
    picking.triggered.connect(lambda: pane.pick_wanted.emit(exercise.key))
    picking.setEnabled(pane.bench.desk.has_program)
    menu.addSeparator()
    menu.addAction("Everything on it\tF2").triggered.connect(
        lambda: pane.acts.show_detail(exercise)
    )
    menu.addAction("Compare with another\u2026\tF3").triggered.connect(
        lambda: pane.acts.compare(exercise)
    )
    menu.addAction(
        "No longer at hand\tCtrl+K" if kept else "Keep at hand\tCtrl+K"
    ).triggered.connect(lambda: pane.acts.turn_star(exercise.key))
    menu.addSeparator()
    menu.addAction("Copy and change\u2026").triggered.connect(lambda: pane.acts.make_own(exercise))
    if exercise.own:
        menu.addAction("Change\u2026").triggered.connect(lambda: pane.acts.change_own(exercise))
        menu.addAction("Retire").triggered.connect(lambda: pane.acts.retire_own(exercise))
    return menu
