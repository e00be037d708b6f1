"""What the package offers."""

from __future__ import annotations

import app.domain.figure as figure


def test_every_offered_name_exists() -> None:
    assert all(hasattr(figure, name) for name in figure.__all__)


def test_the_offered_names_are_sorted() -> None:
    assert figure.__all__ == sorted(figure.__all__)
