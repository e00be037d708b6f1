"""From an issue to its booklet: gathers what the printed pages draw on and binds them.

The booklet itself reads no files; this is where the shipped texts, fonts and references come in.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from app import booklet, resources
from app.booklet import Content, Options, Paper
from app.booklet.imposition import impose
from app.booklet.progress_report import ProgressReport, make_progress_report
from app.booklet.report import Report, make_report
from app.domain import energy
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.ranges import RangeBook
from app.domain.wording import language, speaking, tr
from app.domain.work import Issue
from app.resources import Reference
from app.resources.languages import nearest_language, spoken_catalogue

STYLE = "harvard-cite-them-right"

References = Mapping[str, Reference]


@dataclass(frozen=True, slots=True)
class Citation:
    """A source as short as 'Baz-Valle 2022', and in full."""

    short: str
    text: str


CSL_LOCALES = {"de": "de-DE", "es": "es-ES"}
"""The locales of the citation library by language; its style's own for English."""

AND_OTHERS = "others"
"""The author that stands for all further ones in `references.json`."""


def citations(references: References | None = None) -> Mapping[str, Citation]:
    """Every reference in full, in the language that is spoken.

    references: shipped ones and the coach's own by key; None for the shipped ones alone.
    """
    said = CSL_LOCALES.get(language().code.partition("-")[0]), tr("others")
    shipped = _shipped(*said)
    own = {key: one for key, one in (references or {}).items() if key not in shipped}
    if not own:
        return shipped
    texts = _own(json.dumps([dict(one.csl) for one in own.values()]), *said)
    return {**shipped, **{key: Citation(one.short, texts[key]) for key, one in own.items()}}


@cache
def _shipped(locale: str | None, others: str) -> Mapping[str, Citation]:
    shipped = resources.references()
    texts = _formatted([one.csl for one in shipped.values()], locale, others)
    return {key: Citation(one.short, texts[key]) for key, one in shipped.items()}


@lru_cache(maxsize=4)
def _own(records: str, locale: str | None, others: str) -> Mapping[str, str]:
    """The texts of the coach's own references, kept as long as these stay as they are."""
    return _formatted(json.loads(records), locale, others)


def _formatted(
    csl: Iterable[Mapping[str, object]], locale: str | None, others: str
) -> Mapping[str, str]:
    """The text of each record by its id, by a citation library in an author-date style."""
    from citeproc import (
        Citation as Cited,
    )
    from citeproc import (
        CitationItem,
        CitationStylesBibliography,
        CitationStylesStyle,
        formatter,
    )
    from citeproc.source.json import CiteProcJSON

    records = [_named_others(record, others) for record in csl]
    style = CitationStylesStyle(STYLE, locale=locale, validate=False)
    listed = CitationStylesBibliography(style, CiteProcJSON(records), formatter.plain)
    for record in records:
        listed.register(Cited([CitationItem(record["id"])]))
    return dict(zip(listed.keys, map(str, listed.bibliography()), strict=True))


def _named_others(csl: Mapping[str, object], others: str) -> dict[str, object]:
    """A record in which the authors that are not named are called `others`."""
    authors = csl.get("author")
    if not isinstance(authors, list):
        return dict(csl)
    unnamed = {"literal": AND_OTHERS}
    named = [{"literal": others} if author == unnamed else author for author in authors]
    return {**csl, "author": named}


def content_for(
    issue: Issue,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    mark: bytes = b"",
    references: References | None = None,
) -> Content:
    """Everything the booklet of `issue` draws on.

    mark: the coach's picture as PNG, or nothing; references: as `citations` takes them.
    """
    return Content(
        catalogue=spoken_catalogue(catalogue, language().code),
        fonts=resources.path_of("fonts"),
        references=citations(references),
        ranges=ranges,
        muscles={muscle: name.plain for muscle, name in resources.muscle_names().items()},
        poses=resources.poses(),
        energy=_energy(issue),
        mark=mark,
    )


def _energy(issue: Issue) -> energy.EnergyPlan | energy.Referral | None:
    """The targets for the issue's weeks; nothing where the client's figures do not reach."""
    weeks = len(issue.program.weeks)
    try:
        return energy.usual_plan(issue.client, weeks=weeks, on=issue.program.start)
    except CoachError:
        return None


def bind(
    issue: Issue,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    options: Options | None = None,
    language: str | None = None,
    mark: bytes = b"",
    references: References | None = None,
) -> bytes:
    """The booklet of an issue as PDF bytes, in the client's language or another.

    language: a BCP 47 code; None for the client's own. English where it is not shipped. mark: the
    coach's picture for the cover as PNG, or nothing; references: as `citations` takes them.
    Raises BookletError for what cannot be printed.
    """
    with speaking(nearest_language(issue.client.language if language is None else language)):
        content = content_for(issue, catalogue, ranges, mark=mark, references=references)
        return booklet.make(issue, content, options or Options())


def fold(pdf: bytes, paper: Paper) -> bytes:
    """The pages of a PDF in pairs on sheets, in the order in which they fold into a booklet."""
    return impose(pdf, paper)


def print_report(
    report: Report,
    *,
    paper: Paper = Paper.A4,
    grey: bool = False,
    references: References | None = None,
) -> bytes:
    """A findings report as PDF bytes, its sources cited in full.

    references: as `citations` takes them. Raises BookletError for what cannot be printed.
    """
    cited = replace(report, references=citations(references))
    return make_report(cited, fonts=resources.path_of("fonts"), paper=paper, grey=grey)


def print_progress(report: ProgressReport, *, paper: Paper = Paper.A4, grey: bool = False) -> bytes:
    """A progress report as PDF bytes in the client's language, its sources cited.

    Raises BookletError for what cannot be printed.
    """
    with speaking(nearest_language(report.client.language)):
        told = Catalogue(tuple(series.exercise for series in report.strength))
        told = spoken_catalogue(told, language().code)
        strength = (replace(one, exercise=told[one.exercise.key]) for one in report.strength)
        cited = replace(report, strength=tuple(strength), references=citations())
        return make_progress_report(cited, fonts=resources.path_of("fonts"), paper=paper, grey=grey)
