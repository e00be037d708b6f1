"""The program as it is started: as a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app import cli
from app.__main__ import has_screen, main
from app.domain.wording import ENGLISH, tr, use

ROOT = Path(__file__).resolve().parents[1]


def start(*arguments: object, **environ: str) -> subprocess.CompletedProcess[str]:
    plain = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY")}
    plain.pop("QT_QPA_PLATFORM", None)
    return subprocess.run(
        [sys.executable, "-m", "app", *map(str, arguments)],
        cwd=ROOT,
        env=plain | environ,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="others always have a screen")
def test_without_a_screen_one_sentence_says_what_to_do() -> None:
    done = start()
    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.startswith("weekloom: There is no screen here")
    assert "weekloom demo --to" in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_a_screen_is_known_by_what_the_system_says(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    assert not has_screen()
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    assert has_screen()
    monkeypatch.delenv("WAYLAND_DISPLAY")
    monkeypatch.setattr(sys, "platform", "win32")
    assert has_screen()


def test_bad_use_ends_with_two(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bogus"]) == 2
    assert capsys.readouterr().err.startswith("weekloom: ")


@pytest.mark.parametrize("command", ["check", "booklet"])
def test_headless_commands_need_no_qt(command: str) -> None:
    probe = (
        "import sys; from app.__main__ import main;"
        f"main([{command!r}, '--help']); import app.cli, app.off_desk, app.press, app.filing;"
        "sys.exit(any(name.startswith('PySide6') for name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", probe], cwd=ROOT, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr


def test_the_demo_is_written_without_a_screen(tmp_path: Path) -> None:
    done = start("demo", "--to", tmp_path / "demo")
    assert done.returncode == 0, done.stderr
    written = [Path(line) for line in done.stdout.splitlines()]
    assert len(written) == 22
    assert all(path.is_file() for path in written)
    picture = (tmp_path / "demo" / "window.png").read_bytes()
    assert picture.startswith(b"\x89PNG")
    assert len(picture) > 50_000, "an empty window"


def test_a_variable_makes_everything_speak_the_pseudo_language(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    said: list[str] = []

    def run(*_: object, **__: object) -> int:
        said.append(tr("Week"))
        return 0

    monkeypatch.setenv("WEEKLOOM_LANGUAGE", "en-XA")
    monkeypatch.setattr(cli, "run", run)
    try:
        assert main([]) == 0
    finally:
        use(ENGLISH)
    assert said not in ([], ["Week"])
