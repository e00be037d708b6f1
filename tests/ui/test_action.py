from __future__ import annotations

from app.ui import action
from app.ui.bench import Bench


def test_commands_ask_what_is_open(bench: Bench, empty_bench: Bench) -> None:
    assert action.always(empty_bench)
    assert action.client_open(bench)
    assert action.program_open(bench)
    assert not action.client_open(empty_bench)
    assert not action.program_open(empty_bench)


def test_commands_on_cards_ask_how_many_are_selected(bench: Bench) -> None:
    slots = tuple(slot.id for slot in bench.desk.program.weeks[0].slots())
    assert not action.any_card(bench)
    bench.select(slots[:1])
    assert action.one_card(bench)
    bench.select(slots[:2])
    assert action.any_card(bench)
    assert not action.one_card(bench)


def test_commands_on_chosen_weeks_ask_for_them(bench: Bench) -> None:
    assert not action.weeks_chosen(bench)
    bench.chosen = range(1, 3)
    assert action.weeks_chosen(bench)
