"""No published figure is left unanswered, and the command that prints them all works."""

from __future__ import annotations

from tests.literature.__main__ import all_answers, main
from tests.literature.table import all_rows


def test_every_topic_of_the_table_is_answered():
    assert {row.topic for row in all_rows()} == set(all_answers())


def test_the_table_is_long_enough_and_its_ids_are_unique():
    ids = [row.id for row in all_rows()]
    assert len(ids) >= 150
    assert len(set(ids)) == len(ids)


def test_every_row_names_its_source_and_how_it_was_read():
    assert all(row.source for row in all_rows())
    assert {row.status for row in all_rows()} == {"seen", "seen-secondary", "memory"}


def test_the_command_prints_topic_source_expected_and_got(capsys):
    assert main(["plates"]) == 0
    printed = capsys.readouterr().out
    assert "25 + 15 per side" in printed
    assert "4 figures, 4 as published, 0 not." in printed


def test_the_command_fails_where_a_row_is_wrong(monkeypatch, capsys):
    monkeypatch.setattr("tests.literature.__main__.all_answers", dict)
    assert main(["plates"]) == 1
    assert "WRONG" in capsys.readouterr().out
