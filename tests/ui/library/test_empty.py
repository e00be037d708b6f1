"""An empty list says why it is empty and what to do."""

from __future__ import annotations

from app.domain.exercise import Muscle
from app.ui.library.empty import Nothing, Shelf, Way, nothing
from app.ui.library.narrow import Wish


def says(
    wish: Wish, *, left: int = 151, elsewhere: int = 0, at_hand: int = 0, own: int = 0
) -> Nothing:
    shelf = Shelf(every=231, left=left, at_hand=at_hand, own=own)
    return nothing(wish, who="Runa", shelf=shelf, elsewhere=elsewhere)


def test_what_the_client_cannot_do_is_told_with_the_number_left_out() -> None:
    told = says(Wish(text="sled", fits=True), elsewhere=2)
    assert told.text == "No 'sled' here. Fits Runa leaves out 80 of the 231 exercises."
    assert (told.verb, told.way) == ("Search all 231", Way.OPEN_ALL)


def test_several_choices_are_named_together() -> None:
    told = says(Wish(text="sled", fits=True, muscle=Muscle.CHEST), left=9, elsewhere=2)
    assert "The choices above leave out 222 of the 231" in told.text


def test_a_word_that_is_nowhere_leads_to_clearing_the_search() -> None:
    told = says(Wish(text="qzx"))
    assert "'qzx'" in told.text
    assert told.way is Way.CLEAR_TEXT


def test_nothing_at_hand_says_how_to_keep_something() -> None:
    assert "Ctrl+K" in says(Wish(at_hand=True)).text


def test_no_own_exercise_leads_to_making_one() -> None:
    assert says(Wish(own=True)).way is Way.MAKE_OWN


def test_choices_that_leave_nothing_can_be_opened() -> None:
    told = says(Wish(own=True, muscle=Muscle.CHEST), left=0, own=3)
    assert told.way is Way.OPEN_ALL
    assert "leave" in told.text.lower()
