"""The sheet that tells everything on one exercise."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QPushButton

from app import own_exercises
from app.ui.library.detail import DetailDialog, Refusal, pose_picture
from app.ui.library.evidence import CAUTION, NOTHING, EvidenceChart
from tests.ui.library import scene


def sheet(qtbot, key: str, on=None) -> DetailDialog:
    made = DetailDialog(on or scene.bench(), scene.shipped(key), None)
    qtbot.addWidget(made)
    made.show()
    return made


def texts(dialog: DetailDialog) -> list[str]:
    return [label.text() for label in dialog.findChildren(QLabel)]


def link(dialog: DetailDialog, name: str) -> QPushButton:
    """The link to an exercise on the page that is shown."""
    page = dialog.page_area.widget()
    return next(one for one in page.findChildren(QPushButton) if one.text() == name)


def test_everything_there_is_to_say_is_said(qtbot):
    squat = scene.shipped("back_squat")
    says = texts(sheet(qtbot, "back_squat"))
    for line in (*squat.set_up, *squat.cues):
        assert line in says
    for fault in squat.faults:
        assert f"{fault.notice}: {fault.remedy}" in says
    assert any("barbell squat" in text for text in says)
    assert "Quadriceps, gluteals, adductors ½, spinal erectors ½" in says


def test_what_rules_it_out_for_the_client_stands_on_top(qtbot):
    dialog = sheet(qtbot, "back_squat")
    refusals = dialog.findChildren(Refusal)
    assert [one.accessibleName().startswith("Conflict: ") for one in refusals] == [True, True]
    assert "Bends the left knee past 90°" in refusals[0].accessibleName()
    assert "Needs barbell and rack, which Runa" in refusals[1].accessibleName()


def test_without_a_client_nothing_is_ruled_out_and_nothing_can_be_placed(qtbot):
    dialog = sheet(qtbot, "back_squat", scene.nobody())
    assert dialog.findChildren(Refusal) == []
    assert not dialog.keep_button.isEnabled()


def test_evidence_comes_with_its_caution(qtbot):
    dialog = sheet(qtbot, "back_squat")
    assert dialog.findChild(EvidenceChart) is not None
    assert any(text.startswith(CAUTION) and "DiGiovine 1992" in text for text in texts(dialog))


def test_where_nothing_was_measured_it_says_so(qtbot):
    dialog = sheet(qtbot, "wrist_circles")
    assert dialog.findChild(EvidenceChart) is None
    assert NOTHING in texts(dialog)


def test_an_index_is_a_figure_too(qtbot):
    dialog = sheet(qtbot, "easy_lateral_walk")
    assert dialog.findChild(EvidenceChart) is None
    assert any("Gluteal-to-TFL index 64" in text for text in texts(dialog))
    assert NOTHING not in texts(dialog)


def test_links_lead_to_relatives_and_back(qtbot):
    dialog = sheet(qtbot, "back_squat")
    assert dialog.back.isHidden()
    link(dialog, "Goblet squat").click()
    assert dialog.exercise.key == "goblet_squat"
    assert dialog.windowTitle() == "Goblet squat"
    dialog.back.click()
    assert dialog.exercise.key == "back_squat"
    assert dialog.back.isHidden()


def test_its_verb_places_what_is_shown(qtbot):
    dialog = sheet(qtbot, "back_squat")
    link(dialog, "Goblet squat").click()
    with qtbot.waitSignal(dialog.place_wanted) as placed:
        dialog.keep_button.click()
    assert placed.args == ["goblet_squat"]


def test_star_and_comparison_are_asked_for_what_is_shown(qtbot):
    dialog = sheet(qtbot, "step_up")
    with qtbot.waitSignal(dialog.star_wanted) as star:
        dialog.star.click()
    assert star.args == ["step_up"]
    with qtbot.waitSignal(dialog.compare_wanted) as compared:
        next(b for b in dialog.findChildren(QPushButton) if b.text() == "Compare…").click()
    assert compared.args[0].key == "step_up"


def test_it_tells_where_the_exercise_is_used(qtbot):
    assert any("Mon, Thu in week 1" in text for text in texts(sheet(qtbot, "step_up")))


def test_a_key_without_a_pose_has_no_picture(qtbot):
    from app.domain.figure import Phase
    from app.ui.library.detail import FIGURE

    bench = scene.nobody()
    assert pose_picture(bench, "", Phase.START, FIGURE) is None
    assert pose_picture(bench, "back_squat", Phase.END, FIGURE, ratio=1.0).width() == 150


def test_a_name_with_an_ampersand_is_shown_whole(qtbot):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own(name="Step & press"))
    above = scene.own(key="above", name="Above", easier=("ledge_step_up",))
    own_exercises.keep(bench.desk, above)
    made = DetailDialog(bench, above, None)
    qtbot.addWidget(made)
    assert link(made, "Step && press") is not None
