from __future__ import annotations

from datetime import date

import pytest

from app.domain.client import Client, ClientId, Screening
from app.domain.energy import body_mass_index, referral

TODAY = date(2030, 9, 2)
HEALTHY = (Screening(TODAY, active=True, known_disease=False, symptoms=False),)


def test_body_mass_index_is_mass_over_height_squared():
    client = Client(ClientId("a"), "A", height_cm=200, mass_kg=80)
    assert body_mass_index(client) == pytest.approx(20)
    assert body_mass_index(Client(ClientId("a"), "A", mass_kg=80)) is None


def test_nobody_is_sent_on_without_a_reason():
    assert referral(Client(ClientId("a"), "A", screenings=HEALTHY), TODAY) is None


def test_who_was_not_screened_is_asked_first():
    found = referral(Client(ClientId("a"), "A"), TODAY)
    assert found is not None
    assert found.reasons == ("Not screened yet: ask the screening questions first.",)


def test_every_reason_is_given_at_once():
    client = Client(
        ClientId("a"),
        "A",
        born=date(2015, 1, 1),
        height_cm=170,
        mass_kg=45,
        refer=("kidney disease",),
    )
    found = referral(client, TODAY)
    assert found is not None
    assert len(found.reasons) == 4


def test_the_eighteenth_birthday_is_the_edge():
    client = Client(ClientId("a"), "A", born=date(2012, 9, 2), screenings=HEALTHY)
    assert referral(client, date(2030, 9, 1)) is not None
    assert referral(client, date(2030, 9, 2)) is None
