"""Targets for energy and protein in the open week, or why there are none."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from app.domain.client import Client
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client import energy_lines, open_form
from app.ui.client.energy_lines import Told
from app.ui.client.number_button import NumberButton
from app.ui.client.section import Section
from app.ui.theme import Step


class EnergySection(Section):
    """A few sentences that follow the open week."""

    word = mark("Energy")

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.labels: list[QLabel | NumberButton] = []

    def fill(self, client: Client) -> None:
        """Say the targets of the open week."""
        self.head(tr("Energy and protein"))
        told = energy_lines.told(client, self.bench, self.today)
        self.labels = [self._label(one) for one in told]
        self.links((tr("Energy…"), lambda: open_form.energy(self.bench, self.window())))

    def _label(self, one: Told) -> QLabel | NumberButton:
        """A sentence; one with an account is a number that tells it."""
        if one.working is None:
            return self.line(one.text, quiet=one.quiet)
        step: Step = "small" if one.quiet else "body"
        made = NumberButton(self.bench, one.text, one.working, about=tr("Energy"), step=step)
        made.setStyleSheet("text-align: left; padding: 2px 0px;")
        self.column.addWidget(made, 0, Qt.AlignmentFlag.AlignLeft)
        return made

    def show_week(self) -> None:
        """Say the targets of the week that is now open."""
        work = self.bench.desk.work
        if work is None:
            return
        told = energy_lines.told(work.client, self.bench, self.today)
        kinds = [isinstance(label, NumberButton) for label in self.labels]
        if kinds != [one.working is not None for one in told]:
            self.refresh()
            return
        for label, one in zip(self.labels, told, strict=True):
            if isinstance(label, NumberButton) and one.working is not None:
                label.show_number(one.text, one.working)
            else:
                label.setText(one.text)
