"""What the answers of an intake form change about a client.

What cannot be read is named and left out; nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date

from app.domain.client import Client, Consent, FreeTime, Goal, Screening, Sex
from app.domain.errors import CoachError
from app.domain.exercise import Equipment, Muscle
from app.domain.intake_questions import (
    AGREED,
    CONSENT,
    FORM,
    GOALS,
    HEALTH,
    PERSON,
    SEXES,
    TRAINING,
    Question,
)
from app.domain.muscle_groups import GROUPS
from app.domain.program import day_name, require_name
from app.domain.units import CM_PER_IN, KG_PER_LB, number_text
from app.domain.wording import mark, tr

ALARMS = ("known_disease", "symptoms", "pregnant")
"""Questions whose yes asks for a practitioner first."""

Answers = Mapping[str, str]
"""What stands in each field of a form, by its name; a tick is any text."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a form changes: the client's field, and what was and would be in words."""

    field: str
    what: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Taken:
    """What a form says of a client.

    client: as the form would make it; lines: what changes; open: what the coach has to ask or
    look at: answers that cannot be read, and what no form can decide.
    """

    client: Client
    lines: tuple[Change, ...]
    open: tuple[str, ...]

    def only(self, chosen: Collection[str], client: Client) -> Client:
        """`client` with the chosen fields as the form has them, all others as they are."""
        return replace(
            client,
            **{
                one.field: getattr(self.client, one.field)
                for one in self.lines
                if one.field in chosen
            },
        )


def take(answers: Answers, client: Client, *, today: date) -> Taken:
    """What the answers change about a client. Nothing is changed by what was left empty."""
    reader = _Reader(answers, today)
    changed = reader.person(client)
    changed = reader.training(changed)
    changed = reader.agreed(reader.health(changed))
    return Taken(changed, tuple(_lines(client, changed)), tuple(reader.open))


