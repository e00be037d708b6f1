from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import theilslopes

from app.domain.client import Client, ClientId, Screening, Sex
from app.domain.energy import Referral
from app.domain.energy.from_logs import suggest_from_logs
from app.domain.errors import CoachError
from app.domain.results import CheckIn

TODAY = date(2030, 9, 30)
JORUNN = Client(
    ClientId("jorunn"),
    "Jorunn Aske",
    born=date(1996, 3, 1),
    sex=Sex.FEMALE,
    height_cm=172,
    mass_kg=68,
    screenings=(Screening(date(2030, 8, 26), active=True, known_disease=False, symptoms=False),),
)


def logs(*, start_kg=68.0, per_day_kg=0.0, kcal=2400.0, days=28):
    first = TODAY - timedelta(days=days - 1)
    return [
        CheckIn(first + timedelta(days=n), mass_kg=start_kg + n * per_day_kg, kcal=kcal)
        for n in range(days)
    ]


def test_steady_mass_means_that_what_was_eaten_was_used():
    found = suggest_from_logs(JORUNN, logs(), theilslopes, on=TODAY)
    assert found.used.kcal == pytest.approx(2400)
    # 10 x 68 + 6.25 x 172 - 5 x 34 - 161 = 1424 at rest (mifflin1990)
    assert found.pal == pytest.approx(2400 / 1424)
    assert found.client.activity_level == 1.69
    assert found.client.kcal_now == 2400
    assert found.client.mass_kg == 68
    assert found.before_kcal == pytest.approx(1424 * 1.55)
    assert "2,400 kcal a day used" in found.text
    assert "2,207" in found.text


def test_an_equation_on_fat_free_mass_rests_on_what_was_measured():
    own = replace(JORUNN, energy_equation="cunningham_1991", fat_free_kg=50)
    found = suggest_from_logs(own, logs(), theilslopes, on=TODAY)
    assert found.resting_kcal == 1450  # 370 + 21.6 x 50 (cunningham1991)
    assert found.before_kcal == pytest.approx(1450 * 1.55)
    with pytest.raises(CoachError, match="needs the fat-free mass"):
        suggest_from_logs(replace(own, fat_free_kg=None), logs(), theilslopes, on=TODAY)


def test_falling_mass_means_that_more_was_used():
    found = suggest_from_logs(JORUNN, logs(per_day_kg=-0.05), theilslopes, on=TODAY)
    # 7,700 kcal for each kg (wishnofsky1958)
    assert found.used.kcal == pytest.approx(2400 + 0.05 * 7700)
    assert found.client.mass_kg == pytest.approx(68 - 27 * 0.05, abs=0.051)


def test_only_the_last_six_weeks_count():
    old = [replace(c, on=c.on - timedelta(days=120), kcal=4000) for c in logs()]
    found = suggest_from_logs(JORUNN, [*old, *logs()], theilslopes, on=TODAY)
    assert found.used.intake_kcal == 2400


def test_too_few_logs_are_named():
    with pytest.raises(CoachError, match="too few"):
        suggest_from_logs(JORUNN, logs(days=8), theilslopes, on=TODAY)
    with pytest.raises(CoachError, match="too few"):
        suggest_from_logs(JORUNN, [], theilslopes, on=TODAY)


def test_a_level_nobody_lives_at_is_not_taken_over():
    with pytest.raises(CoachError, match="written down"):
        suggest_from_logs(JORUNN, logs(kcal=5000), theilslopes, on=TODAY)


@pytest.mark.parametrize("change", [{"refer": ("kidney disease",)}, {"screenings": ()}])
def test_a_referral_stands_in_the_place_of_numbers(change):
    client = replace(JORUNN, **change)
    assert isinstance(suggest_from_logs(client, logs(), theilslopes, on=TODAY), Referral)


def test_eating_far_too_little_is_a_referral():
    found = suggest_from_logs(JORUNN, logs(kcal=900), theilslopes, on=TODAY)
    assert isinstance(found, Referral)
    assert "far below" in found.reasons[0]


def test_having_become_too_light_is_a_referral():
    light = logs(start_kg=56, per_day_kg=-0.1)
    found = suggest_from_logs(JORUNN, light, theilslopes, on=TODAY)
    assert isinstance(found, Referral)


def test_the_account_ends_in_the_level():
    found = suggest_from_logs(JORUNN, logs(), theilslopes, on=TODAY)
    last = found.working().lines[-1]
    assert (last.value, last.remark) == ("1.69", "1,424 kcal at rest")
