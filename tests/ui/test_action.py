from __future__ import annotations

from app.domain.edits.fields import set_field
from app.domain.findings import edit
from app.domain.program import Field
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


def test_unpinning_asks_for_a_card_with_something_set_by_hand(bench: Bench) -> None:
    slot = next(iter(bench.desk.program.weeks[0].slots())).id
    bench.select((slot,))
    assert not action.pinned_card(bench)
    bench.keep(edit("Set", set_field, slot_id=slot, field=Field.REST, value=100))
    bench.select((slot,))
    assert action.pinned_card(bench)


def test_commands_are_parted_where_one_stands_apart() -> None:
    def command(name: str, *, apart: bool = False) -> action.Action:
        return action.Action(name, "Edit", name, lambda _: None, apart=apart)

    row = [command("a", apart=True), command("b"), command("c", apart=True)]
    assert action.parted(row) == (("a", "b"), ("c",))


def test_commands_on_chosen_weeks_ask_for_them(bench: Bench) -> None:
    assert not action.weeks_chosen(bench)
    bench.chosen = range(1, 3)
    assert action.weeks_chosen(bench)
