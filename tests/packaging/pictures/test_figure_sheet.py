"""The contact sheet of figures can be made."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from PySide6.QtGui import QImage

ROOT = Path(__file__).resolve().parents[3]


def test_the_sheet_shows_the_poses_that_are_asked_for(tmp_path: Path) -> None:
    out = tmp_path / "sheet.png"
    script = ROOT / "packaging" / "pictures" / "figure_sheet.py"
    done = subprocess.run(
        [sys.executable, str(script), str(out), "back_squat", "plank"],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert not QImage(str(out)).isNull()
    assert not QImage(str(tmp_path / "sheet-icons.png")).isNull()
