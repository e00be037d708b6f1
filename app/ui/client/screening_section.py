"""What the screening said, and what is ruled out."""

from __future__ import annotations

from app.domain import screening as screenings
from app.domain.client import Client
from app.domain.wording import mark, tr
from app.ui import words
from app.ui.client import open_form
from app.ui.client.section import Section


class ScreeningSection(Section):
    """The newest screening's outcome and the limitations in force."""

    word = mark("Screening")

    def fill(self, client: Client) -> None:
        """Say the outcome and each limitation."""
        latest = client.latest_screening
        self.head(tr("Screening"), words.full_date(latest.on) if latest else "")
        if latest is None:
            self.line(tr("Not screened yet. Ask the questions before the first session."))
        else:
            said = screenings.outcome(latest, screenings.Wish.VIGOROUS, on=self.today)
            self.line(said.text, quiet=False)
        for limitation in client.limitations:
            label = self.line(words.limitation_text(limitation), quiet=False)
            label.setContentsMargins(8, 0, 0, 0)
            label.setStyleSheet("border-left: 3px solid palette(mid);")
        self.links(
            (tr("Screening…"), lambda: open_form.screening(self.bench, self.window())),
            (tr("Limitation…"), lambda: open_form.limitations(self.bench, self.window())),
        )
