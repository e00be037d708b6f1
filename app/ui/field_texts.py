"""The sentences that explain the fields of forms, and which page of the guide goes with what.

They stand here and not in the forms, so that they can be read in one go.
"""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.wording import mark
from app.ui.exchange_texts import EXCHANGE_FIELDS, EXCHANGE_PAGES

ANY = "*"
"""Stands for every field of a form that has no sentence of its own."""

PAGES: Mapping[str, str] = {
    "ProfileSheet": "first-client",
    "StatusSheet": "first-client",
    "IntakeDialog": "first-client",
    "ClientsDialog": "first-client",
    "ScreeningSheet": "cautions",
    "LimitationSheet": "first-client",
    "DaysSheet": "first-client",
    "EquipmentSheet": "first-client",
    "NewProgramSheet": "first-program",
    "LayoutSheet": "first-program",
    "EmphasisSheet": "first-program",
    "ProgramsDialog": "first-program",
    "GiveDialog": "first-program",
    "HistoryDialog": "first-program",
    "CompareDialog": "first-program",
    "TestSheet": "tests-and-loads",
    "EnergySheet": "check-ins-and-charts",
    "CardSheet": "dragging-and-keys",
    "WarmupDialog": "warm-up",
    "ProgressionDialog": "progression",
    "SplitDialog": "changing-the-split",
    "SubstituteDialog": "substitutes",
    "OwnSheet": "substitutes",
    "BringBack": "substitutes",
    "DetailDialog": "substitutes",
    "ReportDialog": "checks-and-ranges",
    "OwnRangesDialog": "checks-and-ranges",
    "BookletDialog": "booklet",
    "BatchDialog": "booklet",
    "PapersDialog": "booklet",
    "CoachSheet": "booklet",
    "Roster": "first-client",
    "CopySheet": "first-client",
    "MergeDialog": "first-client",
    "RecordSheet": "first-client",
    "CurtainSheet": "files-backup-privacy",
    "KeepingSheet": "files-backup-privacy",
    "Interview": "first-client",
    "WishesSheet": "first-client",
    "FilledFormDialog": "first-client",
    "CheckInSheet": "check-ins-and-charts",
    "CheckInsDialog": "check-ins-and-charts",
    "WeeksSheet": "check-ins-and-charts",
    "ResultsDialog": "results",
    "OtherExerciseSheet": "results",
    "ResultTableDialog": "results",
    "ProgressReportDialog": "check-ins-and-charts",
    "ChartsWindow": "check-ins-and-charts",
    "AdjustDialog": "results",
    "FromResultsDialog": "results",
    "StrengthDialog": "tests-and-loads",
    "GuessSheet": "tests-and-loads",
    "EraseDialog": "files-backup-privacy",
    "LockSheet": "files-backup-privacy",
    "UnlockSheet": "files-backup-privacy",
    "RescueDialog": "files-backup-privacy",
    "WeekGrid": "dragging-and-keys",
    "SeasonStrip": "first-program",
    "TallyBars": "checks-and-ranges",
    "FindingsPane": "checks-and-ranges",
    "LibraryPane": "substitutes",
    "ClientPane": "first-client",
    "Welcome": "first-client",
    **EXCHANGE_PAGES,
}
"""The page of the guide that fits a form or a pane, by the name of its class."""

_PAPER = mark("The size of the sheets in the printer the paper is made for.")
_GREY = mark("Tones that stay apart on a printer without colour; signs and words are the same.")
_FIRST = mark("The first week that is meant, counted from 1.")
_LAST = mark("The last week that is meant; it is included.")
_EMPHASIS = mark(
    "The muscles it is for, the most wanted first: their ranges are wider, bars first."
)

