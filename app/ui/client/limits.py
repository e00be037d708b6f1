"""Limitations: joint motions that are ruled out, past an angle or altogether, for a time."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QDate
from PySide6.QtWidgets import QComboBox, QListWidget, QWidget

from app.domain.client import Limitation, Side
from app.domain.doubt import require_day
from app.domain.errors import CoachError
from app.domain.exercise import Joint, Motion
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.client.profile import OptionalDate, keep_client
from app.ui.forms import NumberField, Sheet, Wrapped, button, plain, text_field
from app.ui.words import MOTION_WORDS, full_date, limitation_text, pydate


class LimitationSheet(Sheet):
    """Lists what is ruled out, and adds to it."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Limitations"),
            verb=tr("Add"),
            about=tr(
                "What a practitioner, or the client's own experience, rules "
                "out. Exercises that ask for it are marked as a conflict while "
                "it holds; the booklet says so too."
            ),
        )
        self.bench = bench
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Limitations"))
        self.list.setMaximumHeight(110)
        self.remove_button = button(tr("Remove the marked one"), self.remove)
        self.joint = _combo(Joint, tr("Joint"))
        self.motion = QComboBox()
        for motion, verb in MOTION_WORDS.items():
            self.motion.addItem(tr("no {verb}", verb=tr(verb)), motion)
        self.motion.setMinimumHeight(32)
        self.side = _combo(Side, tr("Side"))
        self.side.setCurrentIndex(self.side.findData(Side.BOTH))
        self.past = NumberField(
            tr("Past"), low=0, high=180, unit="degrees", whole=True, optional=True
        )
        self.since = OptionalDate(tr("From"), None, usual=pydate(QDate.currentDate()))
        self.until = OptionalDate(tr("Until"), None, usual=pydate(QDate.currentDate().addMonths(3)))
        self.note = text_field("", hint=tr("Who said so, and why"))
        self.column.insertWidget(2, self.list)
        self.column.insertWidget(3, self.remove_button)
        self.row(tr("Joint"), self.joint)
        self.row(tr("Ruled out"), self.motion)
        self.row(tr("Side"), self.side)
        self.row(tr("Past an angle of"), self.past)
        self.row(tr("From"), self.since)
        self.row(tr("Until"), self.until)
        self.form.addRow(
            "",
            Wrapped(
                tr(
                    "The day to look again with whoever set it. It lifts nothing by itself: from "
                    "then on the plan asks instead of forbidding."
                ),
                role="small",
            ),
        )
        self.row(tr("Note"), self.note)
        self.body.addWidget(
            plain(tr("Leave the angle empty to rule the motion out altogether."), role="small")
        )
        self.cancel_button.setText(tr("Close"))
        self.setMinimumWidth(520)
        self._list()

    def _list(self) -> None:
        self.list.clear()
        for limitation in self.bench.desk.client.limitations:
            self.list.addItem(limitation_text(limitation))
        self.remove_button.setEnabled(self.list.count() > 0)
        self.list.setCurrentRow(0)

    def remove(self) -> None:
        """Remove the marked limitation."""
        row = self.list.currentRow()
        client = self.bench.desk.client
        if row < 0:
            return
        left = client.limitations[:row] + client.limitations[row + 1 :]
        try:
            keep_client(self.bench, tr("Remove a limitation"), replace(client, limitations=left))
        except CoachError as error:
            self.show_error(error.sentence)
        self._list()

    def keep(self) -> None:
        """Add the limitation as entered."""
        past, until, since = self.past.value(), self.until.value(), self.since.value()
        born = self.bench.desk.client.born
        if since is not None:
            require_day(
                tr("From"), since, today=pydate(QDate.currentDate()), born=born, future=True
            )
        if since is not None and until is not None and until < since:
            raise CoachError(
                tr(
                    "From {since} until {until}: the end comes before the beginning.",
                    since=full_date(since),
                    until=full_date(until),
                ),
                mend=tr("Swap the two days, or untick one."),
            )
        if until is not None and until < pydate(QDate.currentDate()):
            raise CoachError(
                tr(
                    "Until {until}: that day is past, so nothing would be ruled out.",
                    until=full_date(until),
                ),
                mend=tr("Enter a later day, or untick 'known'."),
            )
        made = Limitation(
            Joint(self.joint.currentData()),
            Motion(self.motion.currentData()),
            Side(self.side.currentData()),
            past_degrees=None if past is None else int(past),
            since=since,
            until=until,
            note=self.note.text().strip(),
        )
        client = self.bench.desk.client
        keep_client(
            self.bench,
            tr("Add a limitation"),
            replace(client, limitations=(*client.limitations, made)),
        )


def _combo(kind: type[Joint] | type[Side], name: str) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setAccessibleName(name)
    for member in kind:
        box.addItem(tr(member.value), member)
    return box
