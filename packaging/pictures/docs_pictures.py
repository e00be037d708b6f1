"""Draw the pictures of the README anew, from the demo, without a screen.

    .venv/bin/python packaging/pictures/docs_pictures.py            README and guide
    .venv/bin/python packaging/pictures/docs_pictures.py --guide    the guide alone
    .venv/bin/python packaging/pictures/docs_pictures.py FOLDER     some larger ones, to look at

Run it after any change that shows, look at each picture, and commit them together with the change.
`screens.py` beside this draws every screen.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QApplication, QDialog, QWidget  # noqa: E402

from app import press  # noqa: E402
from app.domain.exercise import ExerciseKey  # noqa: E402
from app.ui import start, theme  # noqa: E402
from app.ui.bench import Bench  # noqa: E402
from app.ui.window import Window  # noqa: E402
from db.store import Store  # noqa: E402

WEEK = 6
TODAY = date(2026, 11, 25)
SIZE = (1600, 1000)


def settle(milliseconds: int = 400) -> None:
    """Let timers and paints catch up."""
    end = time.monotonic() + milliseconds / 1000
    while time.monotonic() < end:
        QApplication.processEvents()
        time.sleep(0.01)


def open_window(size: tuple[int, int] = SIZE) -> Window:
    """A window on a fresh demo, at week 7."""
    window = start.window_on(Store.in_memory())
    start.open_demo(window)
    window.resize(*size)
    window.show()
    window.bench.show_week(WEEK)
    settle()
    return window


def save(widget: QWidget, path: Path) -> None:
    """Write a picture of the widget."""
    widget.grab().save(str(path))
    print(path.name)


def dialog(make: Callable[[Window], QDialog], window: Window, path: Path) -> None:
    """Write a picture of a dialog."""
    made = make(window)
    made.setModal(False)
    made.show()
    settle()
    save(made, path)
    made.close()


def window_pictures(folder: Path) -> None:
    """The window: light, dark and small."""
    for name, colours, size in (
        ("window", theme.LIGHT, SIZE),
        ("window-dark", theme.DARK, SIZE),
        ("window-small", theme.LIGHT, (1280, 720)),
    ):
        theme.force(colours)
        theme.apply(start.application())
        window = open_window(size)
        save(window, folder / f"{name}.png")
        window.close()
    theme.force(theme.LIGHT)
    theme.apply(start.application())


def drag_picture(folder: Path) -> None:
    """The window with an exercise in hand."""
    window = open_window()
    window.grid.go_to(window.bench.desk.program.weeks[WEEK].days[3].sessions[0].slots[2].id)
    window.grid.pick_up_exercise(ExerciseKey("leg_extension"))
    settle(900)
    save(window, folder / "window-drag.png")
    window.close()


def split_dialog(bench: Bench, window: QWidget) -> QDialog:
    """The change of the split as large as a common screen lets it be."""
    from app.ui.split_dialog import MOST, SplitDialog

    made = SplitDialog(bench, window)
    made.resize(MOST)
    return made


def dialog_pictures(folder: Path) -> None:
    """The dialogs that change much."""
    from app.ui.progression_dialog import ProgressionDialog
    from app.ui.substitutes import SubstituteDialog

    window = open_window()
    bench = window.bench
    slot = bench.desk.program.weeks[WEEK].days[0].sessions[0].slots[0]
    dialog(lambda w: split_dialog(bench, w), window, folder / "split.png")
    dialog(lambda w: ProgressionDialog(bench, w), window, folder / "progression.png")
    dialog(lambda w: SubstituteDialog(bench, slot.id, w), window, folder / "substitutes.png")
    window.close()


def booklet_pictures(folder: Path, *names: str) -> None:
    """Cover and a week of the booklet, those of `names`."""
    from app.ui.pdf_pages import Pages

    window = open_window()
    desk = window.bench.desk
    pages = Pages(press.bind(desk.draft_issue(TODAY), desk.catalogue, desk.ranges))
    numbers = {"booklet-cover": 0, "booklet": _first_week(pages)}
    for name in names:
        pages.picture(numbers[name], 90).save(str(folder / f"{name}.png"))
        print(f"{name}.png")
    pages.close()
    window.close()


def _first_week(pages: object) -> int:
    texts = pages._document  # type: ignore[attr-defined]  # noqa: SLF001 - a script of ours
    for number in range(len(texts)):
        if "Week 1 " in texts[number].get_textpage().get_text_range()[:40]:
            return number
    raise SystemExit("The booklet has no page for week 1.")


GUIDE = ROOT / "resources/guide/pictures"
GUIDE_WIDTH = 680
GUIDE_COLOURS = 96


def guide_pictures(folder: Path) -> None:
    """What the pages of the guide show, once in light and once in dark."""
    from app.ui.progression_dialog import ProgressionDialog
    from app.ui.substitutes import SubstituteDialog

    folder.mkdir(parents=True, exist_ok=True)
    for way, colours in (("light", theme.LIGHT), ("dark", theme.DARK)):
        theme.force(colours)
        theme.apply(start.application())
        window = open_window((1366, 860))
        bench = window.bench
        small(window, folder / f"window-{way}.png")
        small(window.foot, folder / f"findings-{way}.png")
        first = bench.desk.program.weeks[WEEK].days[0].sessions[0].slots[0]
        for name, made in (
            ("progression", ProgressionDialog(bench, window)),
            ("split", split_dialog(bench, window)),
            ("substitutes", SubstituteDialog(bench, first.id, window)),
        ):
            made.setModal(False)
            made.show()
            settle()
            small(made, folder / f"{name}-{way}.png")
            made.close()
        window.grid.go_to(bench.desk.program.weeks[WEEK].days[3].sessions[0].slots[2].id)
        window.grid.pick_up_exercise(ExerciseKey("leg_extension"))
        settle(900)
        small(window.grid, folder / f"drag-{way}.png")
        window.close()
    theme.force(theme.LIGHT)
    theme.apply(start.application())


def small(widget: QWidget, path: Path) -> None:
    """Write a picture of the widget as wide as a page of the guide, in few colours."""
    from PIL import Image

    save(widget, path)
    with Image.open(path) as whole:
        whole.load()
    ratio = min(1.0, GUIDE_WIDTH * 1.5 / whole.width)
    size = (round(whole.width * ratio), round(whole.height * ratio))
    reduced = whole.convert("RGB").resize(size, Image.Resampling.LANCZOS)
    reduced.quantize(GUIDE_COLOURS, dither=Image.Dither.NONE).save(path, optimize=True)


def main() -> int:
    """Draw the README's and the guide's, or larger ones into the folder named."""
    start.application()
    theme.force(theme.LIGHT)
    theme.apply(start.application())
    if len(sys.argv) == 1:
        drag_picture(ROOT / "packaging/pictures")
        booklet_pictures(ROOT / "packaging/pictures", "booklet")
        guide_pictures(GUIDE)
        return 0
    if sys.argv[1] == "--guide":
        guide_pictures(GUIDE)
        return 0
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    window_pictures(folder)
    drag_picture(folder)
    dialog_pictures(folder)
    booklet_pictures(folder, "booklet-cover", "booklet")
    return 0


if __name__ == "__main__":
    sys.exit(main())
