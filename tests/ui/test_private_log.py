from __future__ import annotations

import logging
import os
from pathlib import Path

import pytest

from app.ui.private_log import PrivateLog


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_every_file_of_the_log_is_the_owners_alone(tmp_path: Path) -> None:
    mask = os.umask(0)
    handler = PrivateLog(tmp_path / "a.log", maxBytes=200, backupCount=2, encoding="utf-8")
    try:
        for number in range(20):
            handler.emit(logging.makeLogRecord({"msg": f"line {number} of a long night"}))
    finally:
        handler.close()
        os.umask(mask)
    files = sorted(tmp_path.iterdir())
    assert [path.name for path in files] == ["a.log", "a.log.1", "a.log.2"]
    assert {path.stat().st_mode & 0o777 for path in files} == {0o600}
