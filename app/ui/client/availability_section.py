"""When the client can train, and with what."""

from __future__ import annotations

from dataclasses import replace

from app.domain.client import Client
from app.domain.exercise import Equipment, equipment_name
from app.domain.program import day_name
from app.domain.wording import mark, tr
from app.ui import words
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.client.pictures import DayBars
from app.ui.client.section import Section


class AvailabilitySection(Section):
    """Minutes by weekday as bars, and the equipment in a line."""

    word = mark("Availability")

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.days = DayBars()

    def fill(self, client: Client) -> None:
        """Show the days and name the equipment."""
        self.head(tr("Availability"), tr("minutes a day"))
        self.days = DayBars()
        if any(time.minutes for time in client.free):
            self.column.addWidget(self.days)
        else:
            self.line(tr("No days entered. Until then no session is too long."))
        self.line(equipment_line(client), quiet=False)
        for place in client.places:
            days = [
                day_name(d)[:3] for d, time in enumerate(client.free) if time.place == place.name
            ]
            when = ", ".join(days) if days else tr("no day yet")
            self.line(
                tr(
                    "{place} ({days}): {things}",
                    place=place.name,
                    days=when,
                    things=equipment_line(replace(client, equipment=place.equipment)),
                )
            )
        self.links(
            (tr("Days…"), lambda: open_form.days(self.bench, self.window())),
            (tr("Equipment…"), lambda: open_form.equipment(self.bench, self.window())),
            (tr("Wishes…"), lambda: open_form.wishes(self.bench, self.window())),
        )
        self.show_week()

    def show_week(self) -> None:
        """Darken the days that hold a session in the open week."""
        work, week = self.bench.desk.work, self.bench.open_week
        if work is not None:
            used = frozenset(day for day, s in week.sessions() if s.slots) if week else frozenset()
            self.days.show_days(work.client.free, used)


def equipment_line(client: Client) -> str:
    """'Barbell and plates to 1.25 kg, dumbbells to 30 kg, bench, box', or what to do."""
    things = [e for e in Equipment if e in client.equipment and e is not Equipment.BODY]
    if not things:
        return tr("Own weight only. Enter the equipment in reach.")
    names = []
    for thing in things:
        name = equipment_name(thing)
        if thing is Equipment.BARBELL and client.increments.plates_kg:
            least = words.number(min(client.increments.plates_kg), places=2)
            name = tr("barbell, plates from {least} kg", least=least)
        elif thing is Equipment.DUMBBELLS:
            name = tr(
                "dumbbells to {dumbbells_kg} kg",
                dumbbells_kg=words.number(client.increments.dumbbells_kg[2]),
            )
        names.append(name)
    text = ", ".join(names)
    return text[:1].upper() + text[1:]
