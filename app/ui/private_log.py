"""The file that the log is written to: it rotates, and it is its owner's alone."""

from __future__ import annotations

import os
from io import TextIOWrapper
from logging.handlers import RotatingFileHandler
from typing import cast


class PrivateLog(RotatingFileHandler):
    """A log that rotates; each of its files is the owner's alone from its first byte."""

    def _open(self) -> TextIOWrapper:
        handle = os.open(self.baseFilename, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
        os.chmod(self.baseFilename, 0o600)  # noqa: PTH101  # one from an earlier version
        return cast("TextIOWrapper", os.fdopen(handle, self.mode, encoding=self.encoding))
