"""The pictures of one check-in: small ones to look at, add and remove."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QImage, QPixmap
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.picture_folder import Kept, PictureFolder
from app.ui import worker
from app.ui.client.picture_files import THUMB_PX, prepared, thumbnail
from app.ui.forms import Wrapped, button

MOST = 8


class Pictures(QWidget):
    """Thumbnails with a button to remove each, and one to add. names: what is chosen.

    A picture is copied into the folder when it is added; one that is removed here stays there until
    the window is closed, so that the step can be undone.
    """

    def __init__(
        self, store: Kept, names: tuple[str, ...], failed: Callable[[str], object]
    ) -> None:
        super().__init__()
        self.store, self.names = store, names
        self._failed = failed
        self._job: worker.Job[tuple[str, ...]] | None = None
        self._showing: worker.Job[tuple[QImage | None, ...]] | None = None
        self.row = QHBoxLayout()
        self.row.setContentsMargins(0, 0, 0, 0)
        self.add_button = button(tr("Add pictures…"), self.ask)
        self.note = Wrapped(
            tr(
                "Kept in a folder beside your file, readable by you alone, without place or time "
                "of the camera; under the same passphrase if the file has one. Ask the client "
                "first."
            ),
            role="small",
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(self.row)
        column.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.note)
        self.refresh()

    def ask(self) -> None:
        """Ask for pictures and copy them in, off this thread."""
        chosen, _ = QFileDialog.getOpenFileNames(
            self, tr("Add pictures"), "", tr("Pictures (*.jpg *.jpeg *.png *.webp)")
        )
        self.add(tuple(map(Path, chosen)))

    def add(self, paths: tuple[Path, ...]) -> None:
        """Copy pictures in, as many as there is room for; what cannot be read is said."""
        room = MOST - len(self.names)
        if not paths:
            return
        if len(paths) > room:
            self._failed(tr("A check-in keeps at most {most} pictures.", most=MOST))
            paths = paths[:room]

        def copied() -> tuple[str, ...]:
            folder = PictureFolder.of(self.store)
            ready = [prepared(path) for path in paths]  # all of them, or none
            return tuple(folder.add(data) for data in ready)

        self.add_button.setEnabled(False)
        self._job = worker.start(copied, self._added, self._refused)

    def _added(self, names: tuple[str, ...]) -> None:
        self._job = None
        self.names += names
        self.refresh()

    def _refused(self, error: CoachError) -> None:
        self._job = None
        self.add_button.setEnabled(True)
        self._failed(error.sentence)

    @property
    def busy(self) -> bool:
        """True while pictures are being copied."""
        return self._job is not None

    def remove(self, name: str) -> None:
        """Take a picture out of the check-in."""
        self.names = tuple(kept for kept in self.names if kept != name)
        self.refresh()

    def show_names(self, names: tuple[str, ...]) -> None:
        """Show the pictures of another check-in."""
        self.names = names
        self.refresh()

    def refresh(self) -> None:
        """Show the small pictures; they are read off this thread."""
        while (item := self.row.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        faces = []
        for number, name in enumerate(self.names, start=1):
            faces.append(self._place(number, name))
        self.row.addStretch(1)
        self.add_button.setEnabled(len(self.names) < MOST)
        names, ratio = self.names, self.devicePixelRatioF()
        if self._showing is not None:
            self._showing.cancel()
            self._showing = None
        if not names:
            return

        def read() -> tuple[QImage | None, ...]:
            folder = PictureFolder.of(self.store)
            return tuple(_small(folder, name, ratio) for name in names)

        def shown(images: tuple[QImage | None, ...]) -> None:
            self._showing = None
            for face, image in zip(faces, images, strict=True):
                if image is None:
                    face.setText(tr("gone"))
                else:
                    face.setText("")
                    face.setIcon(QIcon(QPixmap.fromImage(image)))

        self._showing = worker.start(read, shown, lambda error: self._failed(error.sentence))

    def _place(self, number: int, name: str) -> QPushButton:
        face = QPushButton("…")
        face.setProperty("flat", True)
        face.setAutoDefault(False)
        face.setFixedSize(THUMB_PX + 8, THUMB_PX + 8)
        face.setIconSize(QSize(THUMB_PX, THUMB_PX))
        face.setAccessibleName(tr("Picture {n}, show it large", n=number))
        face.clicked.connect(lambda _checked=False, at=number - 1: self.look(at))
        remove = QPushButton(tr("Remove"))
        remove.setProperty("link", True)
        remove.setMinimumHeight(24)
        remove.setAccessibleName(tr("Remove picture {n}", n=number))
        remove.clicked.connect(lambda _checked=False, name=name: self.remove(name))
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 8, 0)
        column.addWidget(face)
        column.addWidget(remove)
        self.row.addWidget(holder)
        return face

    def look(self, number: int) -> None:
        """Show a picture large, counted from 0."""
        from app.ui.client.picture_view import PictureView

        view = PictureView(self.store, self.names, self.window(), first=number)
        view.exec()
        view.deleteLater()

    def let_go(self) -> None:
        """Drop what is still being read."""
        for job in (self._job, self._showing):
            if job is not None:
                job.cancel()


def _small(folder: PictureFolder, name: str, ratio: float) -> QImage | None:
    try:
        return thumbnail(folder, name, ratio)
    except CoachError:
        return None
