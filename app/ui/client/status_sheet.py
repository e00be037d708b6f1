"""The questions that decide the training status, with what follows from the answers."""

from __future__ import annotations

from PySide6.QtWidgets import QCheckBox, QWidget

from app.domain.client import Status
from app.domain.errors import CoachError
from app.domain.training_status import STATUS_WORDS, Answers, Decision, decide
from app.domain.wording import tr
from app.ui.forms import NumberField, Sheet, Wrapped, plain


class StatusSheet(Sheet):
    """Asks three things; `decision` and `years` hold what they come to once it is accepted."""

    def __init__(self, parent: QWidget | None, *, status: Status, years: float) -> None:
        super().__init__(
            parent,
            tr("Training status"),
            verb=tr("Take it over"),
            about=tr(
                "After the definitions of the American College of Sports Medicine, 2009: novice, "
                "no experience or years off; intermediate, about six months of regular training; "
                "advanced, years of it."
            ),
        )
        self.decision: Decision | None = None
        self.years_trained = NumberField(
            tr("Resistance training so far"), low=0, high=80, unit=tr("years")
        )
        self.years_trained.set_value(years)
        self.regular = QCheckBox(tr("On two days a week or more, most weeks"))
        self.regular.setMinimumHeight(24)
        self.regular.setChecked(status is not Status.NOVICE)
        self.off = NumberField(tr("Since it was last so"), low=0, high=80, unit=tr("years"))
        self.off.set_value(0)
        self.row(tr("Resistance training so far"), self.years_trained)
        self.row(tr("Regular"), self.regular)
        self.row(tr("Since it was last so"), self.off)
        self.answer = Wrapped(step="head")
        self.why = Wrapped(role="small")
        self.body.addWidget(self.answer)
        self.body.addWidget(self.why)
        self.body.addWidget(plain(tr("Two years for 'years' is common practice."), role="small"))
        for field in (self.years_trained, self.off):
            field.edit.textChanged.connect(lambda _text: self.refresh())
        self.regular.toggled.connect(lambda _on: self.refresh())
        self.setMinimumWidth(480)
        self.refresh()

    def answers(self) -> Answers:
        """What was entered. Raises CoachError for what is no number of years."""
        return Answers(
            self.years_trained.value() or 0.0,
            regular=self.regular.isChecked(),
            off_years=self.off.value() or 0.0,
        )

    def refresh(self) -> None:
        """Say what the answers come to."""
        try:
            found = decide(self.answers())
        except CoachError:
            for field in (self.years_trained, self.off):
                field.show_error("")  # half a number is not wrong yet
            self.answer.setText("")
            self.why.setText("")
            return
        self.answer.setText(tr(STATUS_WORDS[found.status]))
        self.why.setText(f"{found.why} {found.heed}".rstrip())

    def keep(self) -> None:
        """Decide."""
        self.decision = decide(self.answers())
