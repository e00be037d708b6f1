"""The week grid: seven days, their sessions and cards, painted by one widget."""
