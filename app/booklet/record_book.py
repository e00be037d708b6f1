"""All that is held on one client on paper, for the person who asks for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from enum import StrEnum
from itertools import groupby
from pathlib import Path

from app.booklet.caution_page import MOTION_WORDS, joint_text
from app.booklet.content import Paper
from app.booklet.flow import Block, Ground, Heading, print_flow
from app.booklet.fonts import BODY, BODY_BOLD, CELL, LABEL, SECTION, Face, Faces, Style, open_faces
from app.booklet.words import (
    DOT,
    effort_text,
    full_day_text,
    mass_number,
    number_of_reps,
    rest_text,
)
from app.domain.client import (
    Client,
    EnergyGoal,
    FreeTime,
    Goal,
    Limitation,
    Screening,
    Sex,
    Stage,
    Status,
    StrengthTest,
)
from app.domain.exercise import Catalogue, Equipment, ExerciseKey
from app.domain.holding import Holding
from app.domain.muscle_groups import muscle_name
from app.domain.program import DAYS, Program, Slot
from app.domain.results import CheckIn, Site, SlotResult
from app.domain.units import kcal_text, mass_text, number_text
from app.domain.wording import mark, mid_sentence, tr, trn
from app.domain.work import Issue

MOST_EDITS = 200
"""Lines of the list of edits that are printed; the JSON beside the PDF has all of them."""


def make_record_book(
    holding: Holding, catalogue: Catalogue, *, fonts: Path, paper: Paper = Paper.A4
) -> bytes:
    """The pages as a PDF; the same holding gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    ground = Ground(open_faces(fonts), paper)
    heading = Heading(
        tr("All that is held on you"),
        full_day_text(holding.on),
        _printable(ground.faces, holding.client.name, LABEL.face),
        subject=tr("All that is held on one client"),
        author=holding.coach.name,
    )
    return print_flow(ground, heading, _Book(holding, catalogue, ground).blocks())


