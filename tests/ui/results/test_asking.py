"""Questions on results: about the day, about loads, and none twice that was called right."""

from __future__ import annotations

from datetime import timedelta

import pytest

from app.domain.log_sheet import Typed
from app.domain.results import Diary, SetDone
from app.ui.bench import Bench
from app.ui.results.asking import Asking
from app.ui.results.draft import Known, SlotDraft
from app.ui.results.meant import meant_weeks
from tests.ui.desks import START
from tests.ui.results.test_draft import done, drafted


class Heard:
    """An asking, and what it told of."""

    def __init__(self, bench: Bench) -> None:
        sessions = [one for week in meant_weeks(bench.desk) for one in week.sessions()]
        self.answers = 0
        self.multiplied: list[tuple[SlotDraft, float]] = []
        self.asking = Asking(
            sessions,
            START,
            answered=self.answered,
            multiply=lambda slot, factor: self.multiplied.append((slot, factor)),
        )

    def answered(self) -> None:
        self.answers += 1


@pytest.fixture
def heard(bench: Bench) -> Heard:
    return Heard(bench)


def test_nothing_typed_on_its_own_day_asks_nothing(heard: Heard, bench: Bench) -> None:
    assert heard.asking.about(drafted(bench, Diary()), Known(Diary(), bench.desk.program.id)) == []


def test_a_day_before_the_program_is_asked_about_until_it_is_called_right(
    heard: Heard, bench: Bench
) -> None:
    known = Known(Diary(), bench.desk.program.id)
    draft = drafted(bench, Diary())
    draft.on = START - timedelta(days=1)
    (question,) = heard.asking.about(draft, known)
    assert "before the program begins" in question.text
    question.right()
    assert heard.answers == 1
    assert heard.asking.about(draft, known) == []
    draft.on = START - timedelta(days=2)
    assert len(heard.asking.about(draft, known)) == 1, "another day is another question"


def test_another_session_with_results_on_the_day_is_named(heard: Heard, bench: Bench) -> None:
    own = drafted(bench, Diary())
    other = meant_weeks(bench.desk)[0].sessions()[1].session
    there = done(own, 0, SetDone(60.0, 10))
    slot = other.slots[0]
    elsewhere = type(there)(there.program, slot.id, slot.exercise, START, there.sets)
    diary = Diary(results=(there, elsewhere))
    draft = drafted(bench, diary, on=START)
    (question,) = heard.asking.about(draft, Known(diary, bench.desk.program.id))
    assert question.text == f"{other.title} has results on this day too. Is the day right?"


def test_loads_of_another_unit_offer_to_be_put_right(heard: Heard, bench: Bench) -> None:
    known = Known(Diary(), bench.desk.program.id)
    draft = drafted(bench, Diary())
    slot = draft.slots[0]
    load_kg = draft.meant.load_kg(slot.meant.slot)
    assert load_kg is not None
    slot.lines[0] = Typed(str(round(load_kg * 2.2046)), "10", "2")
    (question,) = heard.asking.about(draft, known)
    assert question.change is not None
    question.change()
    assert heard.multiplied[0][0] is slot
    assert heard.multiplied[0][1] == pytest.approx(0.4536, abs=1e-3)
    question.right()
    assert heard.asking.about(draft, known) == []
