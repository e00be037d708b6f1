"""What mending would do, shown before it is done."""

from __future__ import annotations

from app.domain.edits.fields import add_sets
from app.domain.edits.place import replace_exercise
from app.domain.edits.weeks import make_light
from app.domain.edits.whole import rename
from app.domain.exercise import ExerciseKey
from app.domain.findings import Edit, Finding, edit
from app.ui.bench import Bench
from app.ui.mend_trial import MendTrial, full_label, touched


def trial(bench: Bench, mend: Edit | None) -> tuple[MendTrial, Finding]:
    return MendTrial(bench, lambda _: mend, bench), bench.desk.findings[0]


def test_what_is_pointed_at_is_tried_once_the_pointer_rests(bench: Bench, qtbot) -> None:
    tried, finding = trial(bench, edit("Rename", rename, name="Winter"))
    said: list[str] = []
    bench.said.connect(said.append)
    with qtbot.waitSignal(bench.previewed):
        tried.point_at(finding)
    assert tried.is_on
    assert bench.preview.after.name == "Winter"
    assert said == ["Rename: 0 findings would go, 0 would appear."]
    tried.point_at(None)
    assert bench.preview is None
    assert not tried.is_on


def test_a_passing_pointer_tries_nothing(bench: Bench, qtbot) -> None:
    tried, finding = trial(bench, edit("Rename", rename, name="Winter"))
    tried.point_at(finding)
    tried.point_at(None)
    with qtbot.assertNotEmitted(bench.previewed, wait=300):
        pass


def test_without_a_mend_or_with_one_that_cannot_be_nothing_is_shown(bench: Bench) -> None:
    for mend in (None, edit("Rename", rename, name=" ")):
        tried, finding = trial(bench, mend)
        tried.toggle(finding)
        assert bench.preview is None
        assert not tried.is_on


def test_what_another_pane_tries_is_left_alone(bench: Bench) -> None:
    drag = bench.desk.preview(edit("Rename", rename, name="Carried"))
    bench.show_preview(drag)
    tried, finding = trial(bench, edit("Rename", rename, name="Winter"))
    tried.toggle(finding)
    tried.stop()
    assert bench.preview is drag


def test_it_names_the_exercise_that_would_be_changed(bench: Bench) -> None:
    slot = next(iter(bench.desk.program.weeks[0].slots()))
    name = bench.desk.catalogue[slot.exercise].name
    tried, finding = trial(bench, edit("Add 1 set", add_sets, slot_id=slot.id, by=1))
    said: list[str] = []
    bench.said.connect(said.append)
    tried.toggle(finding)
    assert said[-1].startswith(f"Add 1 set ({name}): ")
    assert touched(bench.preview.before, bench.preview.after) == (slot.exercise,)


def test_a_substitution_is_named_with_both_exercises(bench: Bench) -> None:
    program, catalogue = bench.desk.program, bench.desk.catalogue
    slot = next(iter(program.weeks[0].slots()))
    new, old = catalogue[ExerciseKey("leg_press")], catalogue[slot.exercise]
    swap = edit(new.name, replace_exercise, slot_id=slot.id, exercise=new, old=old)
    label = full_label(swap, program, swap(program), catalogue)
    assert label == f"Substitute Leg press for {old.name}"


def test_what_touches_much_keeps_its_short_name(bench: Bench) -> None:
    light = edit("Make week 1 light", make_light, index=0)
    program = bench.desk.program
    assert full_label(light, program, light(program), bench.desk.catalogue) == "Make week 1 light"