FIELDS: Mapping[tuple[str, str], str] = {
    ("ProfileSheet", "Name"): mark("As the client is called here and on the booklet's cover."),
    ("ProfileSheet", "Team"): mark(
        "A team, gym or group; it stands below the name, and may be empty."
    ),
    ("ProfileSheet", "Contact"): mark("How you reach the client; it stays in this file."),
    ("ProfileSheet", "Birth date"): mark(
        "Gives the age for checks and energy; leave it unticked if unknown."
    ),
    ("ProfileSheet", "Sex, for the equations"): mark(
        "Only the published equations for energy ask for it."
    ),
    ("ProfileSheet", "Stature"): mark("Standing height without shoes, for the energy equations."),
    ("ProfileSheet", "Body mass"): mark(
        "In light clothes; loads that are part body weight rest on it."
    ),
    ("ProfileSheet", "It is right as entered"): mark(
        "Tick it if the unusual value is what you mean."
    ),
    ("ProfileSheet", "Training status"): mark(
        "Decides which published ranges hold; Ask… leads to it by questions."
    ),
    ("ProfileSheet", "Years of training"): mark(
        "Years of regular strength training, without longer breaks."
    ),
    ("ProfileSheet", "Trains for"): mark(
        "What most of the training is for; some ranges differ by it."
    ),
    ("ProfileSheet", "Emphasis"): _EMPHASIS,
    ("ProfileSheet", ANY): mark(
        "What you know of the client; everything but the name may stay empty."
    ),
    ("StatusSheet", ANY): mark(
        "Answer as the client would; the answers decide the training status."
    ),
    ("IntakeDialog", ANY): mark("An answer from the form; tick what is to be taken over."),
    ("ClientsDialog", ANY): mark("Everybody in this file; Enter opens the marked client."),
    ("ScreeningSheet", "Cleared on"): mark(
        "The day a practitioner agreed to training; unticked if none did."
    ),
    ("ScreeningSheet", "Note"): mark(
        "What the practitioner said or what you agreed on; it stays in this file."
    ),
    ("ScreeningSheet", ANY): mark(
        "Tick it if the client says yes; it prompts, and diagnoses nothing."
    ),
    ("LimitationSheet", "Joint"): mark("The joint that must not do the motion."),
    ("LimitationSheet", "Ruled out"): mark(
        "The motion or strain that somebody competent ruled out."
    ),
    ("LimitationSheet", "Side"): mark("The side it holds for."),
    ("LimitationSheet", "Past an angle of"): mark(
        "Up to this angle the motion is allowed; empty rules it out."
    ),
    ("LimitationSheet", "Until"): mark(
        "The day to look again with whoever set it; the checks then remind you."
    ),
    ("LimitationSheet", "Note"): mark("Who said so, and why: it is printed with the conflict."),
    ("LimitationSheet", ANY): mark("Limitations that hold now; Remove takes the marked one away."),
    ("DaysSheet", ANY): mark(
        "Minutes free on that weekday, warm-up included; 0 means no training."
    ),
    ("EquipmentSheet", ANY): mark(
        "What there is to train with; the fit of exercises and the steps of loads rest on it."
    ),
    ("TestSheet", "Exercise"): mark("What was lifted; the test gives loads for this exercise."),
    ("TestSheet", "Day"): mark("When it was lifted; the newest test of an exercise counts."),
    ("TestSheet", "Load lifted"): mark(
        "As written on the bar, one dumbbell or the stack; without body weight."
    ),
    ("TestSheet", "Repetitions"): mark("Clean repetitions of the best set; 3 to 10 estimate best."),
    ("TestSheet", "Left in reserve"): mark(
        "How many more would have been clean; 0 means it was the last one."
    ),
    ("TestSheet", ANY): mark("What was lifted in the test."),
    ("NewProgramSheet", "Name"): mark("As the program is called here and on the booklet."),
    ("NewProgramSheet", "First week of"): mark("Any day of the first week; weeks begin on Monday."),
    ("NewProgramSheet", "Weeks"): mark(
        "How long it is to be, 1 to 52 weeks; it can be changed later."
    ),
    ("NewProgramSheet", "Emphasis"): _EMPHASIS,
    ("NewProgramSheet", ANY): mark(
        "What the weeks begin with; every exercise can be changed afterwards."
    ),
    ("LayoutSheet", ANY): mark("The layout that takes the place of what stands in all weeks."),
    ("EmphasisSheet", ANY): _EMPHASIS,
    ("ProgramsDialog", ANY): mark("All programs of the client; Enter opens the marked one."),
    ("GiveDialog", "Name"): mark("As the copies are called with each client."),
    ("GiveDialog", "First week of"): mark("When the copies begin; any day of that week."),
    ("GiveDialog", ANY): mark(
        "Tick who gets a copy; what would differ is listed for the marked client."
    ),
    ("HistoryDialog", ANY): mark("Steps in their order; choose how far the work is to be done."),
    ("CompareDialog", "Compare with"): mark(
        "A booklet that was handed out, or an earlier step of this session."
    ),
    ("CompareDialog", "Only what differs"): mark(
        "Leave out weeks and exercises that are the same."
    ),
    ("CompareDialog", ANY): mark("The two that stand side by side."),
    ("CardSheet", "Sets"): mark("Working sets, without ramp sets."),
    ("CardSheet", "Repetitions"): mark("From and to; the same number twice for a single target."),
    ("CardSheet", "Effort"): mark("How hard a set is meant to be; the load follows from it."),
    ("CardSheet", "Rest"): mark("Seconds from the end of a set to the next one."),
    ("CardSheet", "Tempo"): mark(
        "Seconds down, below, up and above, such as 3-0-1-0; empty for none."
    ),
    ("CardSheet", "Load"): mark(
        "A load by hand in place of the worked-out one; empty takes it off."
    ),
    ("CardSheet", "Role"): mark("Core work follows the progression; assistance keeps its floors."),
    ("CardSheet", "Note"): mark("Printed below the exercise in the client's booklet."),
    ("TextSheet", ANY): mark("A short text in your own words; it must not be empty."),
    ("WarmupDialog", "Session"): mark(
        "The session of the open week that the warm-up stands before."
    ),
    ("WarmupDialog", "Rounds"): mark(
        "How often the marked drill is done; its zone says once, and 1 to 10 are accepted."
    ),
    ("WarmupDialog", "From"): mark(
        "The fewest repetitions of a round, or seconds for a drill that is timed."
    ),
    ("WarmupDialog", "To"): mark("The most of a round; the same number twice for a single target."),
    ("WarmupDialog", "Lift"): mark("The core lift whose ramp sets are set below."),
    ("WarmupDialog", "Ramp sets"): mark(
        "Worked out from the load, none at all, or the steps that you write below."
    ),
    ("WarmupDialog", "Steps"): mark(
        "Per cent of the working load, or kg or lb, then x and repetitions, with commas between."
    ),
    ("WarmupDialog", ANY): mark(
        "Drills in their order; those that suit the session stand on the right."
    ),
    ("ProgressionDialog", "Scheme"): mark(
        "How repetitions run over the weeks; the chart shows each as it would be."
    ),
    ("ProgressionDialog", "First week"): _FIRST,
    ("ProgressionDialog", "Last week"): _LAST,
    ("ProgressionDialog", "From"): mark(
        "The fewest repetitions of the one range that all weeks share."
    ),
    ("ProgressionDialog", "To"): mark(
        "The most repetitions; once every set reaches them, the load rises."
    ),
    ("ProgressionDialog", "Reps of a wave"): mark(
        "Repetitions week by week within one wave, with commas."
    ),
    ("ProgressionDialog", "Each wave lower by"): mark(
        "How many repetitions a wave lies below the one before."
    ),
    ("ProgressionDialog", "Reps by session"): mark(
        "Repetitions for the week's sessions in turn, with commas."
    ),
    ("ProgressionDialog", "First reps"): mark("Repetitions of the core work in the first week."),
    ("ProgressionDialog", "Last reps"): mark("Repetitions of the core work in the last week."),
    ("ProgressionDialog", "Light weeks"): mark(
        "Make every so many weeks light; unticked, the plan's own stay."
    ),
    ("ProgressionDialog", "Every so many weeks"): mark(
        "4 makes the fourth, the eighth and so on light."
    ),
    ("ProgressionDialog", "Set the effort too"): mark(
        "Let repetitions in reserve run along from easy to hard."
    ),
    ("ProgressionDialog", "Core RIR, first"): mark(
        "Repetitions in reserve of the core work in the first week."
    ),
    ("ProgressionDialog", "Core RIR, last"): mark(
        "Repetitions in reserve of the core work in the last week."
    ),
    ("ProgressionDialog", "Sets rise too"): mark("Add sets evenly until the last week."),
    ("ProgressionDialog", "More sets by the end"): mark(
        "How many sets more each exercise has in the last week."
    ),
    ("ProgressionDialog", ANY): mark("Repetitions in reserve of the assistance work."),
    ("SplitDialog", "Session that goes"): mark("Its exercises fold in elsewhere or go."),
    ("SplitDialog", "Session it folds into"): mark("The session that takes the ticked exercises."),
    ("SplitDialog", "Day of the second session"): mark(
        "The weekday that the second session opens on."
    ),
    ("SplitDialog", "Effort of core work"): mark(
        "Fewer days can mean closer to the limit; the checks judge it."
    ),
    ("SplitDialog", ANY): mark("What changes hands; both sides are shown before you decide."),
    ("SubstituteDialog", ANY): mark("How far the swap reaches, for this one time."),
    ("ReportDialog", "Paper"): _PAPER,
    ("ReportDialog", "With the client's name"): mark(
        "Unticked, the initials alone stand on the report."
    ),
    ("ReportDialog", "Tones for a grey printer"): _GREY,
    ("ReportDialog", ANY): mark("How the report is printed."),
    ("OwnRangesDialog", "Search the ranges"): mark("A word of a rule, of people or of a source."),
    ("OwnRangesDialog", "From, to"): mark("Your own lower and upper end; an empty end is open."),
    ("OwnRangesDialog", "Who sets it"): mark("Your name: it stands wherever the range is used."),
    ("OwnRangesDialog", "Why"): mark("What you saw, or what you go by; a colleague will read it."),
    ("OwnRangesDialog", "Rests on"): mark(
        "A publication, yours or a shipped one: it is cited wherever the range is used."
    ),
    ("OwnRangesDialog", ANY): mark(
        "Every rule of thumb with its source; yours is shown beside it."
    ),
    ("BookletDialog", "Paper"): _PAPER,
    ("BookletDialog", "First week"): _FIRST,
    ("BookletDialog", "Last week"): _LAST,
    ("BookletDialog", "Tones for a grey printer"): _GREY,
    ("BookletDialog", ANY): mark("How the booklet is printed; the pages show it at once."),
    ("BatchDialog", "Paper"): _PAPER,
    ("BatchDialog", "Language"): mark(
        "The language of every booklet, or for each client the one in the profile."
    ),
    ("BatchDialog", "Folder"): mark(
        "Where the files go; nothing that stands there is overwritten."
    ),
    ("BatchDialog", "File names"): mark("What each file is called; words in braces are filled in."),
    ("BatchDialog", "Tones for a grey printer"): _GREY,
    ("BatchDialog", ANY): mark("What goes into every booklet, and who gets one."),
    ("PapersDialog", "Paper"): _PAPER,
    ("PapersDialog", "Week"): mark("The week that the paper shows, counted from 1."),
    ("PapersDialog", "Tones for a grey printer"): _GREY,
    ("PapersDialog", ANY): mark("How the chosen paper is printed."),
    ("CoachSheet", "Name"): mark("Your name, as it stands on covers and at the foot of pages."),
    ("CoachSheet", "Contact"): mark("How a client reaches you between sessions."),
    ("CoachSheet", "Team"): mark("Your team or gym, if it is to be printed."),
    ("CoachSheet", ANY): mark("Printed on every booklet from now on."),
    ("OwnSheet", "Name"): mark("The trade's usual words for it, as in the list."),
    ("OwnSheet", "Other names"): mark("Names that the search finds as well, with commas."),
    ("OwnSheet", "Movement"): mark(
        "The kind of movement; order, balance and substitutes rest on it."
    ),
    ("OwnSheet", "Plane"): mark("The plane that the load moves in."),
    ("OwnSheet", "Joints"): mark("Ticked where the load moves over more than one joint."),
    ("OwnSheet", "Sides"): mark(
        "Ticked where each side works by itself: time and load count twice."
    ),
    ("OwnSheet", "Timed"): mark("Ticked where a set is held for seconds."),
    ("OwnSheet", "Equipment"): mark("All that is needed at once; the fit to a client rests on it."),
    ("OwnSheet", "Load"): mark(
        "What the written load means: bar and plates, one dumbbell, a stack, the body."
    ),
    ("OwnSheet", "Muscles"): mark("The part of a set that counts for the muscle."),
    ("OwnSheet", "Stress"): mark(
        "How much the joint feels of it; limitations and mends look at it."
    ),
    ("OwnSheet", "Reaches"): mark(
        "Angles that are reached, a line each; limitations are checked against them."
    ),
    ("OwnSheet", "Own mass"): mark("The share of body mass that is lifted along, %."),
    ("OwnSheet", "Set-up time"): mark(
        "Seconds to set up before the first set; minutes rest on it."
    ),
    ("OwnSheet", "Usual rest"): mark("Seconds of rest that a new card begins with."),
    ("OwnSheet", "Fewest repetitions"): mark("Below this the exercise makes little sense."),
    ("OwnSheet", "Most repetitions"): mark("Above this the exercise makes little sense."),
    ("OwnSheet", "Usual tempo"): mark("Seconds down, below, up and above, such as 2-0-1-0."),
    ("OwnSheet", "Demand"): mark(
        "How long it takes to learn; novices are warned of the hard ones."
    ),
    ("OwnSheet", "Spine"): mark(
        "How heavily the spine is loaded; following days are watched for it."
    ),
    ("OwnSheet", ANY): mark(
        "Part of what the list, the checks and the booklet know of the exercise."
    ),
    ("EnergySheet", ANY): mark("Goes into the energy plan; the working on the sheet shows how."),
    ("Roster", ANY): mark("Narrows the list of clients as you type or choose."),
    ("CopySheet", "Name"): mark("As the copy is called; it is a client of its own from then on."),
    ("CopySheet", ANY): mark("Ticked, the copy has the programs as well, without results."),
    ("MergeDialog", ANY): mark("Whose value is kept where the two records differ."),
    ("WishesSheet", "Search exercises"): mark("Any part of an exercise's name."),
    ("WishesSheet", "Ticked ones alone"): mark("Show what is liked or not wanted, nothing else."),
    ("WishesSheet", ANY): mark("What the client likes, and what is not wanted."),
    ("Interview", "All of these questions were asked today"): mark(
        "Keeps the screening of today even where every answer stayed as it was."
    ),
    ("Interview", ANY): mark("What you learn in the first talk; every page is kept as you go."),
    ("LimitationSheet", "From"): mark("The first day it holds; unticked where it holds already."),
    ("TestSheet", "Two tests that day"): mark("Loads rest on the one that counts; both are kept."),
    ("EquipmentSheet", "Place"): mark("Where these things stand; each day names its place."),
    ("CurtainSheet", "Minutes"): mark(
        "After so many minutes unused what is personal is hidden; empty is never."
    ),
    ("CurtainSheet", "Frames of windows name"): mark(
        "What stands above the window and in lists of windows, beside the file's name."
    ),
    ("RecordSheet", "Stage"): mark(
        "Where you stand with the client; the list of clients shows it."
    ),
    ("RecordSheet", "Tags"): mark("Words to find the client by, with commas."),
    ("RecordSheet", "Consent given on"): mark(
        "When the client agreed that you keep these records."
    ),
    ("RecordSheet", "Note on consent"): mark("What was agreed, and how it was given."),
    ("RecordSheet", "Records kept until"): mark(
        "Until when they may be kept; you are reminded then."
    ),
    ("RecordSheet", "Loads in"): mark(
        "The unit that this client's loads are shown and printed in."
    ),
    ("RecordSheet", ANY): mark("What is agreed about the client's records and papers."),
    ("FilledFormDialog", ANY): mark(
        "What the form says, beside what is known; tick what is taken over."
    ),
    ("CheckInSheet", "Day"): mark("The day it is about; each day has one check-in."),
    ("CheckInSheet", "Body mass"): mark(
        "At the same time of day, best in the morning; empty if not weighed."
    ),
    ("CheckInSheet", "It is right as entered"): mark(
        "Tick it if the unusual value is what you mean."
    ),
    ("CheckInSheet", "Eaten that day"): mark("Energy eaten, if it was counted; empty if not."),
    ("CheckInSheet", "Marks, 1 to 5"): mark(
        "The client's own mark, 5 the best; leave it open if not asked."
    ),
    ("CheckInSheet", "Training done"): mark(
        "The share of the planned training that was done, as the client says."
    ),
    ("CheckInSheet", "Note"): mark("What the client said; it stays in this file."),
    ("CheckInSheet", ANY): mark("The girth in the same place each time, tape level and not tight."),
    ("CheckInsDialog", ANY): mark("Check-ins by day; Enter opens the marked one."),
    ("WeeksSheet", ANY): mark("Several weeks at once; an empty cell means not measured."),
    ("ResultsDialog", ANY): mark(
        "What was done in the session. An empty line says nothing; a dash says left out."
    ),
    ("ResultsDialog", "Day of the session"): mark(
        "The day it was done, which may not be the day it was planned for."
    ),
    ("ResultTableDialog", "Unit of loads"): mark(
        "The unit of loads in the table that do not name theirs."
    ),
    ("ResultTableDialog", "Order of day, month and year"): mark(
        "In which order the table writes days in figures."
    ),
    ("ResultTableDialog", ANY): mark(
        "Which column of the table holds this, or which exercise a name stands for."
    ),
    ("OtherExerciseSheet", ANY): mark(
        "The exercise that was done in the place of the planned one."
    ),
    ("ProgressReportDialog", "Paper"): _PAPER,
    ("ProgressReportDialog", "Tones for a grey printer"): _GREY,
    ("ProgressReportDialog", "With the client's name"): mark(
        "Unticked, the initials alone stand on the report."
    ),
    ("ProgressReportDialog", ANY): mark("Printed at the end; your words to the client."),
    ("ChartsWindow", ANY): mark("What the chart shows, and for which days."),
    ("AdjustDialog", ANY): mark("The week that the suggestions are made for."),
    ("FromResultsDialog", ANY): mark("Tick the sets that are to count as tests."),
    ("StrengthDialog", ANY): mark("What was tested, when, and what it gives."),
    ("GuessSheet", ANY): mark("A guess gives loads to begin with; a test replaces it."),
    ("EraseDialog", ANY): mark("Erasing cannot be undone: type what is asked for to confirm it."),
    ("LockSheet", "Passphrase now"): mark("The passphrase that opens the file at present."),
    ("LockSheet", "New passphrase"): mark(
        "Four words or more; nobody can open the file without it."
    ),
    ("LockSheet", "The same again"): mark("Typed again, so that a slip cannot lock you out."),
    ("LockSheet", ANY): mark("What becomes of the lock of this file."),
    ("UnlockSheet", ANY): mark("The passphrase that this file was locked with."),
    ("RescueDialog", ANY): mark("Another place to keep the work while its own cannot be written."),
    ("BringBack", ANY): mark("Own exercises that were retired; the marked one comes back."),
    ("DetailDialog", ANY): mark("What is known of the exercise, with its sources."),
    **EXCHANGE_FIELDS,
}
"""The sentences, by the form's class and the field's name."""