class _Reader:
    """Reads one form; what cannot be read is gathered in `open`."""

    def __init__(self, answers: Answers, today: date) -> None:
        self.answers = {key: " ".join(text.split()) for key, text in answers.items()}
        self.today = today
        self.open: list[str] = []

    def _text(self, key: str) -> str:
        return self.answers.get(key, "")

    def doubt(self, question: Question, text: str, why: str) -> None:
        """Note an answer that was left out."""
        self.open.append(
            tr(
                "{question}: “{answer}” was left out. {why}",
                question=tr(question.text),
                answer=text[:60],
                why=why,
            )
        )

    def one(self, question: Question) -> str:
        """The key of the one choice that is ticked; nothing for none; two are a doubt."""
        ticked = [key for key, _ in question.choices if self._text(f"{question.key}.{key}")]
        if len(ticked) > 1:
            words = dict(question.choices)
            answer = ", ".join(tr(words[key]) for key in ticked)
            self.doubt(question, answer, tr("More than one is ticked."))
            return ""
        return ticked[0] if ticked else ""

    def any(self, question: Question) -> tuple[str, ...]:
        """The keys of all choices that are ticked."""
        return tuple(key for key, _ in question.choices if self._text(f"{question.key}.{key}"))

    def number(self, question: Question, field: str = "", *, each: float = 1.0) -> float | None:
        """The number in a field; None for an empty one or one that cannot be."""
        text = self._text(field or f"{question.key}.value")
        if not text:
            return None
        try:
            value = float(text.replace(",", ".")) * each
        except ValueError:
            self.doubt(question, text, tr("It is not a number."))
            return None
        if not question.low <= value <= question.high:
            low, high = (number_text(edge / each) for edge in (question.low, question.high))
            self.doubt(question, text, tr("It is not from {low} to {high}.", low=low, high=high))
            return None
        return value

    def day(self, question: Question) -> date | None:
        """The date in the three boxes; None for empty ones or a day that there is not."""
        parts = [self._text(field) for field in question.fields]
        if not any(parts):
            return None
        try:
            day, month, year = map(int, parts)
            found = date(year, month, day)
        except ValueError:
            self.doubt(question, ". ".join(parts), tr("There is no such day."))
            return None
        if found > self.today:
            self.doubt(question, found.isoformat(), tr("It is in the future."))
            return None
        return found

    # -- the parts of the form -----------------------------------------------------------------

    def person(self, client: Client) -> Client:
        """Who it is."""
        name, contact, born, sex, height, mass = PERSON
        found_sex = self.one(sex)
        found_born = self.day(born)
        if found_born is not None and (self.today - found_born).days > 110 * 366:
            self.doubt(born, found_born.isoformat(), tr("It is more than 110 years ago."))
            found_born = None
        inches, pounds = self.one(height) == "in", self.one(mass) == "lb"
        height_cm = self.number(height, each=CM_PER_IN if inches else 1.0)
        mass_kg = self.number(mass, each=KG_PER_LB if pounds else 1.0)
        return replace(
            client,
            name=self._name(name) or client.name,
            contact=self._text(contact.key) or client.contact,
            born=found_born or client.born,
            sex=Sex(found_sex) if found_sex else client.sex,
            height_cm=client.height_cm if height_cm is None else round(height_cm, 1),
            mass_kg=client.mass_kg if mass_kg is None else round(mass_kg, 2),
            units="lb" if pounds else client.units,
        )

    def _name(self, question: Question) -> str:
        text = self._text(question.key)
        try:
            return require_name(text, "client") if text else ""
        except CoachError as error:
            self.doubt(question, text, error.sentence)
            return ""

    def training(self, client: Client) -> Client:
        """What for, when and with what."""
        years, goal, muscles, minutes, equipment, likes, dislikes = TRAINING
        found_years, found_goal = self.number(years), self.one(goal)
        things = self.any(equipment)
        for question in (likes, dislikes):
            if text := self._text(question.key):
                self.open.append(
                    tr(
                        "{question}: {answer}. Choose them in the profile.",
                        question=tr(question.text),
                        answer=text,
                    )
                )
        return replace(
            client,
            trained_years=client.trained_years if found_years is None else found_years,
            goal=Goal(found_goal) if found_goal else client.goal,
            emphasis=self._emphasis(muscles) or client.emphasis,
            free=self._free(minutes, client),
            equipment=frozenset(map(Equipment, things)) | {Equipment.BODY}
            if things
            else client.equipment,
        )

    def _emphasis(self, question: Question) -> tuple[Muscle, ...]:
        ranked: list[tuple[float, int, tuple[Muscle, ...]]] = []
        by_key = {group.key: group for group in GROUPS}
        for number, (key, word) in enumerate(question.choices):
            text = self._text(f"{question.key}.{key}")
            if not text:
                continue
            try:
                place = float(text)
            except ValueError:
                self.doubt(question, f"{word}: {text}", tr("Write 1, 2 or 3."))
                continue
            ranked.append((place, number, by_key[key].muscles))
        return tuple(muscle for _, _, muscles in sorted(ranked) for muscle in muscles)

    def _free(self, question: Question, client: Client) -> tuple[FreeTime, ...]:
        found = [self.number(question, field) for field in question.fields]
        if all(minutes is None for minutes in found):
            return client.free
        return tuple(
            old if minutes is None else replace(old, minutes=round(minutes))
            for old, minutes in zip(client.free, found, strict=True)
        )

    def health(self, client: Client) -> Client:
        """The screening: only whole, and never a limitation that nobody talked over."""
        *asked, pains = HEALTH
        if text := self._text(pains.key):
            self.open.append(
                tr(
                    "{question}: {answer}. Talk it over, and enter what is ruled out as "
                    "limitations.",
                    question=tr(pains.text),
                    answer=text,
                )
            )
            told = tr("From the intake form of {day}: {text}", day=self.today, text=text)
            if text not in client.note:
                client = replace(client, note=f"{client.note}\n{told}".strip())
        answers = {question.key: self.one(question) for question in asked}
        if not any(answers.values()):
            return client
        if not all(answers.values()):
            self.open.append(
                tr("The questions on health are not all answered. Ask before the first session.")
            )
            return self._alarmed(client, [q for q in asked if answers[q.key] == "yes"])
        said = {key: answer == "yes" for key, answer in answers.items()}
        screening = Screening(
            on=self.today,
            active=said["active"],
            known_disease=said["known_disease"],
            symptoms=said["symptoms"],
            pregnant=said["pregnant"],
            note=tr("From the intake form"),
        )
        last = client.latest_screening
        if last is not None and replace(last, note="", cleared_on=None) == replace(
            screening, note=""
        ):
            return client
        return replace(client, screenings=(*client.screenings, screening))

    def _alarmed(self, client: Client, yes: list[Question]) -> Client:
        """Half a screening is none, but a yes to an alarm comes first, and into the note."""
        alarms = [tr(question.text) for question in yes if question.key in ALARMS]
        if not alarms:
            return client
        said = tr("answered with yes: {questions}", questions=" ".join(alarms))
        self.open.insert(
            0,
            tr(
                "{said} No screening is made of half an answer: ask, and enter it yourself.",
                said=said[:1].upper() + said[1:],
            ),
        )
        if said in client.note:
            return client
        told = tr("From the intake form of {day}: {text}", day=self.today, text=said)
        return replace(client, note=f"{client.note}\n{told}".strip())

    def agreed(self, client: Client) -> Client:
        """What may be kept, if it was ticked."""
        tick, day = AGREED
        on = self.day(day)
        if not self.any(tick):
            return client
        if on is None:
            if client.consent is not None:
                return client
            on = self.today
        return replace(client, consent=Consent(on, tr(CONSENT)))


