"""The account a number gives of itself."""

from __future__ import annotations

from app import resources
from app.domain import working
from app.domain.client import StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.loads import one_rep_max_of
from tests import builders


def test_what_stands_for_a_missing_source_is_no_key_of_a_reference() -> None:
    assert working.UNSOURCED == ("common practice", "value from memory")
    assert not set(working.UNSOURCED) & set(resources.references())


def test_a_real_account_has_a_title_lines_and_sources_that_can_be_looked_up() -> None:
    squat = ExerciseKey("back_squat")
    test = StrengthTest(squat, builders.START, 90, 5)
    estimate = one_rep_max_of(builders.CATALOGUE[squat], builders.client(tests=(test,)))
    account = estimate.working()
    assert isinstance(account, working.Working)
    assert account.title
    assert all(line.label and line.value for line in account.lines)
    known = {*resources.references(), *working.UNSOURCED}
    assert account.sources
    assert set(account.sources) <= known


def test_a_line_may_do_without_a_remark() -> None:
    assert working.Line("load", "90 kg") == working.Line("load", "90 kg", "")
