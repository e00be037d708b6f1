from __future__ import annotations

import threading

from app.domain.wording import ENGLISH, English, Language, language, mark, speaking, tr, trn


class Loud(English):
    def gettext(self, message: str, /) -> str:
        return message.upper().replace("{NAME}", "{name}")

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        return "{n} !" if n == 1 else "{n} !!"


LOUD = Language("x-loud", Loud(), ",")


def test_english_is_what_stands_in_the_code() -> None:
    assert tr("Move {name} to {day}", name="Row", day="Monday") == "Move Row to Monday"
    assert trn("{n} set of {name}", "{n} sets of {name}", 3, name="row") == "3 sets of row"
    assert mark("Sets") == "Sets"


def test_a_text_without_places_may_hold_braces() -> None:
    assert tr("a {brace}") == "a {brace}"


def test_a_language_is_spoken_inside_its_block_only() -> None:
    with speaking(LOUD):
        assert tr("Row {name}", name="a") == "ROW a"
        assert trn("{n} set", "{n} sets", 2) == "2 !!"
        assert language().decimal == ","
    assert language() is ENGLISH
    assert tr("Row") == "Row"


def test_another_thread_speaks_its_own_language() -> None:
    heard: list[str] = []
    with speaking(LOUD):
        thread = threading.Thread(target=lambda: heard.append(tr("Row")))
        thread.start()
        thread.join()
    assert heard == ["Row"]


def test_the_empty_text_stays_empty() -> None:
    # gettext answers the empty text with the head of its catalogue
    with speaking(LOUD):
        assert tr("") == ""
