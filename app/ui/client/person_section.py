"""Who the plan is for: name, size, status, team and emphasis."""

from __future__ import annotations

from app.domain.client import Client, Stage
from app.domain.wording import tr
from app.ui import words
from app.ui.client import open_form
from app.ui.client.section import Section
from app.ui.forms import Wrapped


class PersonSection(Section):
    """The client's name in large, and below it what is known in a line or two."""

    def fill(self, client: Client) -> None:
        """Say who it is."""
        self.column.addWidget(Wrapped(client.name, step="name"))
        self.line(words.client_line(client, self.today), quiet=False)
        if client.team:
            self.line(client.team, quiet=False)
        if client.emphasis:
            muscles = [self.bench.shelf.muscles[m].trade.lower() for m in client.emphasis]
            self.line(tr("Emphasis: {muscles}", muscles=", ".join(muscles)))
        if client.stage is not Stage.ACTIVE or client.tags:
            self.line(", ".join([tr(words.STAGE_WORDS[client.stage]), *client.tags]))
        self.links(
            (tr("Profile…"), lambda: open_form.profile(self.bench, self.window())),
            (tr("Record…"), lambda: open_form.record(self.bench, self.window())),
        )
