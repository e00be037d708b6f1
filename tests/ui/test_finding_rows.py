"""Rows of the findings list as values."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from app.domain.edits import fields, weeks
from app.domain.findings import Finding, Weight, edit
from app.ui.bench import Bench
from app.ui.finding_rows import Row, count_open, finding_rows, measured_text, source_text, spoken


def a_finding(bench: Bench, **changed: Any) -> Finding:
    return replace(bench.desk.findings[0], **changed)


def test_the_groups_run_from_what_is_tried_to_what_is_accepted(bench: Bench) -> None:
    desk = bench.desk
    light = next(f for f in desk.findings if f.weight is Weight.REMARK)
    desk.keep(edit("Accept", fields.accept, finding=light.id, reason="so"))
    preview = desk.preview(edit("Ordinary", weeks.make_ordinary, index=3))
    rows = finding_rows(desk, preview, None)
    groups = [row.group for row in rows]
    assert groups == sorted(groups)
    assert groups[0] == 0
    assert groups[-1] == 4
    assert rows[-1] == Row(light, rows[-1].state, "so")


def test_a_week_has_its_own_and_those_of_the_whole_program(bench: Bench) -> None:
    desk = bench.desk
    week = desk.program.weeks[1].id
    rows = finding_rows(desk, None, week)
    assert {row.finding.place.week for row in rows} <= {week, None}
    assert len(finding_rows(desk, None, None)) == len(desk.findings) > len(rows)


def test_what_would_appear_and_what_is_accepted_is_not_counted_as_open(bench: Bench) -> None:
    finding = bench.desk.findings[0]
    rows = [Row(finding), Row(finding, "would appear"), Row(finding, "", "so")]
    assert sum(count_open(rows).values()) == 1
    assert count_open([])[Weight.CONFLICT] == 0


def test_the_measure_is_said_beside_its_range(bench: Bench) -> None:
    found = next(f for f in bench.desk.findings if f.measured is not None and f.range is not None)
    assert measured_text(found) == (
        f"{found.measured:g}, range {found.range.text} {found.range.unit}"
    )
    assert measured_text(replace(found, measured=None)) == ""
    assert measured_text(replace(found, range=None)) == ""


def test_a_row_is_told_with_weight_sentence_place_measure_and_state(bench: Bench) -> None:
    found = next(f for f in bench.desk.findings if f.measured is not None and f.range is not None)
    told = spoken(bench, Row(found, "would go"))
    assert told.startswith(f"{found.weight.word}. {found.text}")
    for part in (found.place_text, measured_text(found), "would go"):
        assert part in told
    assert "accepted: asked for it" in spoken(bench, Row(found, "", "asked for it"))


def test_a_source_is_said_short_or_as_what_stands_in_its_place(bench: Bench) -> None:
    key, reference = next(iter(bench.shelf.references.items()))
    assert source_text(bench, a_finding(bench, source=key, range=None)) == reference.short
    practice = a_finding(bench, source="common practice", range=None)
    assert source_text(bench, practice) == "common practice"
    assert source_text(bench, a_finding(bench, source="", range=None)) == ""


def test_a_row_shows_the_same_only_for_the_same_finding_in_the_same_state(bench: Bench) -> None:
    finding = bench.desk.findings[0]
    assert Row(finding).shows_as(Row(finding))
    assert not Row(finding).shows_as(Row(finding, "would go"))
    assert not Row(finding).shows_as(Row(finding, "", "so"))
    assert not Row(finding).shows_as(Row(replace(finding)))
