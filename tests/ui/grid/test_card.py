"""Cards as they are painted: what is there at every width, and no text past an edge."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from app.domain.findings import Weight
from app.ui.grid import card
from app.ui.grid.card import Form
from app.ui.grid.face import CardFace, Mark, card_face
from app.ui.grid.pens import make_pens
from app.ui.theme import DARK, LIGHT
from tests.builders import CATALOGUE, slot

WIDTH, HEIGHT, MARGIN = 172, 54, 20


def face(text: str = "back_squat 4x10 rest 150 core 70kg pin load", **fields) -> CardFace:
    one = slot(text)
    exercise = CATALOGUE[one.exercise]
    from app.domain.loads import load_for
    from tests.builders import client

    return card_face(one, exercise, load=load_for(one, exercise, client()), **fields)


def painted(shown: CardFace, form: Form | None = None, *, width: int = WIDTH, dark: bool = False):
    image = QImage(width + 2 * MARGIN, HEIGHT + 2 * MARGIN, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    rect = QRectF(MARGIN, MARGIN, width, HEIGHT)
    pens = make_pens(DARK if dark else LIGHT)
    card.paint_card(painter, rect, shown, pens=pens, form=form or Form())
    painter.end()
    return image


def colours(image: QImage) -> set[str]:
    return {
        image.pixelColor(x, y).name()
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).alpha() == 255
    }


FORMS = [
    Form(),
    Form(compact=True),
    Form(narrow=True),
    Form(selected=True),
    Form(carried=True),
    Form(compact=True, selected=True),
]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("width", [96, 130, WIDTH, 260])
@pytest.mark.parametrize(
    "text",
    [
        "back_squat 4x10 core 70kg pin load",
        "split_squat 12x10-12 95%RM rest 600 tempo 3-1-1-0 112.5kg pin sets",
        "plank 3x30",
    ],
)
def test_nothing_is_painted_outside_the_card(qapp, text, width, form):
    image = painted(face(text, light=True), form, width=width)
    outside = [
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if not (MARGIN <= x < MARGIN + width and MARGIN <= y < MARGIN + HEIGHT)
        and image.pixelColor(x, y).alpha() > 0
    ]
    assert outside == []


def stem(image: QImage) -> int:
    """How many columns of the stem's colour stand at the left edge."""
    row = MARGIN + HEIGHT // 2
    return sum(
        image.pixelColor(MARGIN + x, row).name() in (LIGHT.bar.name(), LIGHT.accent.name())
        for x in range(8)
    )


def test_core_and_assistance_differ_by_the_weight_of_the_stem(qapp):
    assert stem(painted(face("back_squat 3x8 core"))) == 4
    assert stem(painted(face("back_squat 3x8"))) == 1


def test_a_selected_card_has_the_wash_and_the_accent(qapp):
    shown = colours(painted(face(), Form(selected=True)))
    assert LIGHT.wash.name() in shown
    assert LIGHT.card.name() not in shown


def test_a_light_week_is_hatched_beside_the_stem(qapp):
    plain, light = painted(face("curl 3x8")), painted(face("curl 3x8", light=True))
    strip = [plain.pixelColor(MARGIN + 5, MARGIN + y) for y in range(5, HEIGHT - 5)]
    hatched = [light.pixelColor(MARGIN + 5, MARGIN + y) for y in range(5, HEIGHT - 5)]
    assert len({c.name() for c in strip}) == 1
    assert len({c.name() for c in hatched}) > 1


def test_a_finding_shows_its_sign_at_the_right(qapp):
    mark = Mark(Weight.CONFLICT, None, accepted=False, sentences=("Conflict: odd",))
    assert LIGHT.conflict.name() in colours(painted(face(mark=mark)))
    accepted = Mark(Weight.CONFLICT, None, accepted=True, sentences=("Conflict: odd",))
    assert LIGHT.conflict.name() not in colours(painted(face(mark=accepted)))


def test_a_field_set_by_hand_is_underlined_in_accent(qapp):
    plain = face("curl 3x8 12kg")
    pinned = face("curl 3x8 12kg pin load")
    assert LIGHT.accent.name() not in colours(painted(plain))
    assert LIGHT.accent.name() in colours(painted(pinned))
    assert LIGHT.accent.name() in colours(painted(pinned, Form(narrow=True)))


def test_the_width_a_card_asks_for_grows_with_what_it_says(qapp):
    pens = make_pens(LIGHT)
    short, long = face("curl 3x8"), face("split_squat 12x10-12 95%RM 112.5kg pin load")
    assert card.need(short, pens) < card.need(long, pens)
    image = painted(long, Form(narrow=True), width=120)
    assert LIGHT.ink.name() in colours(image)


def test_an_effort_too_long_for_its_place_is_written_short_and_never_left_out(qapp):
    pens = make_pens(LIGHT)
    long, short = "95 % of 10RM", "95 % RM"
    assert card._fitting(long, pens.width(long, "body"), pens) == (long, "body")
    assert card._fitting(long, pens.width(long, "small"), pens) == (long, "small")
    assert card._fitting(long, pens.width(short, "small"), pens) == (short, "small")
    assert card._fitting(long, pens.width("95%RM", "small"), pens) == ("95%RM", "small")
    assert card._fitting("75 % 1RM", pens.width("75%1RM", "small"), pens) == ("75%1RM", "small")
    assert card._fitting(long, 10, pens) is None
    image = painted(face("split_squat 4x8-10 95%RM pin effort"), Form(narrow=True), width=90)
    third = [image.pixelColor(MARGIN + 12, MARGIN + y).name() for y in range(38, HEIGHT)]
    assert LIGHT.accent.name() in third, "the effort, set by hand, stands in the place of the rest"


def test_dark_cards_take_dark_colours(qapp):
    assert DARK.card.name() in colours(painted(face(), dark=True))
    assert LIGHT.card.name() not in colours(painted(face(), dark=True))


def test_a_ghost_of_several_leaves_its_name_and_its_count_apart(qapp):
    pens = make_pens(LIGHT)
    long = replace(face(), name="Romanian deadlift in a staggered stance")
    same = replace(long, name=f"{long.name} with a band")
    one, other = (card.ghost(each, pens, more=2).toImage() for each in (long, same))
    assert one == other, "the name is cut before the count, and nothing shows behind it"


def test_a_ghost_of_several_says_how_many_more(qapp):
    pens = make_pens(LIGHT)
    one, three = card.ghost(face(), pens), card.ghost(face(), pens, more=2)
    assert one.size() == three.size()
    assert one.toImage() != three.toImage()
