from __future__ import annotations

from app.ui.charts.kinds import NAMES, Chart, Kind


def test_every_chart_has_a_name_of_its_own():
    assert set(NAMES) == set(Kind)
    assert len(set(NAMES.values())) == len(Kind)


def test_a_chart_without_series_draws_nothing():
    chart = Chart(Kind.MASS, "Body mass", "kg", "")
    assert (chart.rows, chart.weeks, chart.girths, chart.marks) == ((), (), (), ())
