"""What a coach is told when something cannot be done: what, where, how to mend.

Every error that reaches a screen or a terminal is a `CoachError`; anything else is a bug of ours
and keeps its traceback.
"""

from __future__ import annotations

from app.domain.wording import tr


class CoachError(ValueError):
    """A sentence in three parts: what is wrong, where, and how to mend it."""

    def __init__(self, what: str, *, where: str = "", mend: str = "") -> None:
        self.what = what
        self.where = where
        self.mend = mend
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """All three parts as one line of text."""
        start = f"{self.where}: {self.what}" if self.where else self.what
        return f"{start} {self.mend}".strip()


class EditError(CoachError):
    """An edit that cannot be applied; the program is untouched."""


class QuantityError(CoachError):
    """A number outside what the engine accepts; names the quantity, the value and the range."""

    @classmethod
    def outside(cls, quantity: str, value: object, *, low: object, high: object) -> QuantityError:
        """The error for `value` of `quantity` that lies outside `low` to `high`."""
        return cls(
            tr(
                "{quantity} {value} is outside {low} to {high}.",
                quantity=tr(quantity),
                value=value,
                low=low,
                high=high,
            ),
            mend=tr("Enter a value from {low} to {high}.", low=low, high=high),
        )


class PlanFileError(CoachError):
    """A plan file that cannot be read: names the file, the place in it and what is allowed."""


class ResourceError(CoachError):
    """An entry of the shipped or the coach's own data that breaks its rules."""


class StoreError(CoachError):
    """The coach's file cannot be opened, read or written."""
