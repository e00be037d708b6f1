"""What the menu commands do: each asks what it must, makes one edit and hands it to the bench."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtWidgets import QAbstractButton, QApplication, QMainWindow, QWidget

from app.domain.client import ClientId
from app.domain.edits import weeks
from app.domain.errors import CoachError
from app.domain.findings import edit
from app.domain.program import Program, ProgramId, Span
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.client.pane import ClientPane
from app.ui.curtain import Curtain, Idle
from app.ui.forms import ask_text
from app.ui.grid import WeekGrid
from app.ui.grid.access import announce
from app.ui.library.pane import LibraryPane
from app.ui.season import SeasonStrip
from app.ui.titles import Named
from db.errors import StoreFailure
from db.store import Store


class Commands(QMainWindow):
    """The commands of the window; the window itself puts its panes together."""

    bench: Bench
    store: Store
    grid: WeekGrid
    library: LibraryPane
    season: SeasonStrip
    client_pane: ClientPane
    curtain: Curtain
    idle: Idle
    _rest_days_hidden = False

    def say(self, sentence: str) -> None:
        """Show a sentence in the status line; assistive technology hears it as well."""
        self.statusBar().showMessage(sentence, 12_000)
        announce(self.statusBar(), sentence)

    def rescue(self, failure: StoreFailure) -> bool:
        """Offer another place for a file that cannot be written to; True if it should be again."""
        from app.rescue import held_by
        from app.ui.rescue_dialog import rescue

        return rescue(self.store, held_by(self.bench.desk), failure, self)

    def refresh_lists(self) -> None:
        """Read the lists of clients and programs again."""

    def name_clients(self, named: Named) -> None:
        """Name clients in the frames of windows so from now on."""

    # -- switching -------------------------------------------------------------------------

    def choose_client(self, client_id: ClientId | None) -> None:
        """Open that client with the newest program; None asks for a new client."""
        if client_id is None:
            self.refresh_lists()
            self.new_client()
            return
        with self.saying():
            programs = [p for p in self.store.programs(client_id) if not p.archived]
            newest = max(programs, key=lambda p: p.start, default=None)
            self.open(client_id, None if newest is None else newest.id)

    def choose_program(self, program_id: ProgramId | None) -> None:
        """Open that program of the open client; None asks for a new one."""
        if program_id is None:
            self.refresh_lists()
            self.new_program()
            return
        self.open(self.bench.desk.client.id, program_id)

    def open(self, client_id: ClientId, program_id: ProgramId | None) -> None:
        """Open a client and program; a sentence in the status line if that fails."""
        with self.saying():
            self.bench.desk.open(client_id, program_id)
            if program_id is not None:
                self.show_present_week()

    @contextmanager
    def saying(self) -> Iterator[None]:
        """What keeps the block from its end is said in the status line; what is open stays."""
        try:
            yield
        except CoachError as error:
            self.show_open()
            self.say(error.sentence)

    def show_open(self) -> None:
        """Show above the week whose it is, after another was chosen and could not be opened."""

    def read_again(self) -> None:
        """Take up what another window kept in the same file."""
        week = self.bench.week
        try:
            self.bench.desk.read_again()
        except CoachError as error:
            self.say(error.sentence)
            return
        self.bench.show_week(week)
        self.say(tr("Read again from the file. Earlier steps can no longer be undone."))

    def show_present_week(self) -> None:
        """Show the week that today lies in, or the end that is nearer to it."""
        self.bench.show_present_week()

    def choose_span(self, number: int) -> None:
        """Choose the span by its number in the row of buttons."""
        self.bench.choose_span(tuple(Span)[number])

    def toggle_rest_days(self) -> None:
        """Hide the days without a session, or show them again."""
        self._rest_days_hidden = not self._rest_days_hidden
        self.grid.hide_rest_days(self._rest_days_hidden)

    def toggle_client_pane(self) -> None:
        """Fold the client pane to a rail, or open it."""
        self.client_pane.fold(not self.client_pane.folded)

    def show_home(self) -> None:
        """Show who needs what today; the window has the page."""

    # -- files and people ------------------------------------------------------------------

    def new_client(self) -> None:
        """Ask for a new client and open it."""
        from app.ui.client.profile import ask_new_client

        client = ask_new_client(self)
        if client is not None:
            self._keep_new(lambda: self.bench.desk.add_client(client))

    def new_program(self) -> None:
        """Ask for a new program and open it."""
        from app.ui.new_program import ask_new_program

        if self.bench.desk.work is None:
            self.new_client()
        if self.bench.desk.work is None:
            return
        program = ask_new_program(self.bench, self, self.store)
        if program is not None:
            self._keep_new(lambda: self.bench.desk.add_program(program))

    def _keep_new(self, keep: Callable[[], object]) -> None:
        try:
            keep()
        except CoachError as error:
            self.say(error.sentence)

    def open_demo(self) -> None:
        """Fill this empty file with the demo's team and open the first member."""
        from app.demo import fill

        first = fill(self.store, self.bench.desk.catalogue)
        self.choose_client(first)

    def make_booklet(self) -> None:
        """Show the booklet of the open program, to print or to keep as a file."""
        from app.ui.booklet_dialog import BookletDialog

        BookletDialog(self.bench, self).exec()

    def make_booklets(self) -> None:
        """Ask whose booklets are to be made in one go."""
        from app.ui.batch_dialog import BatchDialog

        BatchDialog(self.bench, self.store, self).exec()

    def read_intake(self) -> None:
        """Ask for an intake form that came back, and show what it says."""
        from app.ui.client.intake_dialog import read_intake

        read_intake(self.bench, self.store, self)

    def read_filled_booklet(self) -> None:
        """Ask for a booklet that came back filled in, and show what it says."""
        from app.ui.filled_form_dialog import read_filled_booklet

        self.reading = read_filled_booklet(self.bench, self.store, self)

    def show_papers(self) -> None:
        """Show the papers besides the booklet, to print or to keep as files."""
        from app.ui.papers_dialog import PapersDialog

        PapersDialog(self.bench, self).exec()

    def export_plan(self) -> None:
        """Save the open program and client as a plan file."""
        from app.ui.plan_files import export_plan

        export_plan(self.bench, self)

    def import_plan(self) -> None:
        """Read a plan file as a new program of its client."""
        from app.ui.plan_files import import_plan

        import_plan(self.bench, self.store, self)

    def show_clients(self) -> None:
        """Show all clients; open the one that is wanted."""
        from app.ui.clients_dialog import ClientsDialog

        dialog = ClientsDialog(self.bench, self.store, self)
        dialog.exec()
        self.refresh_lists()
        if dialog.wants_new:
            self.new_client()
        elif dialog.wanted is not None:
            self.choose_client(dialog.wanted)

    def show_programs(self) -> None:
        """Show all programs of the open client, archived ones too."""
        from app.ui.programs_dialog import ProgramsDialog

        ProgramsDialog(self.bench, self.store, self).exec()
        self.refresh_lists()

    def show_history(self) -> None:
        """Show the steps of this session, and what the file has kept."""
        from app.ui.history_dialog import HistoryDialog

        HistoryDialog(self.bench, self.store, self).exec()

    def edit_coach(self) -> None:
        """Ask for the coach's name and contact."""
        from app.ui.coach_sheet import CoachSheet

        CoachSheet(self.store, self).exec()

    def show_ranges(self, rule: str = "") -> None:
        """Show the rules of thumb beside the coach's own, the line of `rule` chosen."""
        from app.ui.own_ranges import OwnRangesDialog

        OwnRangesDialog(self.bench, self.store, self, rule).exec()

    # -- program ---------------------------------------------------------------------------

    def rename_program(self) -> None:
        """Ask for another name of the program."""
        from app.domain.edits.whole import rename

        old = self.bench.desk.program.name
        name = ask_text(self, tr("Rename the program"), tr("Name"), text=old, verb=tr("Rename"))
        if name is not None:
            self.bench.keep(edit(tr("Rename {old}", old=old), rename, name=name))

    def toggle_archived(self) -> None:
        """Put the open program into the archive, or bring it back; one undo takes that back."""
        from app.domain.edits.whole import archive

        program = self.bench.desk.program
        verb = tr("Bring back") if program.archived else tr("Archive")
        self.bench.keep(edit(f"{verb} {program.name}", archive, archived=not program.archived))

    def show_comparison(self) -> None:
        """Show the open program beside an earlier state of it."""
        from app.ui.compare_dialog import CompareDialog

        CompareDialog(self.bench, self.store, self).exec()

    def give_program(self) -> None:
        """Ask who else gets the open program."""
        from app.ui.give_dialog import GiveDialog

        GiveDialog(self.bench, self.store, self).exec()
        self.refresh_lists()

    def edit_emphasis(self) -> None:
        """Ask for the muscles the program is for."""
        from app.ui.emphasis_sheet import EmphasisSheet

        EmphasisSheet(self.bench, self).exec()

    def show_progression(self) -> None:
        """Show the progression dialog."""
        from app.ui.progression_dialog import ProgressionDialog

        ProgressionDialog(self.bench, self).exec()

    def show_split(self) -> None:
        """Show the dialog that folds two sessions into one, or opens one into two."""
        from app.ui.split_dialog import SplitDialog

        SplitDialog(self.bench, self).exec()

    def show_report(self) -> None:
        """Show the findings report, to print or to keep as a file."""
        from app.ui.report_dialog import ReportDialog

        ReportDialog(self.bench, self).exec()

    def show_warmup(self) -> None:
        """Show the warm-up of a session of the open week."""
        from app.ui.warmup_dialog import WarmupDialog

        WarmupDialog(self.bench, self).exec()

    def show_layouts(self) -> None:
        """Show the layouts that can be laid over the open program."""
        from app.ui.new_program import LayoutSheet

        LayoutSheet(self.bench, self).exec()

    def show_substitutes(self) -> None:
        """Show ranked substitutes for the selected card."""
        from app.ui.substitutes import SubstituteDialog

        SubstituteDialog(self.bench, self.bench.selection[0], self).exec()

    def show_account(self) -> None:
        """Show how the number in focus came about: that of the pane that has the keyboard.

        A pane says what by a method `show_account`; a button that opens an account is pressed.
        """
        at = QApplication.focusWidget()
        if isinstance(at, QAbstractButton) and at.property("account"):
            at.click()
            return
        while at is not None and not hasattr(at, "show_account"):
            at = at.parentWidget()
        (self.grid if at is None or at is self else at).show_account()

    # -- weeks -----------------------------------------------------------------------------

    def _keep_week(self, label: str, function: Callable[..., Program], **arguments: object) -> None:
        self.bench.keep(edit(label, function, **arguments))

    def add_week(self) -> None:
        """Add an empty week after the open one."""
        index = self.bench.week
        self._keep_week(
            tr("Add a week after week {number}", number=index + 1), weeks.add_week, after=index
        )

    def duplicate_week(self) -> None:
        """Copy the open week behind itself."""
        index = self.bench.week
        self._keep_week(
            tr("Copy week {number}", number=index + 1), weeks.duplicate_week, index=index
        )

    def fill_on(self) -> None:
        """Copy the open week over every later one."""
        index = self.bench.week
        later = tuple(self.bench.desk.program.reach(index, Span.FROM_HERE))[1:]
        label = tr("Copy week {number} over all later weeks", number=index + 1)
        self._keep_week(label, weeks.fill_weeks, source=index, targets=later)

    def toggle_light(self) -> None:
        """Make the open week light, or ordinary again."""
        index = self.bench.week
        if self.bench.desk.program.weeks[index].light:
            self._keep_week(
                tr("Make week {number} ordinary", number=index + 1),
                weeks.make_ordinary,
                index=index,
            )
        else:
            self._keep_week(
                tr("Make week {number} light", number=index + 1), weeks.make_light, index=index
            )

    def insert_light(self) -> None:
        """Insert a light copy of the open week behind it."""
        index = self.bench.week
        label = tr("Insert a light week after week {number}", number=index + 1)
        self._keep_week(label, weeks.insert_light_week, after=index)

    def start_block(self) -> None:
        """Ask for a name and start a block at the open week."""
        index = self.bench.week
        name = ask_text(self, tr("Start a block"), tr("Name of the block"), verb=tr("Start here"))
        if name is not None:
            label = tr("Start a block at week {number}", number=index + 1)
            self._keep_week(label, weeks.start_block, index=index, name=name)

    def rename_block(self) -> None:
        """Ask for another name of the block that the open week lies in."""
        program = self.bench.desk.program
        number = program.block_of(self.bench.week)
        old = program.blocks[number].name
        name = ask_text(self, tr("Rename the block"), tr("Name"), text=old, verb=tr("Rename"))
        if name is not None:
            label = tr("Rename {old}", old=old)
            self._keep_week(label, weeks.rename_block, number=number, name=name)

    def join_block(self) -> None:
        """Join the open week's block to the one before it."""
        number = self.bench.desk.program.block_of(self.bench.week)
        self._keep_week(tr("Join two blocks"), weeks.join_block, number=number)

    def clear_week(self) -> None:
        """Empty the open week."""
        index = self.bench.week
        self._keep_week(
            tr("Clear week {number}", number=index + 1), weeks.clear_weeks, indices=(index,)
        )

    def remove_week(self) -> None:
        """Remove the open week."""
        index = self.bench.week
        self._keep_week(
            tr("Remove week {number}", number=index + 1), weeks.remove_weeks, indices=(index,)
        )

    def clear_chosen(self) -> None:
        """Empty the weeks chosen in the season."""
        run = self.bench.chosen
        self._keep_week(tr("Clear {run}", run=_run(run)), weeks.clear_weeks, indices=tuple(run))

    def remove_chosen(self) -> None:
        """Remove the weeks chosen in the season."""
        run = self.bench.chosen
        gone = edit(tr("Remove {run}", run=_run(run)), weeks.remove_weeks, indices=tuple(run))
        if self.bench.keep(gone):
            self.season.choose(range(0))

    def fill_chosen(self) -> None:
        """Copy the open week into the weeks chosen in the season."""
        index, run = self.bench.week, self.bench.chosen
        label = tr("Copy week {number} into {run}", number=index + 1, run=_run(run))
        self._keep_week(label, weeks.fill_weeks, source=index, targets=tuple(run))

    # -- help ------------------------------------------------------------------------------

    def show_guide(self) -> None:
        """Open the guide at the page that fits what has the keyboard."""
        from app.ui.field_help import page_for
        from app.ui.guide import show_guide

        show_guide(self, page_for(QApplication.focusWidget()))

    def show_help_on(self, form: QWidget) -> None:
        """Open the guide beside a form, at the form's page."""
        from app.ui.field_help import page_for
        from app.ui.guide import show_guide

        show_guide(form, page_for(form))

    def show_about(self) -> None:
        """Say what this is, which versions it runs on and under which licence."""
        from app.ui.guide import show_about

        show_about(self)


def _run(run: range) -> str:
    """'week 3', or 'weeks 3 to 5'."""
    return trn(
        "week {stop}", "weeks {start} to {stop}", len(run), stop=run.stop, start=run.start + 1
    )
