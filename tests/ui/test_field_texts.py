"""The sentences are sentences, and every page that is named is there."""

from __future__ import annotations

import pytest

from app.ui.field_texts import ANY, FIELDS, PAGES
from app.ui.guide_text import find_page

LONGEST = 110


@pytest.mark.parametrize("key", FIELDS, ids=[f"{form}, {name}" for form, name in FIELDS])
def test_a_field_is_explained_in_one_short_sentence(key: tuple[str, str]):
    text = FIELDS[key]
    assert not text[0].islower()
    assert text.endswith(".")
    assert len(text) <= LONGEST


@pytest.mark.parametrize("name", sorted(set(PAGES.values())))
def test_a_page_that_is_named_is_in_the_guide(name: str):
    assert find_page(name).title


def test_a_form_with_sentences_has_a_page():
    forms = {form for form, _ in FIELDS} - {"TextSheet"}
    assert forms <= set(PAGES)
    assert ANY not in forms
