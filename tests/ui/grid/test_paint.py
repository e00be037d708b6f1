"""The week at rest: rail, heads and feet."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QImage, QPainter

from app.domain.client import FreeTime
from app.ui.grid import geometry, paint
from app.ui.grid.card import need
from app.ui.grid.face import Source, week_face
from app.ui.grid.pens import make_pens
from app.ui.theme import LIGHT
from tests import builders
from tests.ui.grid import scene

PENS_THEME = LIGHT


def picture(text: str = scene.WEEK, *, width: int = 1066, height: int = 500, free=scene.FREE):
    pens = make_pens(PENS_THEME)
    client = builders.client(free=free)
    source = Source(builders.CATALOGUE, client, lambda slot: None, scene.TODAY)
    face = week_face(builders.program(text), 0, source)
    laid = geometry.lay_out(
        face,
        width=width,
        height=height,
        measures=geometry.sizes(pens.heights(), compact=height < geometry.LOW_WINDOW),
        need=lambda card: need(card, pens),
    )
    image = QImage(width, height, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    paint.paint_week(painter, paint.Scene(face, laid, {}), pens)
    painter.end()
    return image, laid, face


def names(image: QImage, rect) -> set[str]:
    whole = rect.toAlignedRect()
    return {
        image.pixelColor(x, y).name()
        for x in range(max(0, whole.left()), min(image.width(), whole.right()))
        for y in range(max(0, whole.top()), min(image.height(), whole.bottom()))
    }


def test_days_with_and_without_a_session_stand_on_different_ground(qapp):
    image, laid, _ = picture()
    assert image.pixelColor(4, 300) == LIGHT.sheet
    rest = laid.days[1].body.center().toPoint()
    assert image.pixelColor(rest) == LIGHT.rest


def test_today_is_marked_by_a_bar_and_a_word_and_only_today(qapp):
    image, laid, _ = picture()
    for day in laid.days:
        middle = round(day.column.center().x())
        assert (image.pixelColor(middle, 1) == LIGHT.accent) == (day.number == 2)


def test_a_day_over_the_clients_minutes_says_so_in_its_foot(qapp):
    text = "Mon: " + ", ".join(["back_squat 5x10 rest 180"] * 5)
    image, laid, _ = picture(text)
    assert LIGHT.outside.name() in names(image, laid.days[0].foot)
    image, laid, _ = picture("Mon: curl")
    assert LIGHT.outside.name() not in names(image, laid.days[0].foot)


def test_a_client_without_times_has_a_foot_without_a_cap(qapp):
    image, laid, face = picture("Mon: curl", free=(FreeTime(),) * 7)
    assert face.days[0].cap_min == 0
    assert LIGHT.bar.name() in names(image, laid.days[0].foot)


def test_pairs_are_runs_of_neighbours_with_one_letter():
    source = Source(builders.CATALOGUE, builders.client(), lambda slot: None, scene.TODAY)
    text = "Mon: curl pair A, crunch pair A, plank, leg_curl pair B, calf_raise pair B, curl pair A"
    cards = week_face(builders.program(text), 0, source).days[0].cards
    assert paint.pair_runs(cards) == ((0, 1), (3, 4))
    assert paint.pair_runs(()) == ()


def test_the_second_line_of_a_head_is_the_title_or_the_time():
    source = Source(
        builders.CATALOGUE, builders.client(free=scene.FREE), lambda slot: None, scene.TODAY
    )
    text = "Mon: curl | Tue: curl | Tue: crunch"
    days = week_face(builders.program(text), 0, source).days
    assert [paint.second_line(day) for day in days[:3]] == ["Mon 1", "2 sessions", "30 min free"]


@pytest.mark.parametrize("width", [560, 900, 1031, 1600, 3000])
@pytest.mark.parametrize("height", [240, 360, 500, 1400])
def test_any_size_can_be_painted(qapp, width, height):
    text = " | ".join(
        f"{day}: " + ", ".join(["split_squat 3x8-10 pair A", "curl 3x12 pair A"] * 7)
        for day in builders.DAY_NAMES
    )
    image, laid, _ = picture(text, width=width, height=height)
    assert not image.isNull()
    assert len(laid.days) == 7


def test_scrolled_cards_stay_below_the_head_and_above_the_foot(qapp):
    text = "Mon: " + ", ".join(["curl 3x12"] * 14)
    image, laid, _ = picture(text, height=360)
    day = laid.days[0]
    edge = round(day.cards[0].rect.left()) + 1
    in_foot = {image.pixelColor(edge, y).name() for y in range(round(day.foot.top()) + 2, 358)}
    assert LIGHT.card.name() not in in_foot
