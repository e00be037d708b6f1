"""The forms of exchange are explained like all others."""

from __future__ import annotations

from app.ui.exchange_texts import EXCHANGE_FIELDS, EXCHANGE_PAGES
from app.ui.field_texts import FIELDS, PAGES


def test_they_stand_among_all_others() -> None:
    assert EXCHANGE_FIELDS.items() <= FIELDS.items()
    assert EXCHANGE_PAGES.items() <= PAGES.items()


def test_each_form_has_a_page_and_a_sentence_for_any_field() -> None:
    forms = {form for form, _ in EXCHANGE_FIELDS}
    assert forms == set(EXCHANGE_PAGES)
    assert all((form, "*") in EXCHANGE_FIELDS for form in forms)
