"""The form for an own exercise: the fields of the exercise files, checked as one types."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QFormLayout,
    QFrame,
    QPlainTextEdit,
    QScrollArea,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from app import own_exercises, resources
from app.domain.errors import CoachError
from app.domain.exercise import Equipment, Exercise, LoadKind, Pattern, Plane
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.field_help import explain
from app.ui.forms import ROW, Sheet, Wrapped, plain, text_field
from app.ui.library import own_values
from app.ui.library.detail import height_on_screen
from app.ui.library.facts import LOADS, SPINE
from app.ui.library.narrow import SKILLS
from app.ui.library.own_evidence import HINT, FiguresField, left_behind
from app.ui.library.own_parts import (
    CheckList,
    DeafBox,
    KinField,
    LinesField,
    PartsGrid,
    PoseBox,
    muscle_grid,
    stress_grid,
    work_values,
)
from app.ui.library.own_texts import TextsField
from app.ui.library.own_values import LABELS

CHECK_AFTER_MS = 120
NUMBERS = ("body_share", "setup_s", "rest_s", "rep_low", "rep_high")
UNITS = {
    "body_share": mark("% of body mass that counts"),
    "setup_s": mark("seconds"),
    "rest_s": mark("seconds"),
}
TEXTS = {
    "set_up": mark("One sentence a line, told to the client."),
    "cues": mark("One sentence a line, in the order of the movement."),
    "faults": mark("A line each: what is noticed: what to try."),
    "reaches": mark("A line each: knee flexion 110. Limitations are checked against these."),
}
HINTS = TEXTS | {"activation": HINT}

Rows = tuple[tuple[str, QWidget], ...]
"""Fields of a page by their names in the exercise."""


class OwnSheet(Sheet):
    """Make an exercise, from a pattern if one is given, or change one.

    Published figures stay with the pattern: they were measured in that exercise, not in its copy.
    Whatever is typed is checked at once; the sentence above the verbs says what is not right yet,
    and what was typed stays.
    """

    def __init__(
        self,
        bench: Bench,
        pattern: Exercise | None,
        parent: QWidget | None,
        *,
        change: bool = False,
    ) -> None:
        title = (
            tr("Change {pattern}", pattern=pattern.name)
            if change and pattern
            else tr("Own exercise")
        )
        super().__init__(
            parent,
            title,
            verb=tr("Keep changes") if change else tr("Keep exercise"),
            about=left_behind(pattern) if pattern and not change else "",
        )
        self.setModal(False)
        self.bench = bench
        self.changes = pattern if change else None
        self.touched = False
        self._build_fields()
        tabs = self.tabs = QTabWidget()
        tabs.setDocumentMode(True)
        self.body.addWidget(tabs)
        self._pages: dict[int, tuple[QWidget, Rows]] = {}
        for name, rows in (
            (tr("What it is"), self._identity()),
            (tr("Muscles"), (("work", self.work),)),
            (tr("Joints"), (("stress", self.stress), ("reaches", self.texts["reaches"]))),
            (tr("Prescription"), self._prescription()),
            (tr("Words"), tuple((n, self.texts[n]) for n in ("set_up", "cues", "faults"))),
            (tr("Languages"), (("texts", self.further),)),
            (tr("Relatives and figure"), self._kin()),
            (tr("Evidence"), (("activation", self.activation),)),
        ):
            holder = QWidget()
            # first, while it is empty: what moves is dressed again with all that is in it
            self._pages[tabs.addTab(holder, name)] = holder, rows
            for key, field in rows:
                # until its page is laid out it would belong to nobody, and outlive the form
                field.setParent(holder)
                if not field.accessibleName():
                    field.setAccessibleName(tr(LABELS[key]))
        self._next_page = QTimer(self)
        self._next_page.setInterval(0)
        self._next_page.timeout.connect(self._build_next)
        tabs.currentChanged.connect(self._build_page)
        self._build_page(0)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.check)
        if pattern is not None:
            self.fill(pattern if change else replace(pattern, activation=()))
            if not change:
                self.name.setText(own_values.named_copy(pattern))
        self._connect()
        self.resize(660, height_on_screen(self, 640))
        self.name.setFocus()
        self.name.selectAll()
        self.check()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._next_page.start()

    @property
    def is_whole(self) -> bool:
        """True once every page is laid out."""
        return not self._pages

    def _build_next(self) -> None:
        """Lay out one more page, now that the first is there to be filled in."""
        if self._pages:
            self._build_page(next(iter(self._pages)))
        else:
            self._next_page.stop()

    def _build_page(self, at: int) -> None:
        """Lay a page out, unless that was done already."""
        if at in self._pages:
            holder, rows = self._pages.pop(at)
            for _, field in rows:
                if isinstance(field, PartsGrid):
                    field.build()
            _lay_out_page(holder, rows)
            if self.isVisible():
                explain(self)

    # -- the form --------------------------------------------------------------------------

    def _build_fields(self) -> None:
        names = {m: n.trade for m, n in self.bench.shelf.muscles.items()}
        self.name = text_field(hint=tr("The trade's usual words"))
        self.aliases = text_field(hint=tr("Other names, with commas"))
        self.pattern = DeafBox(tr(LABELS["pattern"]), ((_word(p), p.value) for p in Pattern))
        self.plane = DeafBox(tr(LABELS["plane"]), ((_word(p), p.value) for p in Plane))
        self.load_kind = DeafBox(
            tr(LABELS["load_kind"]),
            ((tr(LOADS[kind]).capitalize(), kind.value) for kind in LoadKind),
        )
        self.equipment = CheckList(
            tr(LABELS["equipment"]), [e for e in Equipment if e is not Equipment.BODY]
        )
        self.flags = {
            "multi_joint": QCheckBox(tr("More than one joint moves the load")),
            "unilateral": QCheckBox(tr("One side at a time")),
            "timed": QCheckBox(tr("Repetitions are seconds")),
        }
        self.work, self.stress = muscle_grid(names), stress_grid()
        self.skill = DeafBox(
            tr(LABELS["skill"]), ((tr(word), level) for level, word in SKILLS.items())
        )
        self.spinal_load = DeafBox(
            tr(LABELS["spinal_load"]), ((tr(word).capitalize(), n) for n, word in enumerate(SPINE))
        )
        self.numbers = {name: text_field() for name in NUMBERS}
        for name, text in (
            ("setup_s", "60"),
            ("rest_s", "90"),
            ("rep_low", "6"),
            ("rep_high", "15"),
        ):
            self.numbers[name].setText(text)
        self.tempo = text_field("2-0-1-0", hint="2-0-1-0")
        self.texts = {name: LinesField(tr(LABELS[name])) for name in TEXTS}
        self.easier, self.harder = (
            KinField(self.bench, tr(LABELS[n])) for n in ("easier", "harder")
        )
        self.further = TextsField()
        self.pose = PoseBox(self.bench)
        self.activation = FiguresField(self.bench)
        self.warmup_for = CheckList(tr(LABELS["warmup_for"]), Pattern)

    def _identity(self) -> Rows:
        rows = [(name, getattr(self, name)) for name in ("name", "aliases", "pattern", "plane")]
        rows += [(name, box) for name, box in self.flags.items()]
        return (*rows, ("equipment", self.equipment), ("load_kind", self.load_kind))

    def _prescription(self) -> Rows:
        rows = [(name, field) for name, field in self.numbers.items()]
        return (
            *rows,
            ("tempo", self.tempo),
            ("skill", self.skill),
            ("spinal_load", self.spinal_load),
        )

    def _kin(self) -> Rows:
        names = ("figure", "easier", "harder", "warmup_for")
        fields = (self.pose, self.easier, self.harder, self.warmup_for)
        return tuple(zip(names, fields, strict=True))

    def _connect(self) -> None:
        for field in (self.name, self.aliases, self.tempo, *self.numbers.values()):
            field.textEdited.connect(self._touch)
        for box in (self.pattern, self.plane, self.load_kind, self.skill, self.spinal_load):
            box.currentIndexChanged.connect(self._touch)
        for flag in self.flags.values():
            flag.toggled.connect(self._touch)
        for text in (*self.texts.values(), *self.further.findChildren(QPlainTextEdit)):
            text.textChanged.connect(self._touch)
        for part in (
            self.work,
            self.stress,
            self.equipment,
            self.warmup_for,
            self.pose,
            self.activation,
            self.further,
        ):
            part.changed.connect(self._touch)
        for kin in (self.easier, self.harder):
            kin.changed.connect(self._touch)

    def fill(self, one: Exercise) -> None:
        """Show everything of an exercise."""
        self.name.setText(one.name)
        self.aliases.setText(", ".join(one.aliases))
        for box, value in (
            (self.pattern, one.pattern.value),
            (self.plane, one.plane.value),
            (self.load_kind, one.load_kind.value),
            (self.skill, one.skill),
            (self.spinal_load, one.spinal_load),
        ):
            box.choose(value)
        for name, flag in self.flags.items():
            flag.setChecked(getattr(one, name))
        self.equipment.show_values(one.equipment)
        self.warmup_for.show_values(one.warmup_for)
        self.work.show_values(work_values(one.work))
        self.stress.show_values({joint.value: level for joint, level in one.stress})
        for name, field in self.numbers.items():
            field.setText(str(getattr(one, name)))
        self.numbers["body_share"].setText(own_values.percent_text(one.body_share))
        self.tempo.setText(one.tempo)
        self.texts["set_up"].setPlainText("\n".join(one.set_up))
        self.texts["cues"].setPlainText("\n".join(one.cues))
        self.texts["faults"].setPlainText(own_values.faults_text(one.faults))
        self.texts["reaches"].setPlainText(own_values.reaches_text(one.reaches))
        self.activation.show_values(one.activation)
        self.further.show_values(one.texts)
        self.easier.show_values(one.easier)
        self.harder.show_values(one.harder)
        self.pose.show_value(one.figure)

    # -- what was typed --------------------------------------------------------------------

    def _touch(self, *_: object) -> None:
        self.touched = True
        self._later.start(CHECK_AFTER_MS)

    def values(self) -> dict[str, object]:
        """What was typed, as the shared rules read it. Raises CoachError for unreadable lines."""
        share = own_values.number_of(self.numbers["body_share"].text() or "0")
        values: dict[str, object] = {
            "name": self.name.text().strip(),
            "aliases": own_values.names_of(self.aliases.text()),
            "pattern": self.pattern.currentData(),
            "plane": self.plane.currentData(),
            "work": self.work.values(),
            "equipment": self.equipment.values() or [Equipment.BODY.value],
            "load_kind": self.load_kind.currentData(),
            "body_share": share / 100 if isinstance(share, int | float) else share,
            "skill": self.skill.currentData(),
            "spinal_load": self.spinal_load.currentData(),
            "tempo": self.tempo.text().strip(),
            "reaches": own_values.lines_of(self.texts["reaches"].toPlainText()),
            "stress": self.stress.values(),
            "set_up": own_values.lines_of(self.texts["set_up"].toPlainText()),
            "cues": own_values.lines_of(self.texts["cues"].toPlainText()),
            "faults": own_values.faults_of(self.texts["faults"].toPlainText()),
            "easier": self.easier.values(),
            "harder": self.harder.values(),
            "activation": self.activation.values(),
            "figure": self.pose.value(),
            "warmup_for": self.warmup_for.values(),
            "texts": self.further.values(),
        }
        values |= {name: flag.isChecked() for name, flag in self.flags.items()}
        return values | {
            name: own_values.number_of(self.numbers[name].text()) for name in NUMBERS[1:]
        }

    def exercise(self) -> Exercise:
        """The exercise as typed. Raises CoachError with what is not right yet."""
        name, catalogue = self.name.text().strip(), self.bench.desk.catalogue
        if not name:
            raise CoachError(tr("The exercise has no name yet."), mend=tr("Type one."))
        old = self.changes
        key = old.key if old is not None else own_exercises.key_for(name, catalogue)
        own_exercises.refuse_taken_name(name, key, catalogue)  # first: a copy begins with its name
        values = self.values()
        if old is not None:
            values["version"] = old.version
        try:
            exercise = resources.exercise_from_values(key, values, own=True)
            own_exercises.refuse_contradiction(exercise, catalogue, self.bench.shelf.references)
        except CoachError as error:
            raise CoachError(own_values.said(error)) from error
        return exercise

    def check(self) -> None:
        """Say what is not right yet, if anything was typed; only a whole exercise can be kept."""
        sentence = ""
        try:
            self.exercise()
        except CoachError as error:
            sentence = error.sentence
        self.keep_button.setEnabled(not sentence)
        self.show_error(sentence if self.touched else "")

    def keep(self) -> None:
        """Keep the exercise and offer it."""
        exercise = self.exercise()
        own_exercises.keep(self.bench.desk, exercise)
        self.bench.said.emit(tr("Kept: {exercise}", exercise=exercise.name))


def _word(value: Pattern | Plane) -> str:
    return tr(value.value.replace("_", " ").capitalize())


def _lay_out_page(holder: QWidget, rows: Rows) -> None:
    """Fill a page of the form, which scrolls if it must; labels are buddies of their fields.

    From the outside in: a widget that moves into a dressed window is dressed again with all in it.
    """
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 8, 0, 0)
    area = QScrollArea()
    column.addWidget(area)
    area.setWidgetResizable(True)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # its fields take the keyboard and scroll it
    area.setFrameShape(QFrame.Shape.NoFrame)
    page = QWidget()
    area.setWidget(page)
    form = QFormLayout(page)
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    form.setHorizontalSpacing(16)
    form.setVerticalSpacing(8)
    for name, field in rows:
        unit = f", {tr(UNITS[name])}" if name in UNITS else ""
        label = plain(f"{tr(LABELS[name])}{unit}")
        label.setBuddy(field)
        label.setMinimumHeight(min(ROW, field.sizeHint().height()))
        form.addRow(label, field)
        if name in HINTS:  # the hint inside a field goes once something is typed
            form.addRow("", Wrapped(tr(HINTS[name]), step="small", role="small"))
