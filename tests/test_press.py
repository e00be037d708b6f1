"""From an issue to its booklet: what the pages draw on, and the bytes."""

from __future__ import annotations

import re
from copy import copy
from dataclasses import replace
from datetime import date
from gettext import GNUTranslations, NullTranslations
from typing import Any

import pytest

from app import booklet, press, resources
from app.booklet import Options, Paper
from app.booklet.content import Kind
from app.booklet.report import Report
from app.domain import energy
from app.domain.client import Client, EnergyGoal, Limitation, Screening, Side, StrengthTest
from app.domain.exercise import Activation, ExerciseKey, Joint, Motion, Muscle
from app.domain.ranges import Override
from app.domain.wording import speaking
from app.domain.work import Coach, Issue, IssueId
from app.off_desk import look_over
from app.resources import Reference
from app.resources.languages import PSEUDO, find_language
from tests import builders
from tests.booklet.reading_pdf import Printed

ON = date(2026, 10, 2)


def issue(**client_fields) -> Issue:
    """A small issue of shipped exercises for an adult whose figures are known."""
    tests = (StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5),)
    client: Client = builders.client(**{"tests": tests, **client_fields})
    program = builders.program("Mon: back_squat 3x10 core, leg_extension 3x12", times=2)
    return Issue(IssueId("i"), date(2026, 11, 25), Coach("Tavi Hellmark"), client, program, ())


OWN = {
    "estvik2020": Reference(
        "estvik2020",
        "Estvik 2020",
        {
            "id": "estvik2020",
            "type": "book",
            "title": "On ridges",
            "author": [{"family": "Estvik", "given": "Runa"}],
            "issued": {"date-parts": [[2020]]},
        },
    )
}


def content(one: Issue):
    return press.content_for(one, resources.catalogue(), resources.range_book())


def test_every_reference_has_a_short_form_and_a_full_one_with_its_year() -> None:
    cited = press.citations()
    shipped = resources.references()
    assert set(cited) == set(shipped)
    for key, citation in cited.items():
        assert citation.short == shipped[key].short
        issued: Any = shipped[key].csl["issued"]
        year = issued["date-parts"][0][0]
        assert str(year) in citation.text, key
        assert citation.text.strip() == citation.text


def test_references_are_formatted_once() -> None:
    assert press.citations() is press.citations()


@pytest.mark.parametrize(
    ("code", "said", "others"),
    [("de", "Verfügbar unter:", "und andere"), ("es-MX", "Disponible en:", "y otros")],
)
def test_references_are_written_in_the_language_that_is_spoken(
    code: str, said: str, others: str
) -> None:
    english = press.citations()
    with speaking(find_language(code)):
        spoken = press.citations()
    assert list(spoken) == list(english)
    for key, citation in english.items():
        assert spoken[key].short == citation.short
        assert ("Available at:" in citation.text) == (said in spoken[key].text), key
        assert ("and others" in citation.text) == (others in spoken[key].text), key
        assert "Available at" not in spoken[key].text


def test_own_references_are_formatted_beside_the_shipped_ones() -> None:
    cited = press.citations(OWN)
    assert cited["estvik2020"].short == "Estvik 2020"
    assert "Estvik" in cited["estvik2020"].text
    assert "On ridges" in cited["estvik2020"].text
    assert set(cited) == {*press.citations(), "estvik2020"}
    assert "estvik2020" not in press.citations()


