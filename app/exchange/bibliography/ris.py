"""References as RIS, written and read by a library."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from app.domain.wording import tr
from app.exchange.bibliography.record import (
    BibliographyError,
    Csl,
    doi_link,
    doi_of,
    kept,
    name_from,
    name_text,
    text_of,
    year_of,
)

SUFFIX = ".ris"

_TYPES = {
    "article-journal": "JOUR",
    "article": "GEN",
    "book": "BOOK",
    "chapter": "CHAP",
    "paper-conference": "CPAPER",
    "report": "RPRT",
    "thesis": "THES",
    "webpage": "ELEC",
}
_KINDS = {name: kind for kind, name in _TYPES.items()} | {
    "EJOUR": "article-journal",
    "MGZN": "article-journal",
    "CONF": "paper-conference",
    "EBOOK": "book",
    "ECHAP": "chapter",
    "BLOG": "webpage",
}
_FIELDS = {
    "volume": "volume",
    "issue": "number",
    "publisher": "publisher",
    "publisher-place": "place_published",
    "edition": "edition",
    "collection-title": "tertiary_title",
    "DOI": "doi",
}


def write(records: Iterable[Csl]) -> str:
    """The records as RIS."""
    import rispy

    return str(rispy.dumps([_entry(kept(record)) for record in records]))


def _entry(fields: dict[str, Any]) -> dict[str, Any]:
    made: dict[str, Any] = {"type_of_reference": _TYPES[fields["type"]], "id": fields["id"]}
    for role, tag in (("author", "authors"), ("editor", "secondary_authors")):
        if fields.get(role):
            made[tag] = [_person(one) for one in fields[role]]
    made["title"] = fields["title"]
    if container := fields.get("container-title"):
        made["secondary_title"] = container
    if (year := year_of(fields)) is not None:
        made["year"] = str(year)
    for field, tag in _FIELDS.items():
        if fields.get(field):
            made[tag] = fields[field]
    if "number" in fields and "number" not in made:
        made["number"] = fields["number"]
    first, _, last = fields.get("page", "").replace("\N{EN DASH}", "-").partition("-")
    made |= {tag: page for tag, page in (("start_page", first), ("end_page", last)) if page}
    url = doi_link(fields["DOI"]) if "DOI" in fields else fields.get("URL", "")
    lists = (("urls", url), ("notes", fields.get("note", "")))
    return made | {tag: [text] for tag, text in lists if text}


def _person(name: dict[str, str]) -> str:
    """A body ends in a comma, by which RIS tells that it has no given name."""
    return f"{name['literal']}," if "literal" in name else name_text(name)


def read(text: str) -> list[dict[str, Any]]:
    """The entries as CSL records. Raises BibliographyError where there is none."""
    import rispy

    try:
        entries = rispy.loads(text.lstrip("\ufeff"))
    except Exception as error:  # whatever a library says of a broken file
        raise BibliographyError(
            tr("The file cannot be read as RIS."), mend=tr("Export the references again.")
        ) from error
    if not entries:
        raise BibliographyError(
            tr("It holds no RIS entry."), mend=tr("Export the references again.")
        )
    return [_record(one) for one in entries]


def _record(entry: dict[str, Any]) -> dict[str, Any]:
    kind = _KINDS.get(text_of(entry.get("type_of_reference")), "article")
    record: dict[str, Any] = {"id": text_of(entry.get("id") or entry.get("label")), "type": kind}
    for role, tags in (
        ("author", ("authors", "first_authors")),
        ("editor", ("secondary_authors", "editors")),
    ):
        people: Any = next((entry[tag] for tag in tags if entry.get(tag)), [])
        names = [_name(one) for one in (people if isinstance(people, list) else [people])]
        if names:
            record[role] = names
    record["title"] = _first(entry, "title", "primary_title")
    record["container-title"] = _first(
        entry, "secondary_title", "journal_name", "alternate_title3", "alternate_title2"
    )
    year = re.search(r"\d{4}", _first(entry, "year", "publication_year", "date"))
    if year:
        record["issued"] = {"date-parts": [[int(year[0])]]}
    for field, tag in _FIELDS.items():
        record[field] = _first(entry, tag)
    if kind == "report":
        record["number"] = record.pop("issue")
    pages = [_first(entry, "start_page"), _first(entry, "end_page")]
    record["page"] = "-".join(part for part in pages if part)
    urls = entry.get("urls") or []
    record["URL"] = text_of(urls[0] if isinstance(urls, list) and urls else urls)
    record["DOI"] = record.get("DOI") or doi_of(record["URL"])
    notes = entry.get("notes") or []
    record["note"] = text_of(notes[0] if isinstance(notes, list) and notes else notes)
    return record


def _first(entry: dict[str, Any], *tags: str) -> str:
    return next((text for tag in tags if (text := text_of(entry.get(tag)))), "")


def _name(value: Any) -> dict[str, str]:
    text = text_of(value)
    return {"literal": text[:-1].strip()} if text.endswith(",") else name_from(text)
