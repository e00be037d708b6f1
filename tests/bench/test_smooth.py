"""How long the whole window holds its thread: in a drag of 500 steps, and in a coach's evening.

The window runs under the watchdog in a process of its own (`watched.py`); the floor is the same
drag over an empty target in that process. What is judged is what the processor spent, since a busy
machine makes everybody wait; what the clock says is told beside it.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from app.ui.watchdog import HELD_MS, STEP_MS
from tests.bench.budgets import hold

pytestmark = pytest.mark.bench

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module", params=[21, 52])
def session(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[int, dict[str, Any]]:
    """The weeks of a season, and what the watchdog saw of a session on it."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("compiled"))
    # a coach's modules are compiled long before the evening
    compiled = [sys.executable, "-m", "compileall", "-q", "app", "db", "tests"]
    subprocess.run(compiled, cwd=ROOT, env=env, check=True)
    done = subprocess.run(
        [sys.executable, "-m", "tests.bench.watched", str(request.param)],
        cwd=ROOT,
        env=env,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        check=True,
        timeout=240,
    )
    return request.param, json.loads(done.stdout)


@pytest.mark.parametrize(("what", "name"), [("drag", "from the library"), ("card", "of a card")])
def test_no_work_of_a_drag_is_longer_than_a_frame(session, what: str, name: str):
    weeks, seen = session
    drag, bare = seen[what], seen["bare"]
    for part in ("stretch", "step", "work"):
        ours, floor = drag[part], bare[part]
        print(
            f"drag {name}, {weeks} weeks, {part}: p50 {ours['p50']:.2f}, p95 {ours['p95']:.2f}, "
            f"max {ours['longest']:.2f} ms; over an empty target p50 {floor['p50']:.3f}, "
            f"p95 {floor['p95']:.3f}, max {floor['longest']:.2f} ms"
        )
    print(f"longest: {drag['longest']}; {drag['over']} stretches over {STEP_MS:g} ms by the clock")
    assert drag["step"]["count"] == 500
    hold(f"work in a drag {name}, {weeks} weeks, p95", drag["work"]["p95"], STEP_MS, unit="ms")
    hold(f"work in a drag {name}, {weeks} weeks, max", drag["work"]["longest"], 16.7, unit="ms")


def test_nothing_else_holds_the_window_without_progress(session):
    weeks, seen = session
    spread = seen["evening"]
    print(
        f"an evening on {weeks} weeks: {spread['count']} stretches, p95 {spread['p95']:.2f}, "
        f"max {spread['longest']:.1f} ms"
    )
    for _, _, line in seen["too_long"]:
        print(line)
    worked = max((work for _, work, _ in seen["too_long"]), default=0.0)
    hold(f"longest work outside a drag, {weeks} weeks", worked, HELD_MS, unit="ms")
