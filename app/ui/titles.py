"""What stands in the frames of windows: it is seen in task lists, on shared screens and in logs of
others, so it names no client unless the coach chose that.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum
from typing import cast

from PySide6.QtWidgets import QWidget

from app.domain.wording import mark, tr
from app.domain.work import Work

SETTING = "names in titles"
"""The setting of the file that holds what was chosen."""

APART = " \N{MIDDLE DOT} "


class Named(StrEnum):
    """How clients are named in the frames of windows."""

    NOT = ""
    INITIALS = "initials"
    WHOLE = "name"


CHOICES: dict[Named, str] = {
    Named.NOT: mark("No client"),
    Named.INITIALS: mark("The client's initials"),
    Named.WHOLE: mark("The client's name"),
}


def named_as(setting: str) -> Named:
    """What a setting says; nothing is named where it says nothing that is known."""
    return Named(setting) if setting in set(Named) else Named.NOT


def initials(name: str) -> str:
    """'R. E.' for Runa Estvik."""
    return " ".join(f"{word[0].upper()}." for word in name.split())


def masked(text: str, names: Iterable[str], named: Named) -> str:
    """The text with clients named as chosen only."""
    if named is Named.WHOLE:
        return text
    for name in sorted((name for name in names if name and name in text), key=len, reverse=True):
        shown = initials(name) if named is Named.INITIALS else tr("the client")
        shown = shown.replace("\\", r"\\")
        text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", shown, text)
    return text


def mentions(text: str, name: str) -> bool:
    """True if the text holds any longer word of the name."""
    return any(word in text.casefold() for word in name.casefold().split() if len(word) > 2)


def main_title(
    work: Work | None, *, file: str, kept: tuple[datetime, str] | None, named: Named
) -> str:
    """The title of the window: whom it is about if that was chosen, its file, what was kept last.

    kept: when, and the label of the edit.
    """
    parts = []
    if work is not None and named is Named.INITIALS:
        parts.append(initials(work.client.name))
    if work is not None and named is Named.WHOLE:
        name, program = work.client.name, work.program
        parts.append(name if program is None else f"{name}, {program.name}")
    parts += [file] if file else []
    if kept is not None:
        at, label = kept
        # a label may hold a part of the name, as programs do that were called after somebody
        if named is not Named.WHOLE and work is not None and mentions(label, work.client.name):
            parts.append(tr("kept {kept_at:%H:%M}", kept_at=at))
        else:
            parts.append(tr("kept {kept_at:%H:%M}: {kept_label}", kept_at=at, kept_label=label))
    return APART.join((*parts, "Weekloom"))


def frame_title(widget: QWidget, title: str) -> str:
    """The title for a frame, as the window that it belongs to lets it stand there.

    What belongs to none shows no client.
    """
    at = cast("QWidget | None", widget)
    while at is not None and not hasattr(at, "frame_title"):
        at = at.parentWidget()
    return title if at is None else str(at.frame_title(title))
