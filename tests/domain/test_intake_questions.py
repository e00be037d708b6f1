from __future__ import annotations

from app.domain.intake_questions import MUSCLES, QUESTIONS, Kind
from app.domain.muscle_groups import GROUPS

FIELDS = [field for question in QUESTIONS for field in question.fields]


def test_every_field_has_a_name_of_its_own() -> None:
    assert len(set(FIELDS)) == len(FIELDS)


def test_every_kind_of_question_is_asked() -> None:
    assert {question.kind for question in QUESTIONS} == set(Kind)


def test_the_muscles_are_the_main_groups_of_the_tally() -> None:
    assert [key for key, _ in MUSCLES] == [group.key for group in GROUPS if group.main]
