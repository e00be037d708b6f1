"""Figures on screen: told apart at list size, legible in grey and on dark grounds."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from app.domain.figure import (
    Bounds,
    Circle,
    Detail,
    Path,
    Phase,
    Primitive,
    Role,
    draw,
    mirror,
    primitives,
)
from app.ui.figure_paint import DARK, LIGHT, FigureIcons, fitting_scale, paint_in
from tests.domain.figure.shipped import poses

WIDE, HIGH = 72, 48
APART = 0.30  # of the union of two outlines, at list size
MOVED = 0.10  # mean change of tone between start and end
# Near relatives: the body takes much the same two shapes, and what tells them apart is smaller.
RELATIVES = {
    "the load on the hips differs": {"hip_thrust", "dumbbell_hip_thrust", "band_hip_thrust"},
    "bare, with a bar, or with folded arms": {
        *("glute_bridge", "barbell_glute_bridge", "bridge_drill"),
    },
    "a band or none": {"clam", "clam_band"},
    "the load in front differs": {
        *("front_squat", "dumbbell_front_squat", "goblet_squat", "band_squat"),
    },
    "a bar behind or a dumbbell before": {"box_squat", "goblet_squat_to_box"},
    "dumbbells or a bar, the same stance": {"split_squat", "barbell_split_squat"},
    "dumbbells or a bar, the same bench": {
        *("rear_foot_split_squat", "barbell_rear_foot_split_squat"),
    },
    "a dumbbell or a bar on the same block": {"calf_raise_block", "barbell_calf_raise"},
    "stepping forward or back to the same depth": {
        *("lunge", "reverse_lunge", "barbell_reverse_lunge"),
    },
    "one leg or both on a machine": {"leg_press", "single_leg_press", "leg_press_calf_raise"},
    "one leg or both on another machine": {"leg_extension", "single_leg_extension"},
    "one leg or both on the bench": {"back_extension", "single_leg_back_extension"},
    "the load in the hands differs": {"hex_bar_deadlift", "kettlebell_deadlift"},
    "bar, dumbbells or band in a hinge": {
        *("romanian_deadlift", "dumbbell_romanian_deadlift", "band_good_morning"),
    },
    "bar or dumbbells, wide or narrow, on one bench": {
        *("bench_press", "dumbbell_bench_press", "close_grip_bench_press", "dumbbell_fly"),
    },
    "one arm or both, kneeling": {"band_pulldown", "one_arm_pulldown"},
    "a dumbbell or a band to curl": {"dumbbell_curl", "band_curl"},
    "upper arm still or drawn back": {"one_arm_dumbbell_row", "dumbbell_triceps_kickback"},
    "walking to the side, deep or easy": {"lateral_band_walk", "easy_lateral_walk"},
    "palms up or down": {"wrist_curl", "reverse_wrist_curl"},
    "dumbbells or bands to raise": {"lateral_raise", "band_lateral_raise"},
    "arms overhead with dumbbells or without": {"dumbbell_overhead_press", "arm_circles"},
    "the load that is carried differs": {
        *("farmers_carry", "suitcase_carry", "goblet_carry", "overhead_carry"),
    },
}
BY_DETAIL = 0.10
# A wrist, an ankle or one arm moves, and the rest stays.
SMALL = {
    *("wrist_curl", "reverse_wrist_curl", "band_wrist_curl", "wrist_circles"),
    *("leg_press_calf_raise", "band_toe_raise", "single_leg_lying_curl"),
    *("incline_dumbbell_curl", "plank_shoulder_tap", "band_press_out"),
    *("dumbbell_triceps_kickback", "cable_toe_raise"),
}
MOVED_A_LITTLE = 0.03


Mask = frozenset[tuple[int, int]]


def painted(drawing: tuple[Primitive, ...]) -> QImage:
    """A drawing at list size, without its floor line, on nothing."""
    image = QImage(WIDE, HIGH, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    figure = tuple(item for item in drawing if item.stroke is not Role.FLOOR)
    paint_in(painter, figure, QRectF(0, 0, WIDE, HIGH), tones=LIGHT, contour_px=0.9)
    painter.end()
    return image


def mask(image: QImage) -> Mask:
    """The pixels that the figure covers."""
    return frozenset(
        (x, y) for x in range(WIDE) for y in range(HIGH) if image.pixelColor(x, y).alpha() > 127
    )


def are_relatives(a: str, b: str) -> bool:
    """Whether two exercises are known to look alike."""
    return any({a, b} <= family for family in RELATIVES.values())


def apart(a: Mask, b: Mask) -> float:
    """The share of the union that only one of them covers."""
    return 1 - len(a & b) / len(a | b)


@pytest.fixture(scope="module")
def icons(qapp: object) -> dict[tuple[str, Phase], QImage]:
    return {
        (key, phase): painted(draw(pair, phase, detail=Detail.ICON48))
        for key, pair in poses().items()
        for phase in Phase
    }


def test_any_two_exercises_are_told_apart_at_list_size(
    icons: dict[tuple[str, Phase], QImage],
) -> None:
    masks = {case: mask(image) for case, image in icons.items()}
    alike = []
    for a, b in combinations(poses(), 2):
        most = max(apart(masks[a, phase], masks[b, phase]) for phase in Phase)
        if most < (BY_DETAIL if are_relatives(a, b) else APART):
            alike.append((a, b, round(most, 2)))
    assert alike == []


def grey(image: QImage, x: int, y: int) -> float:
    """A pixel's lightness on white paper, 0 to 1."""
    colour = image.pixelColor(x, y)
    return colour.lightnessF() * colour.alphaF() + 1 - colour.alphaF()


