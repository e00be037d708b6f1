"""What can be done with one exercise of the list, as a menu; every entry shows its keys."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QMenu

from app.domain.exercise import Exercise, ExerciseKey
from app.domain.wording import tr
from app.ui.library.acts import LibraryActs


def exercise_menu(
    acts: LibraryActs,
    exercise: Exercise,
    *,
    place: Callable[[ExerciseKey], object],
    pick: Callable[[ExerciseKey], object],
) -> QMenu:
    """The menu for a row of the list; place and pick put it on the open day or into the hand."""
    menu = QMenu(acts.pane)
    has_program = acts.bench.desk.has_program
    kept = exercise.key in acts.at_hand

    def add(text: str, run: Callable[[], object], *, enabled: bool = True) -> None:
        action = menu.addAction(text)
        action.setEnabled(enabled)
        action.triggered.connect(lambda _on: run())

    add(tr("Place on the open day\tEnter"), lambda: place(exercise.key), enabled=has_program)
    add(tr("Pick up, to put down\tSpace"), lambda: pick(exercise.key), enabled=has_program)
    menu.addSeparator()
    add(tr("Everything on it\tF2"), lambda: acts.show_detail(exercise))
    add(tr("Compare with another…\tF3"), lambda: acts.compare(exercise))
    star = tr("No longer at hand") if kept else tr("Keep at hand")
    add(tr("{star}\tCtrl+K", star=star), lambda: acts.turn_star(exercise.key))
    menu.addSeparator()
    add(tr("Copy and change…"), lambda: acts.make_own(exercise))
    if exercise.own:
        add(tr("Change…"), lambda: acts.change_own(exercise))
        add(tr("Retire"), lambda: acts.retire_own(exercise))
    return menu
