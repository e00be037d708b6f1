"""What a client wrote, as results: what is plain, what is doubtful, what is kept already."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError
from app.domain.form_names import SetPlace, What
from app.domain.form_results import FilledForm, Known, look_over, sets_text, strangers
from app.domain.results import Diary, SetDone
from app.domain.units import kg_from_lb
from app.domain.work import Coach, Issue, IssueId, PrintedLoad
from tests.builders import CATALOGUE, START, client, program

TODAY = START + timedelta(days=30)
PLAN = program("Tue: back_squat 3x5, plank 2x30, chin_up 2x6, curl 2x8", times=2)
WEEK = PLAN.weeks[0]
SESSION = WEEK.days[1].sessions[0]
SQUAT, PLANK, CHIN_UP, CURL = SESSION.slots
TUESDAY = START + timedelta(days=1)
LOADS = (PrintedLoad(SQUAT.id, 60.0), PrintedLoad(CHIN_UP.id, -20.0))
ISSUE = Issue(IssueId("i"), START, Coach("T"), client(), PLAN, LOADS)


def form(texts: dict[tuple, dict[What, str]], units: str = "kg", day: str = "") -> FilledForm:
    sets = {SetPlace(1, SESSION.id, slot.id, at): given for (slot, at), given in texts.items()}
    days = {(1, SESSION.id): day} if day else {}
    return FilledForm(IssueId("i"), units, sets, days)


def read(texts: dict[tuple, dict[What, str]], diary: Diary | None = None, **more):
    return look_over(form(texts, **more), ISSUE, CATALOGUE, diary or Diary(), today=TODAY)


def squat(load: str = "60", reps: str = "5", rir: str = "", **more):
    (line,) = read({(SQUAT, 1): {What.LOAD: load, What.REPS: reps, What.RIR: rir}}, **more)
    return line


def test_plain_figures_are_taken_without_a_doubt():
    line = squat("62.5", "5", "2")
    assert line.sure
    assert line.result.sets == (SetDone(62.5, 5, 2.0),)
    assert line.result.on == TUESDAY
    assert line.result.program == PLAN.id
    assert (line.result.slot, line.result.exercise) == (SQUAT.id, SQUAT.exercise)


@pytest.mark.parametrize("text", ["62,5", " 62.50 ", "62.5 kg", "62,5kg", "+62.5", "62.5KG."])
def test_commas_units_and_room_are_read_for_what_they_are(text: str):
    line = squat(text)
    assert line.sure
    assert line.result.sets[0].load_kg == 62.5


@pytest.mark.parametrize(
    ("load", "reps", "rir", "doubt"),
    [
        ("abc", "5", "", "'abc' is no number"),
        ("60", "abc", "", "'abc' is no number"),
        ("60", "8,5", "", "cannot be a number of repetitions"),
        ("60", "-3", "", "cannot be a number of repetitions"),
        ("99999", "5", "", "'99999' cannot be a load"),
        ("60", "99999", "", "cannot be a number of repetitions"),
        ("", "5", "", "60 kg was printed and is taken"),
        ("60", "", "", "no repetitions; the set is left out"),
        ("600", "5", "", "far from the printed 60 kg"),
        ("6", "5", "", "far from the printed 60 kg"),
        ("60", "5", "25", "cannot be a number of repetitions in reserve"),
        ("60", "5", "lots", "'lots' is no number"),
        ("130 lb", "5", "", "'130 lb' is read in lb"),
        ("1e9", "5", "", "is no number"),
        ("60 5", "5", "", "is no number"),
    ],
)
def test_nonsense_is_named_and_never_plain(load: str, reps: str, rir: str, doubt: str):
    line = squat(load, reps, rir)
    assert not line.sure
    assert any(doubt in said and "set 1" in said for said in line.doubts), line.doubts


def test_what_cannot_be_a_set_is_left_out_and_the_others_stay():
    texts = {
        (SQUAT, 1): {What.LOAD: "60", What.REPS: "5"},
        (SQUAT, 2): {What.LOAD: "60", What.REPS: "abc"},
        (SQUAT, 3): {What.LOAD: "55", What.REPS: "4", What.NOTE: "  slow \n today"},
    }
    (line,) = read(texts)
    assert line.result.sets == (SetDone(60, 5), SetDone(55, 4))
    assert line.result.note == "3: slow today"
    assert len(line.doubts) == 1


def test_pounds_are_read_as_pounds_where_the_form_asked_for_them():
    line = squat("135", units="lb")
    assert line.sure
    assert line.result.sets[0].load_kg == pytest.approx(kg_from_lb(135))


def test_own_weight_help_and_time_need_no_load():
    texts = {
        (PLANK, 1): {What.REPS: "45 s"},
        (CHIN_UP, 1): {What.REPS: "6"},
        (CHIN_UP, 2): {What.LOAD: "15", What.REPS: "6"},
    }
    plank, chin_up = read(texts)
    assert plank.sure
    assert plank.result.sets == (SetDone(0.0, 45),)
    assert [one.load_kg for one in chin_up.result.sets] == [-20.0, -15.0]
    assert "'15' is read as help" in chin_up.doubts[0]


def test_without_a_printed_or_written_load_the_set_is_left_out():
    (line,) = read({(CURL, 1): {What.REPS: "8"}})
    assert line.result.sets == ()
    assert "no load" in line.doubts[0]
    assert not line.says


@pytest.mark.parametrize(
    ("text", "day", "doubt"),
    [
        ("", TUESDAY, ""),
        ((TUESDAY + timedelta(days=1)).isoformat(), TUESDAY + timedelta(days=1), ""),
        (f"{TUESDAY.day}.{TUESDAY.month}.", TUESDAY, ""),
        (f"{TUESDAY.day}/{TUESDAY.month}/{TUESDAY.year}", TUESDAY, ""),
        (f"{TUESDAY.day}-{TUESDAY.month}-{TUESDAY:%y}", TUESDAY, ""),
        ("31.2.", TUESDAY, "is no day"),
        ("friday", TUESDAY, "is no day"),
        ((TODAY + timedelta(days=1)).isoformat(), TODAY + timedelta(days=1), "still to come"),
        ("2020-01-01", date(2020, 1, 1), "far from the planned day"),
    ],
)
def test_another_day_is_read_or_asked_about(text: str, day: date, doubt: str):
    line = squat(day=text)
    assert line.result.on == day
    assert line.sure is not bool(doubt)
    assert not doubt or doubt in line.doubts[0]


def test_read_twice_it_is_kept_already():
    line = squat()
    again = squat(diary=Diary(results=(line.result,)))
    assert again.known is Known.SAME
    assert not again.says
    assert not again.sure


def test_what_is_kept_in_other_words_is_named_and_never_plain():
    kept = replace(squat().result, sets=(SetDone(50, 5),))
    line = squat(diary=Diary(results=(kept,)))
    assert line.known is Known.OTHER
    assert line.says
    assert not line.sure
    assert "kept already as 50 kg × 5" in line.doubts
    moved = replace(squat().result, on=TUESDAY + timedelta(days=2))
    line = squat(diary=Diary(results=(moved,)))
    assert line.known is Known.OTHER
    assert moved.on.isoformat() in line.doubts[0]


def test_a_form_of_another_booklet_is_refused():
    other = replace(form({}), issue=IssueId("other"))
    with pytest.raises(CoachError, match="another booklet"):
        look_over(other, ISSUE, CATALOGUE, Diary(), today=TODAY)


def test_sets_that_the_booklet_does_not_have_are_counted_and_never_plain():
    sets = {
        SetPlace(1, SESSION.id, SQUAT.id, 4): {What.LOAD: "60", What.REPS: "5"},
        SetPlace(9, SESSION.id, SQUAT.id, 1): {What.LOAD: "60", What.REPS: "5"},
    }
    one = FilledForm(IssueId("i"), "kg", sets)
    assert strangers(one, ISSUE) == 2
    (line,) = look_over(one, ISSUE, CATALOGUE, Diary(), today=TODAY)
    assert "set 4 is not in the plan" in line.doubts
    assert not line.sure


@given(st.text(max_size=30), st.text(max_size=30), st.text(max_size=30), st.text(max_size=20))
def test_whatever_is_written_gives_lawful_results_or_doubts(load, reps, rir, day):
    texts = {(SQUAT, 1): {What.LOAD: load, What.REPS: reps, What.RIR: rir}}
    for line in read(texts, day=day):
        for done in line.result.sets:
            assert -300 <= done.load_kg <= 1000
            assert done.reps >= 0
        if line.sure:
            assert line.result.sets


@given(
    st.decimals(31, 119, places=2), st.integers(1, 100), st.one_of(st.none(), st.integers(0, 10))
)
def test_what_is_written_plainly_comes_back_exactly(load, reps, rir):
    for text in (str(load), str(load).replace(".", ",")):
        line = squat(text, str(reps), "" if rir is None else str(rir))
        assert line.result.sets == (SetDone(float(load), reps, rir),)
        assert line.sure


def test_sets_are_told_as_they_are_written_down():
    line = squat("60", "5", "2")
    assert sets_text(line.result) == "60 kg × 5, 2 in reserve"
