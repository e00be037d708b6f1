"""A file by name alone, for what only needs to know where the coach's file is."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from db.passphrase import Passphrase


@dataclass
class KeptFile:
    """What a store says of its file. path: None in memory; key: its passphrase."""

    path: Path | None
    key: Passphrase | None = None
