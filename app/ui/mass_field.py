"""A field for a mass: shown and typed in the client's unit, and kg to whoever asks it."""

from __future__ import annotations

from app.domain.units import KG_PER_LB, in_units
from app.ui.forms import NumberField


class MassField(NumberField):
    """A number field whose value is kg. low and high: kg; units: 'kg' or 'lb'.

    unit: what stands behind the field, the unit itself if left out.
    """

    def __init__(
        self,
        name: str,
        *,
        low: float,
        high: float,
        units: str,
        unit: str = "",
        optional: bool = False,
    ) -> None:
        super().__init__(
            name,
            low=in_units(low, units),
            high=in_units(high, units),
            unit=unit or units,
            optional=optional,
        )
        self.units = units
        self._kept: tuple[str, float | None] = ("", None)

    def set_low_kg(self, low: float) -> None:
        """Accept masses from there on."""
        self.low = in_units(low, self.units)

    def set_value(self, value: float | None) -> None:
        """Show a mass in kg; one that nobody types over comes back as it was."""
        super().set_value(None if value is None else in_units(value, self.units))
        self._kept = (self.edit.text(), value)

    def value(self) -> float | None:
        """The mass typed, kg; None for an empty optional field. Raises CoachError as others do."""
        shown = super().value()
        text, kept = self._kept
        if shown is None or (kept is not None and self.edit.text() == text):
            return kept if shown is not None else None
        return shown * KG_PER_LB if self.units == "lb" else shown
