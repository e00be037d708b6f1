"""One row a block, read off the plan."""

from __future__ import annotations

from dataclasses import replace

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.block_table import block_row
from app.domain.exercise import Muscle
from app.domain.program import Block
from tests.booklet.sample import content, issue
from tests.builders import program


def rows(*weeks: str, blocks: tuple[Block, ...]):
    whole = replace(program(*weeks, emphasis=(Muscle.GLUTEALS,)), blocks=blocks)
    book = open_book(issue(whole), content(), Options())
    return [block_row(book, number) for number in range(len(blocks))]


def test_a_block_says_its_weeks_dates_reps_and_sets_with_light_ones_in_brackets():
    (row,) = rows(
        "Mon: hip_thrust 4x12 core",
        "Mon: hip_thrust 5x10 core",
        "light | Mon: hip_thrust 2x10 core",
        blocks=(Block("Settle", 3),),
    )
    assert row.weeks == "1–3"
    assert row.dates.replace("\u00a0", " ") == "23 Nov to 13 Dec"
    assert row.reps == "12 to 10"
    assert row.sets == "4–5"
    assert row.light == "2"


def test_what_changes_names_new_gone_and_fuller_exercises():
    _, row = rows(
        "Mon: hip_thrust 3x8 core, curl 3x8",
        "Mon: hip_thrust 4x8 core, plank 2x30",
        blocks=(Block("One", 1), Block("Two", 1)),
    )
    text = " ".join(row.changes)
    assert "New: Plank." in text
    assert "No longer: Curl." in text
    assert "More sets of Hip thrust." in text


def test_a_long_name_wraps_and_its_weeks_stand_below():
    (row,) = rows("Mon: curl 3x8", blocks=(Block("Building a base for the stretcher", 1),))
    assert row.apart
    assert " ".join(row.name) == "Building a base for the stretcher"
    assert row.height > 10
