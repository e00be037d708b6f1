"""The languages that Weekloom's papers speak besides English.

Templates stand in `resources/languages`, one gettext file a language; plural forms, dates and the
signs in numbers come from the Unicode locale data by way of babel. Nothing of it is read while
English is spoken. What a file does not translate is said in English.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from gettext import GNUTranslations
from io import BytesIO

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, ExerciseText
from app.domain.wording import ENGLISH, DateForm, English, EnglishCalendar, Language, tr
from app.resources.entry import Entry
from app.resources.exercise_entries import text_of
from app.resources.files import folder, names_in, path_of, read_toml, text

NAMES = {"en": "English", "de": "Deutsch", "es": "Español"}
"""The shipped languages by code, each by its own name."""

PSEUDO = "en-XA"
"""English with accents and 40 % longer: shows in tests what is not translated or does not fit."""

EXERCISES = "languages/exercises"
"""The folder that has one folder a language, with a file for each of `resources/exercises`."""

SEAMS = "languages/seams.toml"
"""The parts before which long compounds may be broken, by language."""

_SMALL_NOUNS = {"en", "es"}
_AND_BEFORE_I = {"es": "{several} e {last}"}


@cache
def find_language(code: str) -> Language:
    """The language of a BCP 47 code: 'de', 'de-AT', 'es-MX'; English for the empty code.

    Texts are those of the language, numbers and dates those of the region. Raises CoachError for
    a language that is not shipped.
    """
    if code == PSEUDO:
        return Language(PSEUDO, _Accented(), calendar=_AccentedCalendar())
    family = code.partition("-")[0].lower()
    if not code or family == "en":
        return ENGLISH
    if family not in NAMES:
        raise CoachError(
            tr("There is no text in the language {code!r}.", code=code),
            mend=tr("Choose one of {languages}.", languages=", ".join(NAMES.values())),
        )
    from babel import Locale
    from babel.core import UnknownLocaleError
    from babel.numbers import get_decimal_symbol, get_group_symbol

    try:
        locale = Locale.parse(code, sep="-")
    except (UnknownLocaleError, ValueError):
        locale = Locale.parse(family)
    return Language(
        code,
        _translations(family),
        get_decimal_symbol(locale),
        get_group_symbol(locale),
        _LocalCalendar(str(locale)),
        lowers_nouns=family in _SMALL_NOUNS,
        and_before_i=_AND_BEFORE_I.get(family, ""),
        seams=_seams(family),
    )


def nearest_language(code: str) -> Language:
    """The language of a code, English where it is not shipped."""
    try:
        return find_language(code)
    except CoachError:
        return ENGLISH


@cache
def _translations(family: str) -> GNUTranslations:
    """The templates of a language with its plural forms."""
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    compiled = BytesIO()
    with path_of(f"languages/{family}.po").open("rb") as file:
        write_mo(compiled, read_po(file, locale=family))
    compiled.seek(0)
    return GNUTranslations(compiled)


def _seams(family: str) -> tuple[str, ...]:
    entry = Entry(SEAMS, family, read_toml(SEAMS))
    return tuple(str(part) for part in entry.rows(family))


@cache
def exercise_texts(family: str) -> Mapping[str, ExerciseText]:
    """The words of shipped exercises in a language, by key; nothing where none are shipped."""
    return {
        key: text_of(Entry(file, key, {}, content), family, values)
        for file in _exercise_files(family)
        for content in [text(file)]
        for key, values in read_toml(file).items()
    }


def _exercise_files(family: str) -> tuple[str, ...]:
    """The files of a language that stand beside those of `resources/exercises`, name by name."""
    if family not in NAMES or not folder().joinpath(EXERCISES, family).is_dir():
        return ()
    return names_in(f"{EXERCISES}/{family}", ".toml")


def spoken_catalogue(catalogue: Catalogue, code: str) -> Catalogue:
    """The catalogue with each exercise's words in a language, as far as it has any in it."""
    family = code.partition("-")[0].lower()
    shipped = exercise_texts(family)
    if family in ("", "en"):
        return catalogue

    def spoken(exercise: Exercise) -> Exercise:
        words = None if exercise.own else shipped.get(exercise.key)
        if words is not None:
            exercise = replace(exercise, texts=(*exercise.texts, words))
        return exercise.spoken(family)

    return Catalogue(tuple(map(spoken, catalogue.exercises)), catalogue.retired)


class _LocalCalendar:
    """Dates as a region writes them."""

    def __init__(self, locale: str) -> None:
        self._locale = locale

    def text(self, on: date, form: DateForm, /) -> str:
        """The date as far as `form` says it."""
        from babel.dates import format_date, format_skeleton

        if form is DateForm.MONTH:
            return format_date(on, "LLL", locale=self._locale)
        if form is DateForm.LONG_MONTH:
            return format_date(on, "LLLL", locale=self._locale)
        return format_skeleton(form.value, on, locale=self._locale)


# -- the pseudo-language ---------------------------------------------------------------------------

_ACCENTS = str.maketrans("aceinosuyACEINOSUYwWzZ", "áçéíñóšúýÁÇÉÍÑÓŠÚÝŵŴžŽ")
_LONGER = 0.4


class _Accented(English):
    """Every letter that can have an accent gets one, and every word grows by two fifths."""

    def gettext(self, message: str, /) -> str:
        """The template, accented and longer, its places left alone."""
        return _accented(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        """As English has it, accented and longer."""
        return _accented(super().ngettext(msgid1, msgid2, n))


class _AccentedCalendar(EnglishCalendar):
    """English dates, accented and longer."""

    def text(self, on: date, form: DateForm, /) -> str:
        """The date as far as `form` says it."""
        return _accented(super().text(on, form))


@cache
def _accented(template: str) -> str:
    out: list[str] = []
    depth, owed = 0, 0.0
    for sign in template:
        depth += (sign == "{") - (sign == "}")
        if depth > 0 or not sign.isalpha():
            out.append(sign)
            continue
        owed += _LONGER
        accented = sign.translate(_ACCENTS)
        out.append(accented)
        if owed >= 1.0:
            out.append(accented.lower())
            owed -= 1.0
    return "".join(out)