def test_the_booklet_prints_what_own_exercises_and_own_ranges_rest_on() -> None:
    squat = resources.catalogue()[ExerciseKey("back_squat")]
    row = Activation(Muscle.GLUTEALS, 40, 50, "estvik2020")
    mine = replace(
        squat, key=ExerciseKey("ridge_squat"), name="Ridge squat", aliases=(), activation=(row,)
    )
    mine = replace(mine, easier=(), harder=(), own=True)
    catalogue = resources.catalogue().with_own((mine,))
    one = issue(emphasis=(Muscle.QUADRICEPS,))
    one = replace(one, program=builders.program("Mon: ridge_squat 3x10 core", times=2))
    for paper in (Paper.A4, Paper.A5):
        made = press.bind(
            one,
            catalogue,
            resources.range_book(),
            options=Options(paper=paper),
            references=OWN,
        )
        text = " ".join(Printed(made).whole.split())
        assert "On ridges" in text
        assert "which muscles work, page" in text
        plain = press.bind(one, catalogue, resources.range_book(), options=Options(paper=paper))
        assert "On ridges" not in Printed(plain).whole
    ranges, who = resources.range_book(), issue().client
    shipped = ranges.find("weekly_sets", who.status, goal=who.goal, kind="emphasised", week=1)
    assert shipped is not None
    own = Override(
        replace(shipped, own=True, source="estvik2020"), "Mette Aas", date(2026, 11, 1), "seen"
    )
    made = press.bind(issue(), resources.catalogue(), ranges.with_own(own), references=OWN)
    assert "weekly sets, page" in " ".join(Printed(made).whole.split())
    assert "On ridges" in Printed(made).whole


def test_the_pages_draw_on_what_is_shipped() -> None:
    made = content(issue())
    assert made.fonts == resources.path_of("fonts")
    assert made.references is press.citations()
    assert set(made.muscles) == set(resources.muscle_names())
    assert made.poses == resources.poses()


def test_energy_is_said_only_where_a_goal_was_set() -> None:
    assert content(issue()).energy is None
    plan = content(issue(energy_goal=EnergyGoal.HOLD)).energy
    assert isinstance(plan, energy.EnergyPlan)
    assert len(plan.weeks) == 2


def test_who_must_be_referred_gets_no_numbers() -> None:
    refer = issue(energy_goal=EnergyGoal.LOSE, refer=("kidney disease",))
    assert isinstance(content(refer).energy, energy.Referral)


def printed(one: Issue) -> str:
    return Printed(press.bind(one, resources.catalogue(), resources.range_book())).whole


@pytest.mark.parametrize("goal", EnergyGoal)
def test_no_page_tells_anybody_to_eat_less_than_a_body_uses_at_rest(goal: EnergyGoal) -> None:
    # resting 1,402 (mifflin1990), in whole tens 1,410
    text = printed(issue(energy_goal=goal, kcal_now=1200.0))
    told = [
        int(figure.replace(",", "")) for figure in re.findall(r"([\d,]+) kcal \d+ g protein", text)
    ]
    assert len(told) == 2
    assert min(told) >= 1402
    assert "1,200 kcal eaten now lies below the resting energy" in text


@pytest.mark.parametrize(
    "changed",
    [
        {"kcal_now": 600.0},
        {"screenings": ()},
        {"screenings": (Screening(ON, True, False, True),)},
        {"screenings": (Screening(ON, True, True, False, False, ON),)},
        {"mass_kg": 54.5},
    ],
    ids=["starved", "not screened", "symptoms", "disease", "light"],
)
def test_who_is_sent_on_finds_no_number_on_any_page(changed: dict[str, Any]) -> None:
    text = printed(issue(energy_goal=EnergyGoal.LOSE, **changed))
    assert "Ask your doctor or a dietitian" in text
    assert "kcal" not in text


def test_missing_figures_leave_energy_out() -> None:
    assert content(issue(energy_goal=EnergyGoal.HOLD, mass_kg=None)).energy is None


@pytest.mark.parametrize("options", [None, Options(weeks=(2, 2), grey=True)])
def test_an_issue_is_bound_to_pdf_bytes(options: Options | None) -> None:
    made = press.bind(issue(), resources.catalogue(), resources.range_book(), options=options)
    assert made.startswith(b"%PDF-")
    assert made.rstrip().endswith(b"%%EOF")


def test_binding_the_same_issue_twice_gives_the_same_bytes() -> None:
    one = issue()
    first, second = (
        press.bind(replace(one), resources.catalogue(), resources.range_book()) for _ in range(2)
    )
    assert first == second


