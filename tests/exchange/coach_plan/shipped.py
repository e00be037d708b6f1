"""The shipped words of tables, for the tests."""

from __future__ import annotations

from app import resources
from app.exchange.coach_plan.words import words_from_table

WORDS = words_from_table(resources.read_toml("table_words.toml"))
