"""A hundred booklets one after the other take the memory of one."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.bench.budgets import hold

pytestmark = pytest.mark.bench

ROOT = Path(__file__).parents[2]
BUDGET = 1.1
"""The peak after a hundred booklets over the peak after the first ten."""

CODE = """
import resource
from app.booklet import Kind, Options, Paper, make
from tests.booklet.sample import content, issue, season

choices = [
    Options(),
    Options(paper=Paper.A5),
    Options(large=True),
    Options(kind=Kind.FORM, paper=Paper.PHONE),
    Options(kind=Kind.WALL),
]
handed, what = issue(season(8)), content()
for number in range(100):
    make(handed, what, choices[number % len(choices)])
    if number in (9, 99):
        print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def test_a_batch_of_a_hundred_takes_the_memory_of_one() -> None:
    done = subprocess.run(
        [sys.executable, "-c", CODE], cwd=ROOT, capture_output=True, text=True, check=True
    )
    early, late = map(int, done.stdout.split())
    print(f"peak after 10 booklets {early // 1024} MiB, after 100 {late // 1024} MiB")
    hold("memory of 100 booklets over 10", late / early, BUDGET)
