"""What a command of the window is, and when it can be run."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from app.ui.bench import Bench
from app.ui.commands import Commands


def always(_: Bench) -> bool:
    """Whatever is open."""
    return True


def program_open(bench: Bench) -> bool:
    """A program is open."""
    return bench.desk.has_program


def client_open(bench: Bench) -> bool:
    """A client is open."""
    return bench.desk.work is not None


def any_card(bench: Bench) -> bool:
    """Cards are selected."""
    return bool(bench.selection)


def one_card(bench: Bench) -> bool:
    """One card is selected."""
    return len(bench.selection) == 1


def pinned_card(bench: Bench) -> bool:
    """A selected card has fields that were set by hand."""
    week, chosen = bench.open_week, set(bench.selection)
    return week is not None and any(s.pinned for s in week.slots() if s.id in chosen)


def weeks_chosen(bench: Bench) -> bool:
    """Weeks are chosen in the season."""
    return bool(bench.chosen)


@dataclass(frozen=True, slots=True)
class Action:
    """One command.

    id: stable name; menu: the menu it stands in; shortcuts: in Qt's portable text, the first is
    shown; apart: a line before it; card: also in the context menu of a card.
    """

    id: str
    menu: str
    text: str
    run: Callable[[Commands], object]
    shortcuts: tuple[str, ...] = ()
    enabled: Callable[[Bench], bool] = always
    tip: str = ""
    apart: bool = False
    card: bool = False


def parted(actions: Iterable[Action]) -> tuple[tuple[str, ...], ...]:
    """Ids of the commands in groups, a new one wherever a command stands apart."""
    groups: list[list[str]] = [[]]
    for action in actions:
        if action.apart and groups[-1]:
            groups.append([])
        groups[-1].append(action.id)
    return tuple(map(tuple, groups))
