"""The Qt that is locked keeps its hands off None.

One release of PySide6 dropped a reference to None at every call that returns nothing; below
Python 3.12 the interpreter then aborts after some thousand calls, in any program but a short test.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

PROBE = """
import sys
from PySide6.QtWidgets import QApplication, QLabel, QTableWidget
from PySide6.QtGui import QColor, QPainter, QPixmap

application = QApplication([])
label, pixmap, table = QLabel(), QPixmap(8, 8), QTableWidget(2, 2)
painter = QPainter(pixmap)
before = sys.getrefcount(None)
for _ in range(5_000):
    label.setText("x")
    table.setRowHeight(0, 20)
    painter.setPen(QColor(0, 0, 0))
    painter.drawLine(0, 0, 8, 8)
drift = sys.getrefcount(None) - before
painter.end()
print(drift)
"""


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is immortal from Python 3.12 on")
def test_twenty_thousand_calls_leave_none_alone() -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROBE], capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > -100, "Qt drops references to None"