def _lines(before: Client, after: Client) -> list[Change]:
    """What differs, in words."""
    return [
        Change(field, tr(what), tell(before), tell(after))
        for field, what, tell in _TOLD
        if getattr(before, field) != getattr(after, field)
    ]


def _mass(client: Client) -> str:
    return "" if client.mass_kg is None else f"{number_text(client.mass_kg)} kg"


def _height(client: Client) -> str:
    return "" if client.height_cm is None else f"{number_text(client.height_cm)} cm"


def _screening(client: Client) -> str:
    last = client.latest_screening
    if last is None:
        return ""
    names = {question.key: tr(question.text) for question in HEALTH}
    said = [
        f"{names[key]} {tr('yes') if getattr(last, key) else tr('no')}"
        for key in ("active", "known_disease", "symptoms", "pregnant")
    ]
    return f"{last.on}: " + " ".join(said)


def _consent(client: Client) -> str:
    return "" if client.consent is None else client.consent.on.isoformat()


def _free(client: Client) -> str:
    return ", ".join(
        f"{day_name(day)[:3]} {time.minutes}"
        for day, time in enumerate(client.free)
        if time.minutes
    )


_TOLD: tuple[tuple[str, str, Callable[[Client], str]], ...] = (
    ("name", mark("Name"), lambda c: c.name),
    ("contact", mark("Contact"), lambda c: c.contact),
    ("born", mark("Birth date"), lambda c: "" if c.born is None else c.born.isoformat()),
    (
        "sex",
        mark("Sex, for the equations"),
        lambda c: "" if c.sex is None else tr(dict(SEXES)[c.sex]),
    ),
    ("height_cm", mark("Stature"), _height),
    ("mass_kg", mark("Body mass"), _mass),
    ("units", mark("Loads shown in"), lambda c: c.units),
    ("trained_years", mark("Years of training"), lambda c: number_text(c.trained_years)),
    ("goal", mark("Trains for"), lambda c: tr(dict(GOALS)[c.goal])),
    (
        "emphasis",
        mark("Emphasis"),
        lambda c: ", ".join(muscle.value.replace("_", " ") for muscle in c.emphasis),
    ),
    ("free", mark("Minutes a day"), _free),
    (
        "equipment",
        mark("Equipment"),
        lambda c: ", ".join(thing.value.replace("_", " ") for thing in sorted(c.equipment)),
    ),
    ("screenings", mark("Screening"), _screening),
    ("consent", mark("Agreed to keep records"), _consent),
    ("note", mark("Note"), lambda c: c.note),
)


def require_form(answers: Answers) -> Answers:
    """`answers` itself, once they are known to come from this form. Raises CoachError."""
    found = answers.get("form", "")
    if found == FORM:
        return answers
    if found.startswith("weekloom intake"):
        raise CoachError(
            tr("The form is of another edition of Weekloom."),
            mend=tr("Print a new one, or enter the answers by hand."),
        )
    raise CoachError(
        tr("This PDF is no intake form."),
        mend=tr("Choose the file that came back from the client."),
    )
