"""What the list says when nothing is in it: what is missing, then what to do."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from app.domain.wording import tr
from app.ui.library.narrow import Wish


class Way(Enum):
    """What the one button of an empty list does."""

    OPEN_ALL = "open all"
    CLEAR_TEXT = "clear"
    MAKE_OWN = "make"


@dataclass(frozen=True, slots=True)
class Nothing:
    """The sentences, the button's verb and what it does."""

    text: str
    verb: str
    way: Way


@dataclass(frozen=True, slots=True)
class Shelf:
    """How many exercises there are: all, left by the choices, kept at hand, the coach's own."""

    every: int
    left: int
    at_hand: int
    own: int


def nothing(wish: Wish, *, who: str, shelf: Shelf, elsewhere: int) -> Nothing:
    """Why nothing is listed.

    who: the client's first name; elsewhere: exercises the text would find without the choices.
    """
    every, out = shelf.every, shelf.every - shelf.left
    open_all = (tr("Show all {every}", every=every), Way.OPEN_ALL)
    if not wish.text:
        if wish.at_hand and not shelf.at_hand:
            return Nothing(
                tr("Nothing is kept at hand yet. Press Ctrl+K on an exercise, and it stands here."),
                *open_all,
            )
        if wish.own and not shelf.own:
            return Nothing(tr("No exercise of your own yet."), tr("Make one"), Way.MAKE_OWN)
        return Nothing(
            tr("No exercise is left by these choices. Leave one of them open."), *open_all
        )
    if elsewhere:
        alone = wish.fits and len(wish.chosen) == 1
        what = tr("Fits {who} leaves", who=who) if alone else tr("The choices above leave")
        why = tr("{what} out {out} of the {every} exercises.", what=what, out=out, every=every)
        return Nothing(
            tr("No '{wish}' here. {why}", wish=wish.text, why=why),
            tr("Search all {every}", every=every),
            Way.OPEN_ALL,
        )
    return Nothing(
        tr(
            "Nothing is called '{wish}' or anything like it. Try one word of the "
            "name, a muscle or a piece of equipment.",
            wish=wish.text,
        ),
        tr("Clear the search"),
        Way.CLEAR_TEXT,
    )