class _Book:
    """Makes the blocks, section by section."""

    def __init__(self, holding: Holding, catalogue: Catalogue, ground: Ground) -> None:
        self.holding, self.ground = holding, ground
        self.units = holding.client.units
        self.catalogue = catalogue.with_own(holding.exercises)

    def blocks(self) -> Iterator[Block]:
        """All pages, from the profile to the list of edits."""
        yield self._about()
        yield self._heading(tr("Profile"))
        profile = [
            (word, _printable(self.ground.faces, text, BODY.face))
            for word, text in _profile(self.holding.client)
        ]
        yield self.ground.facts(profile, indent_mm=44.0)
        yield from self._person()
        for program in self.holding.programs:
            yield from self._program(program)
        yield from self._diary()
        yield from self._issues()
        yield from self._edits()

    def _paragraph(self, text: str, style: Style = BODY, *, after_mm: float = 2.0) -> Block:
        shown = _printable(self.ground.faces, text, style.face)
        return self.ground.paragraph(shown, style, after_mm=after_mm)

    def _heading(self, text: str, rest: str = "") -> Block:
        shown = _printable(self.ground.faces, text, SECTION.face)
        return self.ground.heading(shown, rest)

    def _about(self) -> Block:
        coach = DOT.join(p for p in (self.holding.coach.name, self.holding.coach.contact) if p)
        text = tr(
            "This is everything that your coach's file holds on you on this day. The same stands "
            "in person.json for other programs. Ask for a mend of what is wrong, or for erasure. A "
            "sign that the letters of this paper lack stands as a question mark."
        )
        return self._paragraph(f"{coach}. {text}" if coach else text, after_mm=4.0)

    def _listed(self, title: str, lines: Iterable[str]) -> Iterator[Block]:
        """A section of one line each; nothing where there are none."""
        found = list(lines)
        if found:
            yield self._heading(title, f"{len(found)}")
            yield from (self._paragraph(line, CELL, after_mm=0.8) for line in found)

    def _name(self, key: ExerciseKey) -> str:
        return self.catalogue[key].name if key in self.catalogue else str(key)

    # -- the person ------------------------------------------------------------------------

    def _person(self) -> Iterator[Block]:
        client = self.holding.client
        yield from self._listed(tr("Free for training"), _free(client.free))
        yield from self._listed(tr("Limitations"), map(_limitation, client.limitations))
        yield from self._listed(tr("Screenings"), map(_screening, client.screenings))
        yield from self._listed(tr("Strength tests"), map(self._test, client.tests))
        wishes = [tr("likes {name}", name=self._name(key)) for key in sorted(client.likes)]
        wishes += [tr("dislikes {name}", name=self._name(key)) for key in sorted(client.dislikes)]
        yield from self._listed(tr("Likes and dislikes"), wishes)
        if client.note:
            yield self._heading(tr("Notes of the coach"))
            yield self._paragraph(client.note)

    def _test(self, test: StrengthTest) -> str:
        parts = [
            full_day_text(test.on),
            self._name(test.exercise),
            tr(
                "{load} for {reps} repetitions, {rir} in reserve",
                load=mass_text(test.load_kg, self.units),
                reps=test.reps,
                rir=number_text(test.rir),
            ),
        ]
        if test.guessed_from is not None:
            parts.append(tr("guessed from {name}", name=self._name(test.guessed_from)))
        return DOT.join([*parts, test.note] if test.note else parts)

    # -- programs --------------------------------------------------------------------------

    def _program(self, program: Program) -> Iterator[Block]:
        weeks = trn("{n} week", "{n} weeks", len(program.weeks))
        yield self._heading(program.name, DOT.join((full_day_text(program.start), weeks)))
        for number, week in enumerate(program.weeks, 1):
            word = tr("Week {number}, light", number=number) if week.light else ""
            head = word or tr("Week {number}", number=number)
            lead = self._paragraph(DOT.join(p for p in (head, week.note) if p), BODY_BOLD)
            yield Block(lead.height, lead.draw, leads=True)
            for day, content in zip(DAYS, week.days, strict=True):
                if content.note:
                    yield self._small(f"{tr(day)}: {content.note}")
                for session in content.sessions:
                    slots = "; ".join(self._slot(slot) for slot in session.slots)
                    title = DOT.join(p for p in (tr(day), session.title, session.note) if p)
                    yield self._small(f"{title}: {slots}")

    def _small(self, text: str) -> Block:
        return self._paragraph(text, CELL, after_mm=0.8)

    def _slot(self, slot: Slot) -> str:
        line = f"{self._name(slot.exercise)} {self._dose(slot)}"
        return f"{line} ({slot.note})" if slot.note else line

    def _dose(self, slot: Slot) -> str:
        """Sets, repetitions, effort, rest, tempo, and the load where it was set by hand."""
        timed = slot.exercise in self.catalogue and self.catalogue[slot.exercise].timed
        parts = [
            f"{slot.sets} × {number_of_reps(slot.reps)}{' s' if timed else ''}",
            " ".join(part for part in effort_text(slot.effort, slot.reps) if part),
            tr("rest {time}", time=rest_text(slot.rest_s)),
        ]
        if slot.tempo:
            parts.append(tr("tempo {tempo}", tempo=slot.tempo))
        if slot.load_kg is not None:
            parts.append(mass_text(slot.load_kg, self.units))
        return ", ".join(parts)

    # -- what was done ---------------------------------------------------------------------

    def _diary(self) -> Iterator[Block]:
        diary = self.holding.diary
        yield from self._listed(
            tr("Check-ins"), (_check_in(one, self.units) for one in diary.check_ins)
        )
        if diary.results:
            yield self._heading(tr("Results"), f"{len(diary.results)}")
        for on, group in groupby(diary.results, key=lambda one: one.on):
            done = "; ".join(self._result(one) for one in group)
            yield self._small(f"{full_day_text(on)}: {done}")

    def _result(self, result: SlotResult) -> str:
        sets = ", ".join(
            tr("{load} x {reps}", load=mass_number(one.load_kg, self.units), reps=one.reps)
            + ("" if one.rir is None else tr(" RIR {rir}", rir=number_text(one.rir)))
            for one in result.sets
        )
        said = f"{self._name(result.exercise)} {sets or tr('left out')}"
        return f"{said} ({result.note})" if result.note else said

    # -- what was handed out and noted -------------------------------------------------------

    def _issues(self) -> Iterator[Block]:
        yield from self._listed(tr("Booklets handed out"), map(_issue, self.holding.issues))

    def _edits(self) -> Iterator[Block]:
        edits = self.holding.edits
        if not edits:
            return
        yield self._heading(tr("List of edits"), f"{len(edits)}")
        if len(edits) > MOST_EDITS:
            text = tr("The last {n}; person.json has all of them.", n=MOST_EDITS)
            yield self._paragraph(text, BODY)
        for edit in edits[-MOST_EDITS:]:
            yield self._small(f"{edit.at:%Y-%m-%d %H:%M}{DOT}{edit.label}")


_SEXES = {
    Sex.FEMALE: mark("female"),
    Sex.MALE: mark("male"),
    Sex.AVERAGE: mark("the mean of both"),
}


SPOKEN = (Status, Goal, Stage, EnergyGoal, Equipment, Site)
"""The closed sets whose values are read as words."""

_WORDS = (
    mark("novice"),
    mark("intermediate"),
    mark("advanced"),
    mark("hypertrophy"),
    mark("enquiry"),
    mark("paused"),
    mark("ended"),
    mark("neck"),
    mark("hips"),
    mark("upper arm"),
    mark("thigh"),
)
"""Their values that no other paper says, so that translators find them."""


def _word(value: StrEnum) -> str:
    """The word of one of a closed set, as it is read."""
    return tr(value.value.replace("_", " "))


def _printable(faces: Faces, text: str, face: Face) -> str:
    """The text with a question mark for each letter that no font has: nobody's copy may fail."""
    for letter in faces.missing(text, face):
        text = text.replace(letter, "?")
    return text


