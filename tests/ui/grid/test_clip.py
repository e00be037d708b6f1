"""Slots on the clipboard and back."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray, QMimeData

from app.domain.exercise import ExerciseKey
from app.ui.grid import clip
from tests import builders

ROOT = Path(__file__).resolve().parents[3]

SLOTS = builders.session(
    "back_squat 4x8-10 RIR 1.5 rest 150 tempo 3-0-1-0 core 80kg pin load ramp 50%x5/60kgx2, "
    "curl 3x12 80% pair A, leg_curl 3x12 95%RM pair A ramp off"
).slots


def test_what_is_copied_is_pasted_with_all_its_fields(qapp):
    prepared = (ExerciseKey("leg_press"), ExerciseKey("goblet_squat"))
    first = replace(SLOTS[0], note="belt on, 'slow' & steady", prepared=prepared)
    slots = (first, *SLOTS[1:])
    back = clip.from_clipboard(clip.to_clipboard(slots, builders.CATALOGUE))
    assert [replace(b, id=s.id, strand=s.strand) for b, s in zip(back, slots, strict=True)] == list(
        slots
    )


def test_other_programs_get_lines_of_text(qapp):
    text = clip.to_clipboard(SLOTS, builders.CATALOGUE).text()
    assert text.split("\n")[1] == "Curl: 3 x 12, 80 % 1RM, rest 120 s"


COPY_AND_END = """
from PySide6.QtWidgets import QApplication
from app.ui.grid import clip
from tests import builders
app = QApplication([])
clip.put(builders.session("back_squat 4x8").slots, builders.CATALOGUE)
assert len(clip.from_clipboard(QApplication.clipboard().mimeData())) == 1
"""


def test_a_window_that_copied_ends_in_peace():
    done = subprocess.run(
        [sys.executable, "-c", COPY_AND_END],
        cwd=ROOT,
        check=False,
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    "change",
    [
        {"sets": 0},
        {"sets": "4"},
        {"sets": True},
        {"reps": [10, 8]},
        {"reps": [1, 2, 3]},
        {"effort": ["guess", 1]},
        {"role": "star"},
        {"pinned": 3},
        {"prepared": 3},
        {"prepared": ["back_squat"]},
        {"load_kg": "much"},
    ],
)
def test_damaged_data_is_nothing(qapp, change):
    mime = clip.to_clipboard(SLOTS[:1], builders.CATALOGUE)
    records = json.loads(bytes(mime.data(clip.MIME).data()))
    broken = QMimeData()
    broken.setData(clip.MIME, QByteArray(json.dumps([{**records[0], **change}]).encode()))
    assert clip.from_clipboard(broken) == ()


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b"null", b"\xff", b" " * 200_000])
def test_what_is_no_list_of_slots_is_nothing(qapp, content):
    mime = QMimeData()
    mime.setData(clip.MIME, QByteArray(content))
    assert clip.from_clipboard(mime) == ()


def test_text_of_others_is_nothing(qapp):
    mime = QMimeData()
    mime.setText("back squat 4 x 10")
    assert clip.from_clipboard(mime) == ()
    assert clip.from_clipboard(None) == ()
