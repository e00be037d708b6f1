"""The chart of reported activation."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app import resources
from app.domain.activation import band_of_amplitude
from app.domain.exercise import Activation, Muscle
from app.ui.library.evidence import (
    BANDS,
    BANDS_FROM,
    EvidenceChart,
    end_of_axis,
    study_rows,
)
from tests.ui.library import scene

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
SQUAT = replace(
    scene.shipped("back_squat"),
    activation=(
        Activation(Muscle.GLUTEALS, 29.4, 29.4, "contreras2015-thrust", "upper part"),
        Activation(Muscle.GLUTEALS, 45.4, 45.4, "contreras2015-thrust", "lower part"),
        Activation(Muscle.GLUTEALS, 27, 60, "neto2020"),
        Activation(Muscle.QUADRICEPS, 110, 110, "contreras2015-thrust", "upper part"),
    ),
)


def test_studies_are_never_joined():
    rows = study_rows(SQUAT)
    assert [(row.muscle, row.study) for row in rows] == [
        (Muscle.QUADRICEPS, "contreras2015-thrust"),
        (Muscle.GLUTEALS, "contreras2015-thrust"),
        (Muscle.GLUTEALS, "neto2020"),
    ]
    assert [len(row.figures) for row in rows] == [1, 2, 1]
    assert rows[1].details == "upper part; lower part"


@pytest.mark.parametrize("exercise", resources.catalogue().exercises, ids=lambda one: one.key)
def test_every_reported_figure_is_in_exactly_one_row(exercise):
    shown = [figure for row in study_rows(exercise) for figure in row.figures]
    assert sorted(map(repr, shown)) == sorted(map(repr, exercise.activation))


@pytest.mark.parametrize(
    ("highest", "end"), [(40, 100), (100, 100), (100.5, 120), (120, 120), (169, 180), (0, 100)]
)
def test_the_axis_holds_every_figure(highest, end):
    figure = Activation(Muscle.GLUTEALS, 0, highest, "neto2020")
    assert end_of_axis(study_rows(replace(SQUAT, activation=(figure,)))) == end


def test_the_bands_are_those_of_the_domain_and_their_source_is_shipped():
    for low, high, name in BANDS:
        middle = (low + (high or 100)) / 2
        assert band_of_amplitude(middle) == name
    assert BANDS_FROM in resources.references()


def test_every_row_is_spoken_with_its_band(qtbot):
    chart = EvidenceChart(SQUAT, NAMES, resources.references())
    qtbot.addWidget(chart)
    assert chart.spoken()[0] == "Quadriceps, Contreras 2015b: 110 %, very high"
    assert "27\N{EN DASH}60 %, moderate to high" in chart.accessibleName()


def test_marks_stand_where_their_figures_are(qtbot):
    chart = EvidenceChart(SQUAT, NAMES, resources.references())
    qtbot.addWidget(chart)
    chart.resize(700, chart.sizeHint().height())
    image = chart.grab().toImage()
    from app.ui.theme import current

    bar = current().bar.rgb()
    field_left, field_wide = 190, 700 - 190 - 112
    middle = round(chart._head_height() + chart._row_height() / 2)
    dark = [x for x in range(field_left, 700 - 112) if image.pixel(x, middle) == bar]
    assert dark
    centre = (dark[0] + dark[-1]) / 2
    assert centre == pytest.approx(field_left + field_wide * 110 / chart.end, abs=2)
