"""What the energy targets rest on: goal, activity, what is eaten now, and who must be referred."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtGui import QStandardItemModel
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QVBoxLayout, QWidget

from app.domain import energy
from app.domain.client import Client, EnergyGoal
from app.domain.energy.fat_free import measured_text, refuse_choice, refuse_fat_free, why_not
from app.domain.energy.resting import USUAL_EQUATION
from app.domain.energy.table import EnergyTable, energy_table
from app.domain.errors import CoachError
from app.domain.wording import listing, mark, tr
from app.ui.bench import Bench
from app.ui.client import energy_lines
from app.ui.client.energy_tables import EnergyTables
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, Wrapped
from app.ui.mass_field import MassField

GOALS: tuple[tuple[str, EnergyGoal | None], ...] = (
    (mark("none: say nothing on energy"), None),
    (mark("gain"), EnergyGoal.GAIN),
    (mark("hold"), EnergyGoal.HOLD),
    (mark("lose"), EnergyGoal.LOSE),
)
LEVELS = (
    (mark("sedentary or light, 1.40–1.69"), 1.55),
    (mark("active or moderately active, 1.70–1.99"), 1.85),
    (mark("vigorous, 2.00–2.40"), 2.20),
)
LEVEL_WORDS = (
    mark("Training included: most of the day seated, little on foot, a few sessions a week."),
    mark("Training included: on the feet much of the day, or an hour of brisk exercise daily."),
    mark("Training included: heavy work by hand, or hours of hard exercise, nearly every day."),
)
"""The classes in plain words, after fao2004."""
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
            self.goal.addItem(tr(text), goal)
        self.level = QComboBox()
        for text, level in LEVELS:
            self.level.addItem(tr(text), level)
        for box in (self.goal, self.level):
            box.setMinimumHeight(32)
        self.level.setCurrentIndex(_nearest(client.activity_level))
        self.goal.setCurrentIndex([g for _, g in GOALS].index(client.energy_goal))
        self.now = NumberField(
            tr("Eats now"), low=500, high=8000, unit=tr("kcal a day"), optional=True
        )
        self.now.set_value(client.kcal_now)
        self.equation = self._equations(client.energy_equation)
        self.lean = MassField(
            tr("Fat-free mass"),
            low=20,
            high=200,
            units=client.units,
            unit=tr("{unit}, measured", unit=client.units),
            optional=True,
        )
        self.lean.set_value(client.fat_free_kg)
        self.level_words = Wrapped(role="small")
        self.equation_words = Wrapped(role="small")
        self.row(tr("Body mass is to"), self.goal)
        self.row(tr("Activity"), self.level)
        self.form.addRow("", self.level_words)
        self.row(tr("Eats now"), self.now)
        self.row(tr("Fat-free mass"), self.lean)
        self.form.addRow("", Wrapped(measured_text(), role="small"))
        self.row(tr("Equation for rest"), self.equation)
        self.form.addRow("", self.equation_words)
        self.boxes = {reason: QCheckBox(tr(reason).capitalize()) for reason in REFERRALS}
        for reason, tick in self.boxes.items():
            tick.setChecked(reason in client.refer)
            tick.toggled.connect(lambda _on: self.refresh())
            self.form.addRow("", tick)
        self.preview = Wrapped()
        self.tables = EnergyTables(bench)
        self._lay_out()
        for combo in (self.goal, self.level, self.equation):
            combo.currentIndexChanged.connect(lambda _k: self.refresh())
        for field in (self.now, self.lean):
            field.edit.textChanged.connect(lambda _text: self.refresh())
        self.setMinimumWidth(960)
        self.refresh()

    def _equations(self, kept: str) -> QComboBox:
        """The program's own choice, then every equation; `_offer` says which can be chosen."""
        box = QComboBox()
        box.setMinimumHeight(32)
        usual = energy.RESTING_EQUATIONS[USUAL_EQUATION].name
        box.addItem(tr("the program's choice, {equation}", equation=usual), "")
        for key, equation in energy.RESTING_EQUATIONS.items():
            if key != "mifflin_unrounded" or key == kept:
                box.addItem(equation.name, key)
        box.setCurrentIndex(max(0, box.findData(kept)))
        return box

    def _offer(self, fat_free_kg: float | None) -> None:
        """Let those be chosen that have the figures they need, and say of the others why not."""
        model = self.equation.model()
        assert isinstance(model, QStandardItemModel)
        withheld = []
        for at in range(1, self.equation.count()):
            key = self.equation.itemData(at)
            name, lacks = energy.RESTING_EQUATIONS[key].name, bool(why_not(key, fat_free_kg))
            told = tr("{equation}: no fat-free mass", equation=name) if lacks else name
            self.equation.setItemText(at, told)
            model.item(at).setEnabled(not lacks)
            if lacks:
                withheld.append(name)
        self.equation_words.setText(
            tr(
                "{equations} need a measured fat-free mass to be chosen.",
                equations=listing(withheld),
            )
            if withheld
            else ""
        )
        self.equation_words.setVisible(bool(withheld))

    def _lay_out(self) -> None:
        """Fields left, numbers right."""
        self.column.removeItem(self.form)
        left = QVBoxLayout()
        left.setContentsMargins(0, 0, 0, 0)
        left.addLayout(self.form)
        left.addWidget(self.preview)
        left.addStretch(1)
        left.addWidget(
            Wrapped(tr("Activity classes: FAO, WHO and UNU, 2004, in our words."), role="small")
        )
        holder = QWidget()
        holder.setLayout(left)
        holder.setFixedWidth(400)
        row = QHBoxLayout()
        row.setSpacing(18)
        row.addWidget(holder)
        row.addWidget(self.tables, 1)
        self.body.addLayout(row, 1)

    def changed_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        client = self.bench.desk.client
        others = tuple(r for r in client.refer if r not in REFERRALS)
        ticked = tuple(r for r, box in self.boxes.items() if box.isChecked())
        level = self.level.currentIndex()
        goal = self.goal.currentData()
        kept = client.activity_level
        return replace(
            client,
            energy_goal=None if goal is None else EnergyGoal(goal),  # a box gives plain text back
            activity_level=kept if level == _nearest(kept) else LEVELS[level][1],
            energy_equation=self.equation.currentData(),
            kcal_now=self.now.value(),
            fat_free_kg=self.lean.value(),
            refer=(*others, *ticked),
        )

    def refresh(self) -> None:
        """Show the targets as they would be; never a number beside a referral."""
        self._say_level()
        try:
            client = self.changed_client()
        except CoachError:
            for field in (self.now, self.lean):
                field.show_error("")  # half a number is not wrong yet
            self.preview.setText("")
            self.tables.show_nothing(tr("The numbers follow once those on the left can be read."))
            return
        self._offer(client.fat_free_kg)
        told = energy_lines.lines(client, self.bench, self.today)
        self.preview.setText("\n".join(text for text, _ in told))
        if client.energy_goal is None:
            self.tables.show_nothing(
                tr(
                    "No goal is chosen, so there are no numbers. Choose on the left whether body "
                    "mass is to rise, hold or fall."
                )
            )
            return
        weeks, on = energy_lines.reach(self.bench, self.today)
        try:
            plan = energy.usual_plan(client, weeks=weeks, on=on)
            table = energy_table(client, on)
        except CoachError as error:
            self.preview.setText("")
            self.tables.show_nothing(error.sentence)
            return
        if isinstance(plan, energy.EnergyPlan) and isinstance(table, EnergyTable):
            self.tables.show_numbers(client, plan, table, on=on)
        elif isinstance(plan, energy.Referral):
            why = tr("No numbers here. {reasons}", reasons=" ".join(plan.reasons))
            self.tables.show_nothing(why)

    def _say_level(self) -> None:
        """The class in plain words, and a level of one's own where there is one."""
        at, kept = self.level.currentIndex(), self.bench.desk.client.activity_level
        text = tr(LEVEL_WORDS[at])
        own = all(abs(level - kept) > 0.005 for _, level in LEVELS)
        if own and at == _nearest(kept):
            text += " " + tr("Counted with {level}, the client's own level.", level=f"{kept:.2f}")
        self.level_words.setText(text)

    def keep(self) -> None:
        """Keep what the targets rest on."""
        client = self.changed_client()
        refuse_fat_free(client)
        refuse_choice(client)
        keep_client(self.bench, tr("Change the energy goal"), client)


def _nearest(level: float) -> int:
    """The class whose middle is nearest to a level."""
    return min(range(len(LEVELS)), key=lambda k: abs(LEVELS[k][1] - level))
