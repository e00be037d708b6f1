"""Where things stand in a week, and what a point in it means."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF

from app.domain.program import SlotId
from app.ui.grid import geometry
from app.ui.grid.face import Source, WeekFace, week_face
from app.ui.grid.geometry import Heights, Layout, Target, Zone
from tests import builders
from tests.ui.grid import scene

HEIGHTS = Heights(15, 16, 16, 17, 18)


def face(text: str = scene.WEEK) -> WeekFace:
    source = Source(
        builders.CATALOGUE, builders.client(free=scene.FREE), lambda slot: None, scene.TODAY
    )
    return week_face(builders.program(text), 0, source)


def layout(
    text: str = scene.WEEK, *, width: float = 1066, height: float = 500, need: float = 100
) -> Layout:
    measures = geometry.sizes(HEIGHTS, compact=height < geometry.LOW_WINDOW)
    return geometry.lay_out(
        face(text), width=width, height=height, measures=measures, need=lambda card: need
    )


def yes(slot: SlotId) -> bool:
    return True


def no(slot: SlotId) -> bool:
    return False


weeks = st.lists(st.integers(0, 14), min_size=7, max_size=7).map(
    lambda counts: " | ".join(
        f"{day}: " + ", ".join(["back_squat"] * count)
        for day, count in zip(builders.DAY_NAMES, counts, strict=True)
        if count
    )
)


@given(weeks, st.integers(600, 3000), st.integers(250, 1600))
def test_columns_share_the_width_without_gap_or_overlap(text, width, height):
    days = layout(text, width=width, height=height).days
    assert days[0].column.left() == 0
    assert days[-1].column.right() == width
    for one, after in pairwise(days):
        assert one.column.right() == after.column.left()
    for day in days:
        assert day.head.bottom() == day.body.top()
        assert day.body.bottom() == day.foot.top()
        assert day.foot.bottom() == height


@given(weeks, st.integers(900, 2000), st.integers(250, 1200))
def test_cards_lie_inside_their_column_and_never_overlap(text, width, height):
    for day in layout(text, width=width, height=height).days:
        for card in day.cards:
            assert day.column.left() < card.rect.left() < card.rect.right() < day.column.right()
        for one, after in pairwise(day.cards):
            assert one.rect.bottom() < after.rect.top()


@given(weeks, st.floats(0, 1065), st.floats(0, 499), st.booleans())
def test_every_point_of_a_week_is_a_place_to_put_something(text, x, y, onto):
    laid = layout(text)
    target = geometry.target_at(laid, QPointF(x, y), {}, onto_allowed=yes if onto else no)
    assert target is not None
    day = laid.days[target.day]
    assert day.column.left() <= x < day.column.right()
    if target.onto is None:
        assert target in geometry.stops(day)
    else:
        assert onto
        assert target.onto in {card.slot_id for card in day.cards}


def test_a_day_with_a_session_is_twice_as_wide_as_one_without():
    days = layout().days
    assert days[0].column.width() == pytest.approx(2 * days[1].column.width(), abs=2)


def test_a_low_window_has_compact_cards():
    tall, low = layout(height=500), layout(height=360)
    assert tall.days[0].cards[0].rect.height() == 54
    assert low.days[0].cards[0].rect.height() == 40


def test_a_line_that_is_too_wide_makes_the_whole_day_narrow_with_three_lines():
    plain, wide = layout(height=360), layout(height=360, need=500)
    assert not plain.days[0].narrow
    assert wide.days[0].narrow
    assert {card.rect.height() for card in wide.days[0].cards} == {54}


def test_a_long_day_scrolls_and_its_head_and_foot_stay():
    text = "Mon: " + ", ".join(["back_squat"] * 14)
    day = layout(text, height=360).days[0]
    assert len(day.cards) == 14
    assert day.longest_scroll > 0
    last = geometry.on_screen(day, day.cards[-1].rect, day.longest_scroll)
    assert last.bottom() <= day.body.bottom()


def test_six_cards_fit_the_smallest_window_without_scrolling():
    text = "Mon: " + ", ".join(["back_squat"] * 6)
    assert layout(text, width=1031, height=360).days[0].longest_scroll == 0


def test_hits_tell_heads_cards_ground_and_feet_apart():
    laid = layout()
    day = laid.days[0]
    card = geometry.on_screen(day, day.cards[1].rect, 0)
    found = geometry.hit(laid, card.center(), {})
    assert found is not None
    assert (found.zone, found.slot_id) == (Zone.CARD, day.cards[1].slot_id)
    zones = []
    for y in (10.0, card.bottom() + 1, day.foot.center().y()):
        found = geometry.hit(laid, QPointF(card.center().x(), y), {})
        assert found is not None
        zones.append(found.zone)
    assert zones == [Zone.HEAD, Zone.GROUND, Zone.FOOT]
    assert geometry.hit(laid, QPointF(2000, 10), {}) is None


def test_a_hit_follows_the_scroll():
    text = "Mon: " + ", ".join(["back_squat"] * 14)
    laid = layout(text, height=360)
    day = laid.days[0]
    point = geometry.on_screen(day, day.cards[5].rect, 200).center()
    found = geometry.hit(laid, point, {0: 200.0})
    assert found is not None
    assert found.slot_id == day.cards[5].slot_id


def test_the_middle_of_a_card_is_the_card_and_its_edges_are_the_places_beside_it():
    laid = layout()
    day = laid.days[0]
    session, card = day.sessions[0], day.cards[1]
    rect = geometry.on_screen(day, card.rect, 0)

    def at(share: float, onto=yes) -> Target | None:
        point = QPointF(rect.center().x(), rect.top() + share * rect.height())
        return geometry.target_at(laid, point, {}, onto_allowed=onto)

    assert at(0.1) == Target(0, session.id, 1)
    assert at(0.5) == Target(0, session.id, onto=card.slot_id)
    assert at(0.9) == Target(0, session.id, 2)
    assert at(0.4, no) == Target(0, session.id, 1)
    assert at(0.6, no) == Target(0, session.id, 2)


def test_empty_ground_and_feet_append_and_heads_put_first():
    laid = layout()
    session = laid.days[0].sessions[0]
    ground = QPointF(100, laid.days[0].body.bottom() - 2)
    foot = laid.days[0].foot.center()
    head = QPointF(100, 10)
    found = [
        geometry.target_at(laid, point, {}, onto_allowed=yes) for point in (ground, foot, head)
    ]
    assert found == [
        Target(0, session.id, None),
        Target(0, session.id, None),
        Target(0, session.id, 0),
    ]
    rest = geometry.target_at(laid, laid.days[1].body.center(), {}, onto_allowed=yes)
    assert rest == Target(1)


def test_the_mark_lies_between_the_cards_it_points_between():
    day = layout().days[0]
    session = day.sessions[0]
    for position in (1, 2):
        y = geometry.mark_of(day, Target(0, session.id, position))[2]
        assert session.cards[position - 1].rect.bottom() < y < session.cards[position].rect.top()
    assert geometry.mark_of(day, Target(0, session.id))[2] > session.cards[-1].rect.bottom()


def test_two_sessions_have_captions_and_a_place_of_their_own():
    laid = layout("Mon: back_squat, curl | Mon: bench_press")
    day = laid.days[0]
    assert [s.caption is not None for s in day.sessions] == [True, True]
    assert len(geometry.stops(day)) == 3 + 2
    below = geometry.on_screen(day, day.cards[-1].rect, 0)
    point = QPointF(below.center().x(), below.bottom() - 1)
    target = geometry.target_at(laid, point, {}, onto_allowed=no)
    assert target == Target(0, day.sessions[1].id, None)


def test_a_drag_scrolls_a_long_day_only_near_its_edges():
    text = "Mon: " + ", ".join(["back_squat"] * 14)
    day = layout(text, height=360).days[0]
    assert geometry.edge_scroll(day, day.body.top() + 2) < 0
    assert geometry.edge_scroll(day, day.body.bottom() - 2) > 0
    assert geometry.edge_scroll(day, day.body.center().y()) == 0
    short = layout().days[0]
    assert geometry.edge_scroll(short, short.body.bottom() - 2) == 0


def test_scrolling_to_a_card_moves_no_further_than_needed():
    text = "Mon: " + ", ".join(["back_squat"] * 14)
    day = layout(text, height=360).days[0]
    assert geometry.scroll_to(day, day.cards[0].rect, 0) == 0
    there = geometry.scroll_to(day, day.cards[9].rect, 0)
    shown = geometry.on_screen(day, day.cards[9].rect, there)
    assert day.body.contains(shown)
    assert geometry.scroll_to(day, day.cards[9].rect, there) == there


def test_days_without_a_session_can_be_folded_to_strips():
    measures = geometry.sizes(HEIGHTS, compact=False)
    folded = geometry.lay_out(
        face(), width=1066, height=500, measures=measures, need=lambda card: 100, fold=True
    )
    assert folded.days[1].column.width() < layout().days[1].column.width() / 2
    assert folded.days[0].column.width() > layout().days[0].column.width()
