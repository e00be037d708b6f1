"""The roster's table model, held to Qt's own rules, and its order."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt

from app.domain.client import ClientId
from app.domain.due import Standing
from app.ui.roster.finder import Wanted, entries
from app.ui.roster.model import RosterModel
from db.roster import RosterLine

TODAY = date(2026, 11, 25)
LINES = tuple(
    RosterLine(
        ClientId(f"c{n}"),
        name,
        "",
        "",
        None,
        (),
        0,
        Standing(screened=TODAY, tested=date(2026, 1, n + 1)),
    )
    for n, name in enumerate(("Tavi", "Aase & <b>Bo</b>", "Mette"))
)


@pytest.fixture
def model(qapp) -> RosterModel:
    made = RosterModel(TODAY)
    made.show_entries(entries(LINES, TODAY))
    return made


def names(model: RosterModel) -> list[str]:
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def test_it_keeps_the_rules_of_models(model: RosterModel, qtmodeltester) -> None:
    qtmodeltester.check(model)
    model.look_for(Wanted("mette"))
    qtmodeltester.check(model)


def test_rows_are_ordered_by_the_column_asked_for(model: RosterModel) -> None:
    assert names(model) == ["Aase & <b>Bo</b>", "Mette", "Tavi"]
    tested = next(k for k, column in enumerate(model.columns) if column.head == "Last test")
    model.sort(tested, Qt.SortOrder.DescendingOrder)
    assert names(model) == ["Mette", "Aase & <b>Bo</b>", "Tavi"]
    model.look_for(Wanted("a"))
    assert names(model) == ["Aase & <b>Bo</b>", "Tavi"], "the order stays while typing"


def test_a_row_is_found_by_its_client(model: RosterModel) -> None:
    assert model.entry(model.row_of(ClientId("c0"))).line.name == "Tavi"
    assert model.row_of(ClientId("nobody")) == -1
    assert model.row_of(None) == -1


def test_tips_are_never_markup_of_the_coachs(model: RosterModel) -> None:
    tip = model.index(0, 0).data(Qt.ItemDataRole.ToolTipRole)
    assert "&lt;b&gt;" in tip
    assert "No program yet" in model.index(0, 1).data(Qt.ItemDataRole.ToolTipRole)


def test_heads_are_named_and_nothing_else_has_any(model: RosterModel) -> None:
    heads = [model.headerData(k, Qt.Orientation.Horizontal) for k in range(model.columnCount())]
    assert heads[:3] == ["Client", "Next", "Stage"]
    assert model.headerData(0, Qt.Orientation.Vertical) is None
    assert model.data(model.index(-1, -1)) is None