def test_a_findings_report_cites_its_sources_in_full() -> None:
    one = issue()
    found = look_over(one.client, one.program, catalogue=resources.catalogue())
    cited = next(f.source for f in found.findings if f.source in press.citations())
    report = Report(one.client, one.program, found.findings, one.on)
    text = Printed(press.print_report(report)).whole
    full = press.citations()[cited].text
    assert full[:40] in text


class Shouting(NullTranslations):
    """Puts QQ before what there is no translation of."""

    def gettext(self, message: str) -> str:
        return f"QQ {message}"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"QQ {msgid1}"


def full_issue() -> Issue:
    """An issue on which most pages of a booklet have something to say."""
    return issue(
        energy_goal=EnergyGoal.GAIN,
        kcal_now=2100,
        emphasis=(Muscle.GLUTEALS,),
        screenings=(Screening(date(2026, 11, 1), True, True, False, cleared_on=ON),),
        limitations=(Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, 90),),
    )


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("code", ["de", "es"])
def test_nothing_that_is_printed_lacks_its_translation(code: str, kind: Kind) -> None:
    spoken = find_language(code)
    assert isinstance(spoken.catalogue, GNUTranslations)
    found = copy(spoken.catalogue)
    found.add_fallback(Shouting())
    one = full_issue()
    with speaking(replace(spoken, catalogue=found)):
        text = Printed(booklet.make(one, content(one), Options(kind=kind))).whole
    assert [text[at.start() : at.start() + 60] for at in re.finditer("QQ", text)] == []


@pytest.mark.parametrize(
    ("code", "title", "number"),
    [("de", "Bevor Sie beginnen", "0,4"), ("es", "Antes de empezar", "0,4")],
)
def test_a_booklet_speaks_the_clients_language(code: str, title: str, number: str) -> None:
    one = issue(language=code)
    made = press.bind(one, resources.catalogue(), resources.range_book())
    assert f"/Lang ({code})".encode() in made
    printed_text = Printed(made).whole
    assert title in printed_text
    assert "Before you begin" not in printed_text


def test_a_booklet_can_be_bound_in_another_language_than_the_clients() -> None:
    one = issue(language="de")
    made = press.bind(one, resources.catalogue(), resources.range_book(), language="")
    assert "Before you begin" in Printed(made).whole


def test_the_pseudo_language_leaves_no_english_word_on_any_page() -> None:
    one = full_issue()
    made = press.bind(one, resources.catalogue(), resources.range_book(), language=PSEUDO)
    data = {one.client.name, one.program.name, one.coach.name, "kcal"}
    data |= {block.name for block in one.program.blocks}
    data |= {s.title for week in one.program.weeks for _, s in week.sessions()}
    for exercise in resources.catalogue():
        data.add(exercise.name)
        data |= {*exercise.set_up, *exercise.cues}
        data |= {text for fault in exercise.faults for text in (fault.notice, fault.remedy)}
    for citation in press.citations().values():
        data |= {citation.short, citation.text}
    known = {word for text in data for word in re.findall(r"[A-Za-z]+", text)}
    words = re.findall(r"(?<![\w'])[A-Za-z]{3,}(?!\w)", Printed(made).whole)
    assert {word for word in words if re.search("[aeiou]", word)} - known == set()


def test_an_exercise_says_where_its_words_are_in_english() -> None:
    shipped = resources.catalogue()
    added = replace(shipped[ExerciseKey("leg_extension")], key=ExerciseKey("added"), name="Added")
    program = builders.program("Mon: back_squat 3x10 core, added 3x12", times=2)
    one = replace(issue(language="de"), program=program)
    text = Printed(press.bind(one, shipped.with_own((added,)), resources.range_book())).whole
    assert "Kniebeuge mit Langhantel" in text
    assert text.count("Anleitung auf Englisch") == 1
    assert "instructions in English" not in printed(issue())
