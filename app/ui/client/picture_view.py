"""One kept picture as large as the dialog allows; the arrows turn to the others."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QKeyEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.picture_folder import Kept, PictureFolder
from app.ui import worker
from app.ui.client.picture_files import LONGEST_PX, opened
from app.ui.forms import button, plain


class PictureView(QDialog):
    """Shows the pictures of one check-in; each is read off this thread."""

    def __init__(
        self, store: Kept, names: tuple[str, ...], parent: QWidget | None, *, first: int = 0
    ) -> None:
        super().__init__(parent)
        self.store, self.names, self.number = store, names, first
        self.image = QImage()
        self._job: worker.Job[QImage] | None = None
        self.setWindowTitle(tr("Pictures"))  # no client's name: it may be seen by others
        self.face = QLabel()
        self.face.setTextFormat(Qt.TextFormat.PlainText)
        self.face.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.face.setMinimumSize(320, 240)
        self.place = plain("", role="small")
        self.before = button(tr("Picture before"), lambda: self.show_picture(self.number - 1))
        self.after = button(tr("Next picture"), lambda: self.show_picture(self.number + 1))
        foot = QHBoxLayout()
        foot.addWidget(self.place)
        foot.addStretch(1)
        for each in (self.before, self.after, button(tr("Close"), self.reject, primary=True)):
            foot.addWidget(each)
        column = QVBoxLayout(self)
        column.addWidget(self.face, 1)
        column.addLayout(foot)
        self.finished.connect(lambda _result: self._let_go())
        self.resize(760, 640)
        self.show_picture(first)

    def show_picture(self, number: int) -> None:
        """Show picture `number`, counted from 0; nothing for one that is not there."""
        if not 0 <= number < len(self.names):
            return
        self._let_go()
        self.number = number
        told = tr("Picture {n} of {count}", n=number + 1, count=len(self.names))
        self.place.setText(told)
        self.face.setAccessibleName(told)
        self.before.setEnabled(number > 0)
        self.after.setEnabled(number + 1 < len(self.names))
        name = self.names[number]
        self._job = worker.start(
            lambda: opened(PictureFolder.of(self.store), name, LONGEST_PX),
            self._shown,
            self._failed,
        )

    def _shown(self, image: QImage) -> None:
        self._job = None
        self.image = image
        self._fit()

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self.image = QImage()
        self.face.setText(error.sentence)

    def _fit(self) -> None:
        if self.image.isNull():
            return
        ratio = self.devicePixelRatioF()
        picture = self.image.scaled(
            self.face.size() * ratio,
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
        picture.setDevicePixelRatio(ratio)
        self.face.setPixmap(QPixmap.fromImage(picture))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()), 0)
        if step:
            self.show_picture(self.number + step)
        else:
            super().keyPressEvent(event)

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()
            self._job = None
