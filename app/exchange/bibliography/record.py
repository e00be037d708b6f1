"""One reference as a CSL-JSON record, and what of it is kept."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any
from urllib.parse import quote, unquote

from app.domain.errors import CoachError
from app.domain.folding import fold
from app.domain.wording import tr

Csl = Mapping[str, Any]
"""A reference in the fields of CSL-JSON."""

TEXTS = (
    "title",
    "container-title",
    "collection-title",
    "collection-number",
    "publisher",
    "publisher-place",
    "edition",
    "volume",
    "issue",
    "number",
    "page",
    "DOI",
    "URL",
    "note",
)
"""Fields that are one text."""

KINDS = (
    "article-journal",
    "article",
    "book",
    "chapter",
    "paper-conference",
    "report",
    "thesis",
    "webpage",
)
"""Types that are told apart; everything else is an `article`."""

MOST = 5_000
LONGEST = 2_000
MOST_NAMES = 200
RESOLVER = "https://doi.org/"
_DOI = re.compile(r"10\.\d{4,9}/\S+")


class BibliographyError(CoachError):
    """A file of references that cannot be read: names the file, the place and what to do."""


def text_of(value: Any) -> str:
    """The value as one line of text; empty for anything that is no text or number."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    kept = "".join(one if one >= " " and one != "\x7f" else " " for one in str(value))
    return " ".join(kept.split())[:LONGEST]


def doi_of(value: Any) -> str:
    """The DOI in a text or a link, '10.1000/x'; empty if there is none."""
    found = _DOI.search(unquote(text_of(value)))
    doi = found[0].rstrip(".,;") if found else ""
    while doi.endswith(")") and doi.count(")") > doi.count("("):
        doi = doi[:-1].rstrip(".,;")
    return doi


def doi_link(doi: str) -> str:
    """The link that a DOI stands for."""
    return RESOLVER + quote(doi, safe="/:;()._-")


def names_of(value: Any) -> list[dict[str, str]]:
    """Authors or editors as CSL writes them, each a family and given name or a literal.

    Who has one name only is a literal.
    """
    found = []
    for one in value if isinstance(value, list) else []:
        if not isinstance(one, Mapping):
            continue
        family, given = text_of(one.get("family")), text_of(one.get("given"))
        particle = text_of(one.get("non-dropping-particle") or one.get("dropping-particle"))
        literal = text_of(one.get("literal"))
        family = f"{particle} {family}".strip()
        if family and given:
            found.append({"family": family, "given": given})
        elif family or literal or given:
            found.append({"literal": family or literal or given})
    return found[:MOST_NAMES]


def name_from(text: str) -> dict[str, str]:
    """The name of 'Family, Given' or 'Given Family'; a single word is a literal."""
    text = text_of(text)
    family, comma, given = text.partition(",")
    if comma and family.strip():
        made = {"family": family.strip(), "given": given.strip()}
        return made if made["given"] else {"literal": family.strip()}
    words = text.split()
    if len(words) < 2:
        return {"literal": text}
    return {"family": words[-1], "given": " ".join(words[:-1])}


def name_text(name: Mapping[str, str]) -> str:
    """'Family, Given', or the literal."""
    if "literal" in name:
        return name["literal"]
    return ", ".join(part for part in (name["family"], name.get("given", "")) if part)


def year_of(record: Csl) -> int | None:
    """The year that a record was issued in; None if it has none."""
    match record.get("issued"):
        case {"date-parts": [[year, *_], *_]}:
            text = str(year)
        case {"raw": raw} | {"literal": raw}:
            text = str(raw)
        case _:
            return None
    found = re.search(r"\d{4}", text)
    return int(found[0]) if found else None


def kept(record: Csl) -> dict[str, Any]:
    """The record with the fields that are known and nothing else, each in its usual form.

    Raises BibliographyError without a title, or without both authors and editors.
    """
    title = text_of(record.get("title"))
    people = {role: names_of(record.get(role)) for role in ("author", "editor")}
    if not title:
        raise BibliographyError(tr("It has no title."), mend=tr("Give it one."))
    if not people["author"] and not people["editor"]:
        raise BibliographyError(tr("It has no author."), mend=tr("Give it one."))
    kind = text_of(record.get("type"))
    made: dict[str, Any] = {"type": kind if kind in KINDS else "article"}
    made |= {role: names for role, names in people.items() if names}
    year = year_of(record)
    if year is not None:
        made["issued"] = {"date-parts": [[year]]}
    for field in TEXTS:
        text = text_of(record.get(field))
        if text:
            made[field] = text
    doi = doi_of(record.get("DOI")) or doi_of(record.get("URL"))
    made.pop("DOI", None)
    if doi:
        made["DOI"] = doi
    url = made.get("URL", "")
    if not url.lower().startswith(("https://", "http://")) or doi_of(url):
        made.pop("URL", None)
    made["id"] = text_of(record.get("id"))
    return made


def with_ids(records: Iterable[Csl], taken: Iterable[str] = ()) -> list[dict[str, Any]]:
    """The records, each with an id of letters and figures that nothing else has."""
    gone = set(taken)
    made = []
    for record in records:
        stem = re.sub(r"[^a-z0-9]+", "", fold(str(record.get("id", "")))) or _usual_id(record)
        key, number = stem, 2
        while key in gone:
            key, number = f"{stem}-{number}", number + 1
        gone.add(key)
        made.append({**record, "id": key})
    return made


def _usual_id(record: Csl) -> str:
    """The first name and the year: 'baz2022'."""
    people = record.get("author") or record.get("editor") or [{}]
    name = people[0].get("family") or people[0].get("literal", "")
    plain = re.sub(r"[^a-z0-9]+", "", fold(name))[:24] or "reference"
    return f"{plain}{year_of(record) or ''}"
