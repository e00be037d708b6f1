"""Every key that a number of the engine gives as its source is a reference, or says it has none."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from app.domain.client import Increments
from app.domain.curve import CURVES
from app.domain.effort import Rir
from app.domain.energy import PROTEIN, RESTING_EQUATIONS
from app.domain.energy.aim import GOAL_RULES
from app.domain.energy.lifting import (
    MET,
)
from app.domain.energy.requirement import REQUIREMENT_SOURCES
from app.domain.strength import EQUATIONS, prescribe_load
from app.domain.working import UNSOURCED

ROOT = Path(__file__).parents[2]
REFERENCES = {
    entry["id"] for entry in json.loads((ROOT / "resources/references.json").read_text("utf-8"))
}
GIVEN = [
    *(e.source for e in EQUATIONS.values()),
    *(c.source for c in CURVES.values()),
    *(e.source for e in RESTING_EQUATIONS.values()),
    *REQUIREMENT_SOURCES.values(),
    *(a.source for a in PROTEIN.values()),
    *(m.source for m in MET.values()),
    *(source for rule in GOAL_RULES.values() for source in rule.sources),
    *prescribe_load(100, 5, Rir(2), Increments()).sources,
]
SINGLE = ("curve", "effort", "one_rm", "strength", "reach", "loads", "screening", "warmup")
ENGINE = [
    *(ROOT / "app/domain").glob("energy/*.py"),
    *(ROOT / "app/domain").glob("progress/*.py"),
    *(ROOT / "app/domain").glob("progression/*.py"),
    *(
        ROOT / f"app/domain/{name}.py"
        for name in (
            "curve",
            "effort",
            "one_rm",
            "strength",
            "reach",
            "loads",
            "screening",
            "warmup",
        )
    ),
]
KEY = re.compile(r"\b[a-z]+(?:19|20)\d\d(?:-[a-z]+)?\b")


@pytest.mark.parametrize("source", sorted(set(GIVEN)))
def test_the_source_of_a_number_can_be_looked_up(source):
    assert source in REFERENCES or source in UNSOURCED


def test_every_key_written_in_the_engine_can_be_looked_up():
    written = {(path.name, key) for path in ENGINE for key in KEY.findall(path.read_text("utf-8"))}
    assert len(written) > 30
    assert {(name, key) for name, key in written if key not in REFERENCES} == set()
