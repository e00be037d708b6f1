"""What others may see of the program: when it hides by itself, and whom its frames name."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QWidget

from app.domain.wording import tr
from app.ui.curtain import MINUTES, MOST_MINUTES, Idle
from app.ui.forms import NumberField, Sheet
from app.ui.titles import CHOICES, SETTING, Named, named_as
from db.store import Store


class CurtainSheet(Sheet):
    """Asks for the minutes, an empty field for never, and for the names in frames of windows."""

    def __init__(self, store: Store, idle: Idle, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("What others may see"),
            verb=tr("Keep"),
            about=tr(
                "What is personal hides after so many minutes without use; empty is never. The "
                "frame of a window is seen in lists of windows and on shared screens."
            ),
        )
        self.store, self.idle = store, idle
        self.minutes = NumberField(
            tr("Minutes"), low=1, high=MOST_MINUTES, unit=tr("min"), whole=True, optional=True
        )
        self.minutes.set_value(idle.minutes or None)
        self.row(tr("Hide what is personal after"), self.minutes)
        self.named = QComboBox()
        self.named.setMinimumHeight(32)
        for named, text in CHOICES.items():
            self.named.addItem(tr(text), named)
        self.named.setCurrentIndex(list(CHOICES).index(named_as(store.setting(SETTING))))
        self.row(tr("Frames of windows name"), self.named)
        self.setMinimumWidth(460)
        self.minutes.setFocus()

    @property
    def chosen(self) -> Named:
        """How clients are named in frames."""
        return Named(self.named.currentData())

    def keep(self) -> None:
        """Keep both in the file, and wait so long from now on."""
        value = self.minutes.value()
        minutes = 0 if value is None else int(value)
        with self.store.together():
            self.store.set_setting(MINUTES, str(minutes) if minutes else "")
            self.store.set_setting(SETTING, self.chosen.value)
        self.idle.set_minutes(minutes)
