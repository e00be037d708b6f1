"""The week grid: seven days, their sessions and cards, painted by one widget."""

from app.ui.grid.view import WeekGrid

__all__ = ["WeekGrid"]
