"""What the package offers."""

from __future__ import annotations

from app.domain import figure


def test_every_offered_name_exists() -> None:
    assert all(hasattr(figure, name) for name in figure.__all__)


def test_the_offered_names_are_sorted() -> None:
    assert figure.__all__ == sorted(figure.__all__)
