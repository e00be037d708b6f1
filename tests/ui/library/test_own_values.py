"""What a coach types in the form, as values."""

from __future__ import annotations

import pytest

from app import resources
from app.domain.errors import CoachError, ResourceError
from app.ui.library import own_values

EVERY = resources.catalogue().exercises


@pytest.mark.parametrize(
    ("typed", "value"),
    [("12", 12), (" 12 ", 12), ("2,5", 2.5), ("2.5", 2.5), ("abc", "abc"), ("", ""), ("-3", -3)],
)
def test_a_number_is_read_with_point_or_comma(typed, value):
    assert own_values.number_of(typed) == value


def test_blank_lines_and_empty_names_are_left_out():
    assert own_values.lines_of(" a \n\n b\n") == ["a", "b"]
    assert own_values.names_of("one, , two ,") == ["one", "two"]


@pytest.mark.parametrize("one", EVERY[::7], ids=lambda one: one.key)
def test_what_is_shown_is_read_back(one):
    faults = own_values.faults_of(own_values.faults_text(one.faults))
    assert faults == [[fault.notice, fault.remedy] for fault in one.faults]
    lines = own_values.lines_of(own_values.reaches_text(one.reaches))
    assert len(lines) == len(one.reaches)


@pytest.mark.parametrize("line", ["no colon here", ": no notice", "no remedy:"])
def test_a_fault_without_its_other_half_says_how_to_write_it(line):
    with pytest.raises(CoachError, match="colon"):
        own_values.faults_of(line)


@pytest.mark.parametrize("typed", ["", "a lot", "29-", "1e3", "-5", "nan", "29-45-60"])
def test_an_amplitude_that_cannot_be_read_says_how_to_write_it(typed):
    with pytest.raises(CoachError, match="42 or 29-45"):
        own_values.amplitude_of(typed)


@pytest.mark.parametrize("dash", ["-", "\N{EN DASH}", " - "])
def test_a_range_may_have_any_dash(dash):
    assert own_values.amplitude_of(f"29{dash}45,5 %") == (29, 45.5)
    assert own_values.amplitude_of("42") == (42, 42)


def test_a_refusal_is_told_by_the_name_of_the_field():
    error = ResourceError("7 is above 3.", where="my_row, rep_low", mend="Swap the two.")
    assert own_values.said(error) == "Fewest repetitions: 7 is above 3. Swap the two."
    assert own_values.said(CoachError("No.", where="elsewhere")) == "elsewhere: No."


def test_every_field_of_the_files_has_a_label():
    from app.resources.exercise_entries import FIELDS

    assert set(own_values.LABELS) == set(FIELDS) - {"version"}
