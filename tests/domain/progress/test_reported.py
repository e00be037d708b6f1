from __future__ import annotations

from datetime import timedelta

import numpy as np
import pytest
from scipy.stats import theilslopes

from app.domain.progress.reported import (
    days_of,
    girth_series,
    girths_text,
    in_length,
    length_unit,
    mark_series,
    marks_text,
)
from app.domain.progress.series import Days
from app.domain.results import CheckIn, Girth, Site
from tests.builders import START

WAIST = (80.0, 79.6, 79.8, 79.0)
CHECKS = tuple(
    CheckIn(
        START + timedelta(weeks=week),
        sleep=4 if week % 2 else 2,
        mood=3 if week == 0 else None,
        girths=(Girth(Site.WAIST, cm), *((Girth(Site.HIPS, 98.0),) if week == 0 else ())),
    )
    for week, cm in enumerate(WAIST)
)


def test_each_site_has_its_days_and_scipys_trend():
    waist, hips = girth_series(CHECKS, theilslopes)
    assert (waist.site, hips.site) == (Site.WAIST, Site.HIPS)
    assert [point.value for point in waist.points] == list(WAIST)
    slope, *_ = theilslopes(WAIST, np.arange(4) * 7.0)
    assert waist.trend.per_week == pytest.approx(slope * 7)
    assert hips.trend is None


def test_marks_are_those_that_were_given():
    sleep, mood = mark_series(CHECKS)
    assert (sleep.key, mood.key) == ("sleep", "mood")
    assert sleep.mean == 3
    assert [point.value for point in mood.points] == [3.0]


def test_the_days_bound_both():
    days = Days(START + timedelta(weeks=1), START + timedelta(weeks=2))
    (waist,) = girth_series(CHECKS, theilslopes, days=days)
    assert len(waist.points) == 2
    assert [one.key for one in mark_series(CHECKS, days=days)] == ["sleep"]
    assert days_of((waist,)) == (days.first, days.last)


def test_sentences_say_what_is_seen():
    text = girths_text(girth_series(CHECKS, theilslopes), "kg")
    assert text.startswith("Waist 79 cm on 14 Dec 2026, −")
    assert text.endswith("since 23 Nov 2026; Hips 98 cm on 23 Nov 2026.")
    assert "Waist 31.1 in" in girths_text(girth_series(CHECKS, theilslopes), "lb")
    assert marks_text(mark_series(CHECKS)) == (
        "Sleep 3 of 5 on average, 4 answers; Mood 3 of 5 on average, 1 answer. "
        "5 is the good end of each."
    )
    assert "No girth" in girths_text((), "kg")
    assert "Nobody has been asked" in marks_text(())


def test_inches_go_with_pounds():
    assert in_length(25.4, "lb") == pytest.approx(10)
    assert (length_unit("lb"), length_unit("kg")) == ("in", "cm")
