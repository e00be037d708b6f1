"""What a drag carries, as mime data and back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QByteArray, QMimeData

from app.domain.exercise import ExerciseKey
from app.domain.program import SlotId
from app.ui.carry import MIME, Carried, from_mime, to_mime

CARRIED = st.builds(
    Carried,
    exercise=st.none() | st.text(max_size=20).map(ExerciseKey),
    slots=st.lists(st.integers(1, 10**9).map(SlotId), max_size=4).map(tuple),
    source=st.text(max_size=32),
    whole=st.booleans(),
)


@given(CARRIED)
def test_what_goes_in_comes_out(carried: Carried) -> None:
    assert from_mime(to_mime(carried)) == carried


def test_it_offers_nothing_that_another_program_would_take_as_text() -> None:
    assert to_mime(Carried(exercise=ExerciseKey("curl"))).formats() == [MIME]


def test_what_is_not_ours_is_nothing() -> None:
    mime = QMimeData()
    mime.setText("curl")
    assert from_mime(mime) is None


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"curl",
        b"\xff\xfe",
        b"[]",
        b"3",
        b"null",
        b"{}",
        b'{"exercise": null, "slots": 3, "source": ""}',
        b'{"exercise": null, "slots": ["x"], "source": ""}',
        b'{"exercise": null, "slots": [Infinity], "source": ""}',
        b'{"exercise": null, "slots": [NaN], "source": ""}',
    ],
)
def test_damaged_data_is_nothing(content: bytes) -> None:
    mime = QMimeData()
    mime.setData(MIME, QByteArray(content))
    assert from_mime(mime) is None


@given(st.binary(max_size=60))
def test_no_bytes_break_it(content: bytes) -> None:
    mime = QMimeData()
    mime.setData(MIME, QByteArray(content))
    assert from_mime(mime) is None or isinstance(from_mime(mime), Carried)