@pytest.mark.parametrize("key", poses())
def test_start_and_end_look_different_at_list_size(
    icons: dict[tuple[str, Phase], QImage], key: str
) -> None:
    start, end = icons[key, Phase.START], icons[key, Phase.END]
    covered = mask(start) | mask(end)
    change = sum(abs(grey(start, x, y) - grey(end, x, y)) for x, y in covered) / len(covered)
    assert change >= (MOVED_A_LITTLE if key in SMALL else MOVED)


def test_a_mirrored_pose_paints_the_mirrored_picture(qapp: object) -> None:
    pose = poses()["step_up"].end
    plain = painted(primitives(pose)).flipped(Qt.Orientation.Horizontal)
    turned = painted(primitives(mirror(pose)))
    assert apart(mask(plain), mask(turned)) < 0.05


def lightness(colour: str) -> float:
    """L* of a colour, 0 to 100 (CIE 1976, sRGB)."""

    def linear(value: float) -> float:
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    shade = QColor(colour)
    luminance = (
        0.2126 * linear(shade.redF())
        + 0.7152 * linear(shade.greenF())
        + 0.0722 * linear(shade.blueF())
    )
    return 116 * luminance ** (1 / 3) - 16


@pytest.mark.parametrize("tones", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("a", "b"),
    [
        (Role.BODY, Role.MUSCLE_OUTER),
        (Role.SHORTS, Role.MUSCLE_OUTER),
        (Role.MUSCLE_OUTER, Role.MUSCLE_INNER),
        (Role.BODY, Role.INK),
        (Role.FAR, Role.INK),
        (Role.WOOD, Role.INK),
    ],
)
def test_tones_that_touch_differ_in_grey(tones: dict[Role, str], a: Role, b: Role) -> None:
    assert abs(lightness(tones[a]) - lightness(tones[b])) >= 20


@pytest.mark.parametrize(
    ("tones", "ground"), [(LIGHT, "#FFFEFA"), (DARK, "#31332F")], ids=["light", "dark"]
)
def test_the_contour_stands_out_from_the_ground(tones: dict[Role, str], ground: str) -> None:
    assert abs(lightness(tones[Role.INK]) - lightness(ground)) >= 40


@pytest.mark.parametrize("tones", [LIGHT, DARK], ids=["light", "dark"])
def test_every_role_has_a_tone(tones: dict[Role, str]) -> None:
    assert set(tones) == set(Role)


def test_a_small_exercise_is_not_blown_up() -> None:
    lying = Bounds(0, 0, 1.0, 0.2)
    standing = Bounds(0, 0, 0.3, 1.0)
    assert fitting_scale(lying, 500, 48) == pytest.approx(48)
    assert fitting_scale(standing, 500, 48) == pytest.approx(48)
    assert fitting_scale(lying, 30, 48) == pytest.approx(30)
    assert fitting_scale(Bounds(0, 0, 0.5, 1.5), 500, 48) == pytest.approx(32)


def test_a_figure_stands_on_the_lower_edge_of_its_box(qapp: object) -> None:
    covered = mask(painted(primitives(poses()["lunge"].start)))
    assert max(y for _, y in covered) >= HIGH - 2
    assert min(y for _, y in covered) <= 2


def test_a_list_figure_is_painted_once(qtbot: QtBot) -> None:
    figures = FigureIcons()
    pair = poses()["plank"]
    first = figures.pixmap(pair, ratio=2.0)
    assert (first.width(), first.height()) == (128, 96)
    assert first.devicePixelRatio() == 2.0
    assert figures.pixmap(pair, ratio=2.0).cacheKey() == first.cacheKey()
    assert not figures.icon(pair).isNull()


def test_other_tones_paint_other_figures(qtbot: QtBot) -> None:
    figures = FigureIcons()
    pair = poses()["plank"]
    light = figures.pixmap(pair).toImage()
    figures.set_tones(DARK)
    assert figures.pixmap(pair).toImage() != light


def test_a_dotted_line_and_a_ring_are_painted(qapp: object) -> None:
    line = Path(((0.0, 0.5), (1.0, 0.5)), stroke=Role.INK, weight=3, closed=False, dotted=True)
    plain = Path(((0.0, 0.5), (1.0, 0.5)), stroke=Role.INK, weight=3, closed=False)
    frame = Path(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)))
    dots, full = mask(painted((frame, line))), mask(painted((frame, plain)))
    assert 0 < len(dots) < len(full)
    assert mask(painted((frame, Circle((0.5, 0.5), 0.3, stroke=Role.INK))))
