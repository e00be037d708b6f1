"""A locked file asks on the terminal, three times at most, and nowhere else."""

from __future__ import annotations

import getpass
import sys
from pathlib import Path
from typing import Any

import pytest

from app import cli
from app.domain.errors import CoachError
from app.terminal import passphrase_for
from db.backup import all_copies
from db.errors import Cause, StoreFailure
from db.passphrase import looks_locked
from db.relock import relock
from tests.db.samples import RUNA, filled_file
from tests.db.test_passphrase import KEY, OTHER


@pytest.fixture
def locked(tmp_path: Path) -> Path:
    path = filled_file(tmp_path / "coach.db")
    relock(path, old=None, new=KEY)
    return path


def typing(monkeypatch, *texts: str) -> list[str]:
    """Types those at the terminal; what was asked."""
    asked: list[str] = []
    left = list(texts)

    def ask(prompt: str) -> str:
        asked.append(prompt)
        return left.pop(0)

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(getpass, "getpass", ask)
    return asked


def run(*arguments: str) -> int:
    def no_window(*_: object, **__: object) -> Any:
        raise AssertionError("a window was opened")

    return cli.run(arguments, show=no_window, picture=no_window)


def test_a_file_without_a_lock_asks_nothing(tmp_path, monkeypatch):
    asked = typing(monkeypatch)
    assert passphrase_for(filled_file(tmp_path / "coach.db")) is None
    assert passphrase_for(tmp_path / "nowhere.db") is None
    assert asked == []


def test_the_third_try_may_be_right(locked, monkeypatch, capsys):
    asked = typing(monkeypatch, "one", OTHER.text, KEY.text)
    assert passphrase_for(locked) == KEY
    assert len(asked) == 3
    assert KEY.text not in capsys.readouterr().err


def test_three_wrong_ones_are_enough(locked, monkeypatch):
    typing(monkeypatch, "one", "two", "three", KEY.text)
    with pytest.raises(StoreFailure) as refused:
        passphrase_for(locked)
    assert refused.value.cause is Cause.WRONG_PASSPHRASE


def test_where_nobody_can_be_asked_it_is_said_how(locked, monkeypatch):
    monkeypatch.setattr(sys.stdin, "isatty", lambda: False, raising=False)
    with pytest.raises(CoachError, match="terminal"):
        passphrase_for(locked)


def test_every_command_on_a_locked_file_asks(locked, tmp_path, monkeypatch, capsys):
    file = ("--file", str(locked))
    for arguments in (
        ("verify", *file),
        ("backup", *file),
        ("export", "--client", RUNA.name, "--out", str(tmp_path / "plan.json"), *file),
        ("export", "--as", "whole", "--out", str(tmp_path / "all.zip"), *file),
    ):
        asked = typing(monkeypatch, KEY.text)
        assert run(*arguments) == 0, capsys.readouterr().err
        assert len(asked) == 1
        assert str(locked.name) in asked[0]
    (copy,) = all_copies(locked)
    assert looks_locked(copy)
    typing(monkeypatch, KEY.text)
    assert run("restore", str(copy), *file) == 0
    assert looks_locked(locked)


def test_a_wrong_passphrase_ends_a_command_with_a_sentence(locked, monkeypatch, capsys):
    typing(monkeypatch, "one", "two", "three")
    assert run("verify", "--file", str(locked)) == 1
    assert "does not open the file" in capsys.readouterr().err


def test_everything_goes_out_and_comes_back_by_commands(tmp_path, capsys):
    old, new, out = filled_file(tmp_path / "old.db"), tmp_path / "new.db", tmp_path / "all.zip"
    assert run("export", "--as", "whole", "--out", str(out), "--file", str(old)) == 0
    assert str(out) in capsys.readouterr().out
    assert run("export", "--as", "whole", "--out", str(out), "--file", str(old)) == 1
    assert "--replace" in capsys.readouterr().err
    assert run("import", str(out), "--file", str(new)) == 0
    assert "1" in capsys.readouterr().out
    assert run("import", str(out), "--file", str(new)) == 1
    assert run("import", str(out), "--replace", "--file", str(new)) == 0
    assert len(all_copies(new)) == 1
    assert run("export", "--as", "whole", "--to", str(tmp_path / "d"), "--file", str(old)) == 0
    assert len(list((tmp_path / "d").iterdir())) == 1
    assert run("export", "--as", "whole", "--client", "Runa", "--out", "x", "--file", str(old)) == 1
    assert "everybody" in capsys.readouterr().err


def test_a_locked_file_that_is_replaced_by_an_import_stays_locked(locked, tmp_path, monkeypatch):
    out = tmp_path / "all.zip"
    typing(monkeypatch, KEY.text)
    assert run("export", "--as", "whole", "--out", str(out), "--file", str(locked)) == 0
    typing(monkeypatch, KEY.text)
    assert run("import", str(out), "--replace", "--file", str(locked)) == 0
    assert looks_locked(locked)