def _profile(client: Client) -> list[tuple[str, str]]:
    said: list[tuple[str, object]] = [
        (tr("Name"), client.name),
        (tr("Born"), _day(client.born)),
        (tr("Sex in the equations"), "" if client.sex is None else tr(_SEXES[client.sex])),
        (tr("Stature"), _with_unit(client.height_cm, "cm")),
        (
            tr("Body mass"),
            "" if client.mass_kg is None else mass_text(client.mass_kg, client.units),
        ),
        (
            tr("Fat-free mass"),
            "" if client.fat_free_kg is None else mass_text(client.fat_free_kg, client.units),
        ),
        (tr("Training status"), _word(client.status)),
        (tr("Goal"), _word(client.goal)),
        (tr("Years of training"), number_text(client.trained_years)),
        (tr("Stage"), _word(client.stage)),
        (tr("Team"), client.team),
        (tr("Contact"), client.contact),
        (tr("Tags"), ", ".join(client.tags)),
        (tr("Emphasis"), ", ".join(mid_sentence(muscle_name(m)) for m in client.emphasis)),
        (tr("Equipment"), ", ".join(sorted(map(_word, client.equipment)))),
        (tr("Places"), ", ".join(place.name for place in client.places)),
        (tr("Energy eaten now"), "" if client.kcal_now is None else kcal_text(client.kcal_now)),
        (tr("Energy goal"), "" if client.energy_goal is None else _word(client.energy_goal)),
        (tr("Activity level"), number_text(client.activity_level, 2)),
        (tr("To a practitioner for"), ", ".join(client.refer)),
        (tr("Consent"), _consent(client)),
        (tr("Records kept until"), _day(client.keep_until)),
        (tr("Units"), client.units),
        (tr("Language of papers"), client.language),
        (tr("In the archive"), tr("yes") if client.archived else tr("no")),
    ]
    return [(word, str(text)) for word, text in said if text]


def _day(day: date | None) -> str:
    return "" if day is None else full_day_text(day)


def _mass(client: Client) -> str:
    return "" if client.mass_kg is None else mass_text(client.mass_kg, client.units)


def _with_unit(value: float | None, unit: str) -> str:
    return "" if value is None else f"{number_text(value)} {unit}"


def _consent(client: Client) -> str:
    if client.consent is None:
        return ""
    return DOT.join(p for p in (full_day_text(client.consent.on), client.consent.note) if p)


def _free(free: tuple[FreeTime, ...]) -> Iterator[str]:
    for day, time in zip(DAYS, free, strict=True):
        if time != FreeTime():
            minutes = trn("{n} minute", "{n} minutes", time.minutes)
            yield DOT.join(p for p in (tr(day), minutes, time.place, time.note) if p)


def _limitation(one: Limitation) -> str:
    joint = joint_text(one)
    parts = [f"{joint[:1].upper()}{joint[1:]}", tr(MOTION_WORDS[one.motion])]
    if one.past_degrees is not None:
        parts.append(tr("past {degrees} degrees", degrees=number_text(one.past_degrees)))
    if one.since is not None:
        parts.append(tr("from {day}", day=full_day_text(one.since)))
    if one.until is not None:
        parts.append(tr("until {day}", day=full_day_text(one.until)))
    return DOT.join([*parts, one.note] if one.note else parts)


def _screening(one: Screening) -> str:
    answers = (
        (tr("active"), one.active),
        (tr("known disease"), one.known_disease),
        (tr("symptoms"), one.symptoms),
        (tr("pregnant"), one.pregnant),
    )
    parts = [full_day_text(one.on)]
    parts += [
        tr("{question}: yes", question=q) if yes else tr("{question}: no", question=q)
        for q, yes in answers
    ]
    if one.cleared_on is not None:
        parts.append(tr("cleared on {day}", day=full_day_text(one.cleared_on)))
    return DOT.join([*parts, one.note] if one.note else parts)


def _check_in(one: CheckIn, units: str) -> str:
    parts = [full_day_text(one.on)]
    if one.mass_kg is not None:
        parts.append(mass_text(one.mass_kg, units))
    parts += [
        f"{word} {number_text(value, 2)}"
        for word, value in (
            (tr("kcal"), one.kcal),
            (tr("sleep"), one.sleep),
            (tr("soreness"), one.soreness),
            (tr("mood"), one.mood),
            (tr("stress"), one.stress),
            (tr("adherence"), one.adherence),
        )
        if value is not None
    ]
    parts += [f"{_word(girth.site)} {number_text(girth.cm)} cm" for girth in one.girths]
    parts += list(one.pictures)
    return DOT.join([*parts, one.note] if one.note else parts)


def _issue(issue: Issue) -> str:
    loads = trn("{n} load printed", "{n} loads printed", len(issue.loads))
    return DOT.join((full_day_text(issue.on), issue.program.name, loads))
