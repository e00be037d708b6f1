"""What one line of a coach's table asks: sets, repetitions, effort, rest, tempo and load.

Each reader takes a cell as people write it, and what it cannot read it hands back as text, so that
nothing a coach wrote is dropped without a word.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from functools import cache
from unicodedata import normalize

from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir, rating_class
from app.domain.program import MAX_SECONDS, MAX_SETS
from app.domain.units import KG_PER_LB
from app.exchange.coach_plan.words import Words
from app.exchange.sheets.sheet import Cell

N = r"(\d+(?:[.,]\d+)?)"
TO = r"\s*(?:-|to|bis|hasta|a|/)\s*"
HEAVIEST_KG = 1000
LONGEST_REST_S = 1200
MOST_MINUTES = 20
"""A rest in figures alone up to this is in minutes where its heading says so."""

_FAILURE = re.compile(r"(?:to )?failure|muskelversagen|al fallo|fallo|a l'echec|max effort")
_RIR = re.compile(rf"(?:rir\s*[:=]?\s*{N}(?:\s*-\s*{N})?|{N}(?:\s*-\s*{N})?\s*rir\b)")
_RATING = re.compile(rf"(?:rpe\s*[:=]?\s*{N}(?:\s*-\s*{N})?|{N}(?:\s*-\s*{N})?\s*rpe\b)")
_AT = re.compile(rf"@\s*{N}(?:\s*-\s*{N})?(?!\s*(?:%|kg|lb|rir|rm|\d))")
_PERCENT = re.compile(
    rf"{N}(?:\s*-\s*{N})?\s*%\s*(?P<of>(?:of\s*|vom\s*|de\s*|del\s*)?(?P<n>\d*)\s*rm)?"
)
_LOAD = re.compile(rf"(?:@\s*)?(?:2\s*x\s*)?\+?{N}\s*(kgs?|lbs?)\b")
_TEMPO = re.compile(r"tempo\s*[:=]?\s*([\dx](?:[-./ ]?[\dx]){2,3})\b")
_TEMPO_ALONE = re.compile(r"(?<![\d-])([\dx](?:-[\dx]){3})(?![\d-])")
_FIGURES = re.compile(r"[\dx](?:[-./ :]?[\dx]){2,3}")
_CLOCK = re.compile(r"(\d{1,2}):([0-5]\d)")
_LIST = re.compile(r"\d{1,3}(?:\s*[,/;+]\s*\d{1,3})+|\d{1,3}(?:\s*-\s*\d{1,3}){2,}")


@dataclass(frozen=True, slots=True)
class Asked:
    """What a line asks, None for what it leaves open.

    seconds: repetitions are counted in seconds; unread: what was not understood, as it stands.
    """

    sets: int | None = None
    low: int | None = None
    high: int | None = None
    seconds: bool = False
    effort: Effort | None = None
    rest_s: int | None = None
    tempo: str = ""
    load_kg: float | None = None
    pair: str = ""
    note: str = ""
    unread: tuple[str, ...] = ()

    @property
    def is_empty(self) -> bool:
        """True if nothing is asked; a note alone asks nothing."""
        return replace(self, note="", pair="") == Asked()


def plain(cell: Cell) -> str:
    """The cell as one line of lower case with plain signs: '4×8–10 @ RIR 2' is '4x8-10 @ rir 2'."""
    match cell:
        case None:
            return ""
        case float() if cell == int(cell) and abs(cell) < 1e12:
            return str(int(cell))
        case float():
            return f"{cell:.6g}"
        case date():
            return cell.isoformat()
    text = normalize("NFKC", str(cell)).replace("\N{MULTIPLICATION SIGN}", "x")
    for dash in "\N{EN DASH}\N{EM DASH}\N{MINUS SIGN}\N{HYPHEN}\N{NON-BREAKING HYPHEN}":
        text = text.replace(dash, "-")
    text = re.sub(r"(?<=\d)\s*\*\s*(?=\d)", "x", text)
    return " ".join(text.lower().split())


def figure(text: str) -> float:
    """The number in figures with a decimal point or comma."""
    return float(text.replace(",", "."))


def number_in(cell: Cell) -> float | None:
    """The one number that the cell holds, or the middle of a range; None if there is none."""
    if isinstance(cell, int | float):
        return float(cell)
    found = re.fullmatch(rf"[^\d]*?{N}(?:{TO}{N})?[^\d]*", plain(cell))
    if found is None:
        return None
    low = figure(found[1])
    return low if found[2] is None else (low + figure(found[2])) / 2


def whole_in(cell: Cell) -> int | None:
    """The whole number that the cell holds, the lower one of a range; None if there is none."""
    if isinstance(cell, float) and cell != int(cell):
        return None
    if isinstance(cell, int | float):
        return int(cell)
    found = re.fullmatch(rf"[^\d]*?(\d{{1,4}})(?:{TO}\d{{1,4}})?[^\d]*", plain(cell))
    return None if found is None else int(found[1])


# -- sets and repetitions ----------------------------------------------------------------------


def with_scheme(asked: Asked, cell: Cell, words: Words, *, unit: str = "kg") -> Asked:
    """What was asked, with what a cell such as '4x8-10 @ RIR 2' adds to it."""
    text = plain(cell)
    found = _scheme(words).search(text)
    if found is None:
        return with_reps(asked, cell, words)
    left = f"{text[: found.start()]} {text[found.end() :]}"
    sets, low = int(found["sets"]), int(found["low"])
    made = _with_count(asked, low, int(found["high"] or low), found["unit"] or "", words)
    made = replace(made, sets=sets) if 1 <= sets <= MAX_SETS else _unread(made, found[0])
    return with_words(made, left, words, unit=unit)


def _scheme(words: Words) -> re.Pattern[str]:
    return _scheme_with(_units(words))


@cache
def _scheme_with(units: str) -> re.Pattern[str]:
    return re.compile(
        r"(?<![\d.,])(?P<sets>\d{1,2})(?:\s*-\s*\d{1,2})?\s*(?:sets?|s[aä]tze|series|serien)?\s*"
        rf"(?:x|of|de|à|a)\s*(?P<low>\d{{1,4}})(?:{TO}(?P<high>\d{{1,4}}))?"
        rf"(?![.,]?\d)(?:\s*(?P<unit>{units})(?!\w))?(?!\s*(?:kg|lb|%))"
    )


def _units(words: Words) -> str:
    return _any_of((*words.seconds, *words.minutes, *words.repetitions))


@cache
def _any_of(words: tuple[str, ...]) -> str:
    """A pattern of the words, the longest first."""
    return "|".join(re.escape(word) for word in sorted(set(words), key=lambda w: (-len(w), w)))


def with_reps(asked: Asked, cell: Cell, words: Words) -> Asked:
    """What was asked, with what a cell of repetitions adds: '8-10', '30 s', '12/10/8'."""
    match cell:
        case None:
            return asked
        case date():  # what a spreadsheet makes of '8-10'
            low, high = sorted((cell.day, cell.month))
            return _with_count(asked, low, high, "", words)
        case time() | timedelta():
            seconds = _seconds_of(cell)
            return _with_count(asked, seconds, seconds, words.seconds[0], words)
    text = plain(cell)
    if _LIST.fullmatch(text) and not re.fullmatch(r"(\d+)\s*/\s*\1", text):
        counts = [int(one) for one in re.findall(r"\d+", text)]
        if len(counts) <= MAX_SETS and all(counts):
            made = _with_count(asked, min(counts), max(counts), "", words)
            return replace(made, sets=asked.sets or len(counts))
    if clock := _CLOCK.fullmatch(text):
        seconds = 60 * int(clock[1]) + int(clock[2])
        return _with_count(asked, seconds, seconds, words.seconds[0], words)
    pattern = rf"(?:x\s*)?(\d{{1,4}})(?:{TO}(\d{{1,4}}))?\s*({_units(words)})?(?:\s*(.*))?"
    found = re.fullmatch(pattern, text)
    if found is None or (found[4] and found[4][:1].isalnum() and found[3] is None):
        if _scheme(words).search(text):
            return with_scheme(asked, cell, words)
        return _unread(asked, text)
    made = _with_count(asked, int(found[1]), int(found[2] or found[1]), found[3] or "", words)
    return with_words(made, found[4] or "", words)


def _with_count(asked: Asked, low: int, high: int, unit: str, words: Words) -> Asked:
    timed = unit in words.seconds or unit in words.minutes
    if unit in words.minutes:
        low, high = 60 * low, 60 * high
    low, high = min(low, high), max(low, high)
    if not 1 <= low <= high <= MAX_SECONDS:
        return _unread(asked, f"{low}-{high}" if low < high else str(low))
    return replace(asked, low=low, high=high, seconds=asked.seconds or timed)


def _unread(asked: Asked, text: str) -> Asked:
    text = text.strip(" ,;()@-")
    return replace(asked, unread=(*asked.unread, text)) if text else asked


# -- effort, load, rest, tempo -----------------------------------------------------------------


def with_words(asked: Asked, text: str, words: Words, *, unit: str = "kg") -> Asked:
    """What was asked, with what the rest of a cell adds: 'RIR 2', '80 %', 'rest 90 s'."""
    for pattern, read in (
        (_RIR, _rir),
        (_RATING, _rating),
        (_PERCENT, _percent),
        (_FAILURE, lambda _: Rir(0)),
        (_AT, _rating),
    ):
        found = pattern.search(text)
        effort = read(found) if found else None
        if found and effort is not None:
            text = f"{text[: found.start()]} {text[found.end() :]}"
            asked = replace(asked, effort=effort)
            break
    if (found := _LOAD.search(text)) and (load_kg := _mass(figure(found[1]), found[2])) is not None:
        text = f"{text[: found.start()]} {text[found.end() :]}"
        asked = replace(asked, load_kg=load_kg)
    if (found := _rest_words(words).search(text)) and (seconds := _rest_s(found)) is not None:
        text = f"{text[: found.start()]} {text[found.end() :]}"
        asked = replace(asked, rest_s=seconds)
    found = _TEMPO.search(text) or _TEMPO_ALONE.search(text)
    if found and (tempo := _four(found[1])):
        text = f"{text[: found.start()]} {text[found.end() :]}"
        asked = replace(asked, tempo=tempo)
    return _unread(asked, " ".join(text.split()))


def _pair_of(found: re.Match[str]) -> tuple[float, float]:
    """The ends of the range that was found; equal for one number."""
    figures = [figure(one) for one in found.groups()[:4] if one is not None]
    return figures[0], figures[-1]


def _rir(found: re.Match[str]) -> Effort | None:
    low, high = _pair_of(found)
    return rir_of((low + high) / 2)


def rir_of(reserve: float) -> Effort | None:
    """So many repetitions in reserve, to the half; None outside 0 to 10."""
    return Rir(round(2 * reserve) / 2) if 0 <= reserve <= 10 else None


def _rating(found: re.Match[str]) -> Effort | None:
    low, high = _pair_of(found)
    return effort_of_rating((low + high) / 2)


def effort_of_rating(rating: float) -> Effort | None:
    """The reserve that a rating of perceived exertion stands for; None where it tells none."""
    if not 1 <= rating <= 10:
        return None
    meaning = rating_class(rating)
    if meaning.low is None or meaning.high is None:
        return None
    return rir_of((meaning.low + meaning.high) / 2)


def _percent(found: re.Match[str]) -> Effort | None:
    low, high = figure(found[1]), figure(found[2] or found[1])
    rep_max = bool(found["of"]) and found["n"] not in ("1",)
    return percent_of((low + high) / 2, rep_max=rep_max)


def percent_of(percent: float, *, rep_max: bool = False) -> Effort | None:
    """Per cent as effort; a share such as 0.8 is 80 %. None where there is no such load."""
    if 0 < percent <= 1.2:
        percent *= 100
    percent = round(percent, 2)
    if rep_max:
        return PercentRepMax(percent) if 1 <= percent <= 100 else None
    return PercentOneRm(percent) if 1 <= percent <= 110 else None


def _mass(amount: float, unit: str) -> float | None:
    """Kilograms; None for what nobody lifts."""
    kg = amount * KG_PER_LB if unit.startswith("lb") else amount
    return round(kg, 3) if 0 <= kg <= HEAVIEST_KG else None


def with_load(asked: Asked, cell: Cell, *, unit: str) -> Asked:
    """What was asked, with the load of a cell: a number, or a text with its unit."""
    if isinstance(cell, int | float):
        load_kg = _mass(float(cell), unit)
        return _unread(asked, plain(cell)) if load_kg is None else replace(asked, load_kg=load_kg)
    text = plain(cell)
    found = re.fullmatch(rf"\+?{N}(?:{TO}{N})?\s*(kgs?|lbs?)?(?:\s*(?:each|je|per hand))?", text)
    load_kg = _mass(figure(found[1]), found[3] or unit) if found else None
    if load_kg is not None:
        return replace(asked, load_kg=load_kg)
    if percent := _PERCENT.fullmatch(text):
        effort = _percent(percent)
        return _unread(asked, text) if effort is None else replace(asked, effort=effort)
    return _unread(asked, text)


def _rest_words(words: Words) -> re.Pattern[str]:
    return _rest_with(_any_of((*words.seconds, *words.minutes)))


@cache
def _rest_with(units: str) -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:rest|pause|descanso|repos|recupero)\s*[:=]?\s*"
        rf"(?:(?P<min>\d{{1,2}}):(?P<s>[0-5]\d)|{N}(?:\s*-\s*\d+)?\s*(?P<unit>{units})?)"
    )


def _rest_s(found: re.Match[str]) -> int | None:
    if found["min"]:
        return 60 * int(found["min"]) + int(found["s"])
    return _bounded(figure(found[3]) * (60 if (found["unit"] or "s")[0] in "m'" else 1))


def _bounded(seconds: float) -> int | None:
    return round(seconds) if 0 <= seconds <= LONGEST_REST_S else None


def with_rest(asked: Asked, cell: Cell, words: Words, *, unit: str = "") -> Asked:
    """What was asked, with the rest of a cell: '90', '2 min', '1:30', a time of a spreadsheet.

    unit: 'min' where the heading says that figures are minutes.
    """
    seconds = _rest_of(cell, words, unit)
    if seconds is None:
        return _unread(asked, plain(cell))
    return replace(asked, rest_s=seconds)


def _rest_of(cell: Cell, words: Words, unit: str) -> int | None:
    if isinstance(cell, time | timedelta):
        return _bounded(_seconds_of(cell))
    if isinstance(cell, int | float):
        return _bounded(cell * 60 if unit == "min" and cell <= MOST_MINUTES else cell)
    text = plain(cell)
    if clock := _CLOCK.match(text):
        return 60 * int(clock[1]) + int(clock[2])
    units = _any_of((*words.seconds, *words.minutes))
    found = re.fullmatch(rf"{N}(?:{TO}{N})?\s*({units})?\.?", text)
    if found is None:
        return None
    minutes = found[3] in words.minutes if found[3] else unit == "min"
    return _bounded(figure(found[1]) * (60 if minutes else 1))


def _seconds_of(cell: time | timedelta) -> int:
    """Seconds of a time: hours and minutes of a spreadsheet are minutes and seconds of a rest."""
    if isinstance(cell, timedelta):
        return round(cell.total_seconds())
    if cell.hour:
        return 60 * cell.hour + cell.minute
    return 60 * cell.minute + cell.second


def with_tempo(asked: Asked, cell: Cell) -> Asked:
    """What was asked, with the tempo of a cell: '3-0-1-0', '30X1', '3/0/1'."""
    if isinstance(cell, date):  # what a spreadsheet makes of '3-1-1'
        return _unread(asked, plain(cell))
    text = plain(cell)
    if isinstance(cell, int) and len(text) < 4:
        text = text.zfill(4)  # a spreadsheet drops the zeros in front
    found = _FIGURES.fullmatch(text)
    tempo = _four(text) if found else ""
    return replace(asked, tempo=tempo) if tempo else _unread(asked, text)


def _four(text: str) -> str:
    """Four figures with dashes; a missing last one is no pause. Empty for anything else."""
    figures = re.findall(r"[\dx]", text)
    if len(figures) == 3:
        figures.append("0")
    return "-".join(figures).upper() if len(figures) == 4 else ""
