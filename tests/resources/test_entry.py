"""Fields of an entry are read by kind, and refused with file, line, entry and field."""

from __future__ import annotations

import pytest

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle, Plane
from app.resources.entry import LONGEST_LINE, Entry, near

CONTENT = '[other]\nname = "x"\n\n[step_up]\nplane = "sagittal"\nskill = 2\n'


def entry(**values: object) -> Entry:
    return Entry("mine.toml", "step_up", values, CONTENT)


def test_an_error_names_file_line_entry_and_field() -> None:
    error = entry().error("skill", "It is wrong.", mend="Mend it.")
    assert error.sentence == "mine.toml, line 6, step_up, skill: It is wrong. Mend it."


def test_a_field_that_is_not_written_is_told_by_the_line_of_its_entry() -> None:
    assert "line 4, step_up, name" in entry().error("name", "It is missing.").sentence


def test_without_the_text_there_is_no_line() -> None:
    error = Entry("mine.json", "x", {}).error("name", "It is missing.")
    assert error.sentence == "mine.json, x, name: It is missing."


def test_a_near_word_is_offered() -> None:
    assert near("quadricep", [str(m) for m in Muscle]) == " Did you mean 'quadriceps'?"
    assert near("zzz", [str(m) for m in Muscle]) == ""


def test_an_unknown_field_is_refused_by_name() -> None:
    with pytest.raises(ResourceError, match=r"no field 'nmae'\. Did you mean 'name'"):
        entry(nmae="x").refuse_unknown(("name", "plane"))


def test_fields_are_read_by_kind() -> None:
    given = entry(name="Step-up", plane="frontal", skill=2, share=0.5, timed=True, rows=["a", "b"])
    assert given.words("name") == "Step-up"
    assert given.choice("plane", Plane) is Plane.FRONTAL
    assert given.integer("skill", 1, low=1, high=3) == 2
    assert given.number("share", 0, low=0, high=1) == 0.5
    assert given.flag("timed") is True
    assert given.lines("rows") == ("a", "b")


def test_absent_fields_take_their_default() -> None:
    assert entry().words("name", "-") == "-"
    assert entry().integer("skill", 1, low=1, high=3) == 1
    assert entry().flag("timed", False) is False
    assert entry().lines("rows") == ()
    assert entry().table("work") == {}


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (None, "missing"),
        (3, "3 is not text"),
        ("a <b>bold</b> name", "The character '<' is not allowed"),
        ("two\nlines", r"'\\n' is not allowed"),
        ("x" * (LONGEST_LINE + 1), f"{LONGEST_LINE + 1} characters is too long"),
    ],
)
def test_a_line_that_is_no_plain_text_is_refused(found: object, says: str) -> None:
    values = {} if found is None else {"name": found}
    with pytest.raises(ResourceError, match=says):
        Entry("mine.toml", "step_up", values).words("name")


@pytest.mark.parametrize("found", [0, 4, -1])
def test_a_number_outside_its_range_is_refused_with_the_range(found: int) -> None:
    with pytest.raises(ResourceError, match=f"{found} is outside 1 to 3"):
        entry(skill=found).integer("skill", 1, low=1, high=3)


@pytest.mark.parametrize("found", ["2", 2.5, True, [2]])
def test_what_is_no_whole_number_is_refused(found: object) -> None:
    with pytest.raises(ResourceError, match="is not a whole number"):
        entry(skill=found).integer("skill", 1, low=1, high=3)


@pytest.mark.parametrize("found", ["0.5", True, None, float("nan")])
def test_what_is_no_number_is_refused(found: object) -> None:
    with pytest.raises(ResourceError, match=r"is not a number|is outside"):
        entry().within("share", found, low=0, high=1)


def test_a_flag_a_list_and_a_table_are_refused_when_they_are_something_else() -> None:
    with pytest.raises(ResourceError, match="neither true nor false"):
        entry(timed="yes").flag("timed")
    with pytest.raises(ResourceError, match="is not a list"):
        entry(rows="a").lines("rows")
    with pytest.raises(ResourceError, match="is not a table"):
        entry(work=["a"]).table("work")


def test_a_word_outside_a_closed_set_is_refused_with_the_set() -> None:
    with pytest.raises(ResourceError) as caught:
        entry(plane="sagital").choice("plane", Plane)
    assert caught.value.sentence == (
        "mine.toml, line 5, step_up, plane: 'sagital' is not a plane. Did you mean 'sagittal'? "
        "Use one of sagittal, frontal, transverse."
    )
