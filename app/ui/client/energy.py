"""What the energy targets rest on: goal, activity, what is eaten now, and who must be referred."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtWidgets import QCheckBox, QComboBox, QWidget

from app.domain.client import Client, EnergyGoal
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client import energy_lines
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, Wrapped, plain

GOALS: tuple[tuple[str, EnergyGoal | None], ...] = (
    (mark("none: say nothing on energy"), None),
    ("gain", EnergyGoal.GAIN),
    ("hold", EnergyGoal.HOLD),
    ("lose", EnergyGoal.LOSE),
)
LEVELS = (
    (mark("sedentary or light, 1.40–1.69"), 1.55),
    (mark("active or moderately active, 1.70–1.99"), 1.85),
    (mark("vigorous, 2.00–2.40"), 2.20),
)
REFERRALS = (mark("kidney disease"), mark("history of disordered eating"))


class EnergySheet(Sheet):
    """Goal and figures; the targets are shown as they would be."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Energy and protein of {client}", client=client.name),
            verb=tr("Keep"),
            about=tr(
                "General targets for healthy adults who have been screened. "
                "Minors, pregnancy, known disease, low body mass and "
                "disordered eating belong with a practitioner or dietitian."
            ),
        )
        self.bench, self.today = bench, today
        self.goal = QComboBox()
        for text, goal in GOALS:
            self.goal.addItem(text, goal)
        self.level = QComboBox()
        for text, level in LEVELS:
            self.level.addItem(text, level)
        for box in (self.goal, self.level):
            box.setMinimumHeight(32)
        nearest = min(range(3), key=lambda k: abs(LEVELS[k][1] - client.activity_level))
        self.level.setCurrentIndex(nearest)
        self.goal.setCurrentIndex([g for _, g in GOALS].index(client.energy_goal))
        self.now = NumberField(
            tr("Eats now"), low=500, high=8000, unit=tr("kcal a day"), optional=True
        )
        self.now.set_value(client.kcal_now)
        self.row(tr("Body mass is to"), self.goal)
        self.row(tr("Activity, training included"), self.level)
        self.row(tr("Eats now"), self.now)
        self.boxes = {reason: QCheckBox(reason.capitalize()) for reason in REFERRALS}
        for reason, tick in self.boxes.items():
            tick.setChecked(reason in client.refer)
            tick.toggled.connect(lambda _on: self.refresh())
            self.form.addRow("", tick)
        self.preview = Wrapped()
        self.body.addWidget(self.preview)
        self.body.addWidget(plain(tr("Activity classes: FAO, WHO and UNU, 2004."), role="small"))
        for combo in (self.goal, self.level):
            combo.currentIndexChanged.connect(lambda _k: self.refresh())
        self.now.edit.textChanged.connect(lambda _text: self.refresh())
        self.setMinimumWidth(520)
        self.refresh()

    def changed_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        client = self.bench.desk.client
        others = tuple(r for r in client.refer if r not in REFERRALS)
        ticked = tuple(r for r, box in self.boxes.items() if box.isChecked())
        level = self.level.currentIndex()
        goal = self.goal.currentData()
        kept = client.activity_level
        nearest = min(range(3), key=lambda k: abs(LEVELS[k][1] - kept))
        return replace(
            client,
            energy_goal=None if goal is None else EnergyGoal(goal),  # a box gives plain text back
            activity_level=kept if level == nearest else LEVELS[level][1],
            kcal_now=self.now.value(),
            refer=(*others, *ticked),
        )

    def refresh(self) -> None:
        """Show the targets as they would be."""
        from app.domain.errors import CoachError

        try:
            client = self.changed_client()
        except CoachError:
            self.now.show_error("")  # half a number is not wrong yet
            self.preview.setText("")
            return
        told = energy_lines.lines(client, self.bench, self.today)
        self.preview.setText("\n".join(text for text, _ in told))

    def keep(self) -> None:
        """Keep what the targets rest on."""
        keep_client(self.bench, tr("Change the energy goal"), self.changed_client())
