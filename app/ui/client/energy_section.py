"""Targets for energy and protein in the open week, or why there are none."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel

from app.domain.client import Client
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client import energy_lines, open_form
from app.ui.client.section import Section


class EnergySection(Section):
    """A few sentences that follow the open week."""

    word = mark("Energy")

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.labels: list[QLabel] = []

    def fill(self, client: Client) -> None:
        """Say the targets of the open week."""
        self.head(tr("Energy and protein"))
        told = energy_lines.lines(client, self.bench, self.today)
        self.labels = [self.line(text, quiet=quiet) for text, quiet in told]
        self.links((tr("Energy…"), lambda: open_form.energy(self.bench, self.window())))

    def show_week(self) -> None:
        """Say the targets of the week that is now open."""
        work = self.bench.desk.work
        if work is None:
            return
        told = energy_lines.lines(work.client, self.bench, self.today)
        if len(told) != len(self.labels):
            self.refresh()
            return
        for label, (text, _) in zip(self.labels, told, strict=True):
            label.setText(text)
