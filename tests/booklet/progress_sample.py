"""A client's series for the progress report, made by rule."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from scipy.stats import theilslopes

from app import resources
from app.booklet.progress_report import ProgressReport
from app.domain.progress.series import mass_series, strength_series
from app.domain.progress.weeks import weeks_done
from tests.builders import CATALOGUE
from tests.ui.charts.sample import CHECKS, DIARY, PLAN, RUNA

FONTS = resources.path_of("fonts")
ON = date(2027, 2, 1)


def report(**fields) -> ProgressReport:
    """A report with everything in it; `fields` differ."""
    strength = tuple(
        strength_series(CATALOGUE[key], RUNA, DIARY.results, regression=theilslopes)
        for key in dict.fromkeys(test.exercise for test in RUNA.tests)
    )
    made = ProgressReport(
        RUNA,
        PLAN.name,
        ON,
        weeks=weeks_done(PLAN, DIARY.results, CATALOGUE, load_kg=lambda _: 60.0),
        strength=strength,
        mass=mass_series(RUNA, CHECKS, regression=theilslopes, program=PLAN),
        next_words="From Monday the hinge comes twice a week.",
        coach="Halvard Brandal",
    )
    return replace(made, **fields)
