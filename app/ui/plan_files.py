"""Saving the open plan as a file, and opening one: file dialogs around `app.filing`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from enum import Enum
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.findings import edit
from app.domain.program import Program, ProgramId
from app.domain.wording import tr
from app.exchange.files import write_file
from app.exchange.plan_file import SUFFIX, Plan, gather, write_plan
from app.filing import Arrival, expect, file_name, open_plan
from app.ui.bench import Bench
from app.ui.forms import tell
from db.store import Store

FILTER = f"Plan files (*{SUFFIX} *.json);;All files (*)"


class Answer(Enum):
    """What to do with a plan whose client, program or exercise is there already."""

    REPLACE = "replace"
    KEEP_BOTH = "keep both"
    LEAVE = "leave"


Ask = Callable[[Arrival, QWidget], Answer]


def export_plan(bench: Bench, window: QWidget) -> Path | None:
    """Ask where to and write the open program and its client; the path, None if cancelled."""
    desk = bench.desk
    plan = gather(desk.client, desk.program, desk.catalogue)
    chosen, _ = QFileDialog.getSaveFileName(window, tr("Save a plan file"), file_name(plan), FILTER)
    if not chosen:
        return None
    path = Path(chosen)
    if not path.suffix:
        path = path.with_name(path.name + SUFFIX)
    try:
        write_file(path, write_plan(plan).encode())
    except CoachError as error:
        tell(window, tr("The plan file was not saved"), error.sentence)
        return None
    bench.said.emit(tr("Plan file saved: {path}", path=path.name))
    return path


def import_plan(bench: Bench, store: Store, window: QWidget) -> bool:
    """Ask for a plan file, put it into the coach's file and open it; False if it stays out."""
    chosen, _ = QFileDialog.getOpenFileName(window, tr("Open a plan file"), "", FILTER)
    if not chosen:
        return False
    try:
        return take_in_plan(bench, store, Path(chosen), window=window)
    except CoachError as error:
        tell(window, tr("The plan file was not opened"), error.sentence)
        return False


def take_in_plan(
    bench: Bench, store: Store, path: Path, *, window: QWidget, ask: Ask | None = None
) -> bool:
    """Put the plan file into the coach's file and open it.

    ask: what to do where something else of the same id is there. Raises CoachError.
    """
    desk = bench.desk
    arrival = expect(store, open_plan(path, desk.catalogue))
    answer = Answer.REPLACE
    if arrival.clashes:
        answer = (ask or ask_what_to_do)(arrival, window)
    if answer == Answer.LEAVE:
        return False
    if answer == Answer.KEEP_BOTH:
        arrival = expect(store, beside(arrival.plan))
    mine = {exercise.key for exercise in store.own_exercises(retired=True)}
    replacing = answer == Answer.REPLACE
    kept = tuple(e for e in arrival.exercises if replacing or e.key not in mine)
    for exercise in kept:
        store.save_exercise(exercise)
    if kept:
        desk.catalogue = desk.catalogue.with_own(kept)
    put_on_desk(bench, arrival)
    plan = arrival.plan
    name = plan.client.name if plan.program is None else plan.program.name
    bench.said.emit(tr("Opened from a plan file: {name}", name=name))
    return True


def put_on_desk(bench: Bench, arrival: Arrival) -> None:
    """Keep the plan's client and program by way of the desk, so that replacing can be undone."""
    desk, plan = bench.desk, arrival.plan
    if arrival.client is None:
        desk.add_client(plan.client)
    else:
        desk.open(plan.client.id, None if arrival.program is None else arrival.program.id)
        desk.keep_client(tr("Take the profile from a plan file"), plan.client)
    if plan.program is None:
        return
    if arrival.program is None:
        desk.add_program(plan.program)
    else:
        label = tr("Take {program} from a plan file", program=plan.program.name)
        desk.keep(edit(label, _instead, taken=plan.program))


def _instead(program: Program, *, taken: Program) -> Program:
    """The program from the file in the place of the one that was open."""
    return taken


def ask_what_to_do(arrival: Arrival, window: QWidget) -> Answer:
    """What the coach wants done with a plan whose client or program is there already."""
    box = QMessageBox(window)
    box.setWindowTitle(tr("Open a plan file"))
    box.setIcon(QMessageBox.Icon.Question)
    box.setText(
        tr("Your file already holds another {clashes}.", clashes=", ".join(arrival.clashes))
    )
    box.setTextFormat(Qt.TextFormat.PlainText)
    role = QMessageBox.ButtonRole
    replacing = box.addButton(tr("Replace"), role.DestructiveRole)
    both = box.addButton(tr("Keep both"), role.AcceptRole)
    leave = box.addButton(tr("Cancel"), role.RejectRole)
    box.setDefaultButton(both)
    box.setEscapeButton(leave)
    box.exec()
    clicked = box.clickedButton()
    if clicked == replacing:
        return Answer.REPLACE
    return Answer.KEEP_BOTH if clicked == both else Answer.LEAVE


def beside(plan: Plan) -> Plan:
    """The plan as a new client's with a new program, so that it stands beside what is there."""
    client = replace(
        plan.client,
        id=ClientId(uuid4().hex),
        name=tr("{client}, from a plan file", client=plan.client.name),
    )
    program = plan.program
    if program is not None:
        program = replace(program, id=ProgramId(uuid4().hex))
    return replace(plan, client=client, program=program)
