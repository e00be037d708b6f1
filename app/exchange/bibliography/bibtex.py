"""References as BibTeX, written and read by a library.

What TeX would take for a command is written so that it prints as it stands; letters beyond ASCII
stay as they are (UTF-8).
"""

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
    year_of,
)

SUFFIX = ".bib"

_TYPES = {
    "article-journal": "article",
    "article": "misc",
    "book": "book",
    "chapter": "incollection",
    "paper-conference": "inproceedings",
    "report": "techreport",
    "thesis": "phdthesis",
    "webpage": "online",
}
_KINDS = {name: kind for kind, name in _TYPES.items()} | {
    "inbook": "chapter",
    "conference": "paper-conference",
    "proceedings": "book",
    "mastersthesis": "thesis",
    "thesis": "thesis",
    "report": "report",
    "booklet": "book",
    "electronic": "webpage",
}
_CONTAINERS = {"article": "journal", "incollection": "booktitle", "inproceedings": "booktitle"}
_FIELDS = {
    "volume": "volume",
    "issue": "number",
    "number": "number",
    "page": "pages",
    "publisher": "publisher",
    "publisher-place": "address",
    "edition": "edition",
    "collection-title": "series",
    "DOI": "doi",
    "note": "note",
}
_BRACES = {"{": r"\textbraceleft", "}": r"\textbraceright"}
_HELD = {"{": "\ue000", "}": "\ue001"}
"""Signs of nobody's that stand for a brace while TeX is read, which knows no command for it."""
_SPECIAL = {
    "\\": r"{\textbackslash}",
    **{sign: f"{{{command}}}" for sign, command in _BRACES.items()},
    "~": r"{\textasciitilde}",
    "^": r"{\textasciicircum}",
    **{sign: f"\\{sign}" for sign in "&%$#_"},
}


def _tex(text: str) -> str:
    return "".join(_SPECIAL.get(one, one) for one in text)


def write(records: Iterable[Csl]) -> str:
    """The records as BibTeX entries."""
    from bibtexparser.entrypoint import write_string
    from bibtexparser.library import Library
    from bibtexparser.model import Entry, Field

    library = Library()
    for record in records:
        fields = kept(record)
        name = _TYPES[fields["type"]]
        values = dict(_values(fields, name))
        # braces are put around here, since a title must keep its capitals
        made = [Field(key, f"{{{value}}}") for key, value in values.items()]
        key, number = fields["id"] or "reference", 2
        while key in library.entries_dict:
            key, number = f"{fields['id']}-{number}", number + 1
        library.add(Entry(name, key, made))
    return str(write_string(library, unparse_stack=[]))


def _values(fields: dict[str, Any], name: str) -> Iterable[tuple[str, str]]:
    for role in ("author", "editor"):
        if fields.get(role):
            yield role, " and ".join(_person(one) for one in fields[role])
    yield "title", f"{{{_tex(fields['title'])}}}"
    if container := fields.get("container-title"):
        yield _CONTAINERS.get(name, "howpublished"), _tex(container)
    if (year := year_of(fields)) is not None:
        yield "year", str(year)
    for field, key in _FIELDS.items():
        if fields.get(field):
            text = fields[field].replace("\N{EN DASH}", "-")
            yield key, re.sub(r"(?<=\d)-(?=\w)", "--", text) if key == "pages" else _tex(text)
    if "DOI" in fields:
        yield "url", _tex(doi_link(fields["DOI"]))
    elif "URL" in fields:
        yield "url", _tex(fields["URL"])


def _person(name: dict[str, str]) -> str:
    """A body in braces, so that no word of it is taken for a family name."""
    text = _tex(name_text(name))
    plain = "given" in name and not re.search(r"\band\b", text, re.IGNORECASE)
    return text if plain else f"{{{text}}}"


def read(text: str) -> list[dict[str, Any]]:
    """The entries as CSL records. Raises BibliographyError where there is none."""
    from bibtexparser.entrypoint import parse_string

    try:
        library = parse_string(text)
        entries = list(library.entries)
    except Exception as error:  # whatever a library says of a broken file
        raise BibliographyError(
            tr("The file cannot be read as BibTeX."), mend=tr("Export the references again.")
        ) from error
    if not entries:
        raise BibliographyError(
            tr("It holds no BibTeX entry."), mend=tr("Export the references again.")
        )
    return [
        _record(one.entry_type, one.key, {f.key: f.value for f in one.fields}) for one in entries
    ]


def _record(name: str, key: str, found: dict[str, Any]) -> dict[str, Any]:
    values = {field.lower(): str(value) for field, value in found.items()}
    record: dict[str, Any] = {"id": str(key), "type": _KINDS.get(name.lower(), "article")}
    for role in ("author", "editor"):
        if role in values:
            record[role] = [_name(one) for one in _people(values[role])]
    record["title"] = _plain(values.get("title", ""))
    for key_of in ("journal", "journaltitle", "booktitle", "howpublished"):
        if values.get(key_of):
            record["container-title"] = _plain(values[key_of])
            break
    year = re.search(r"\d{4}", values.get("year") or values.get("date") or "")
    if year:
        record["issued"] = {"date-parts": [[int(year[0])]]}
    for field, name_of in _FIELDS.items():
        if field != "number" and values.get(name_of):
            record[field] = _plain(values[name_of])
    if record["type"] == "report" and "issue" in record:
        record["number"] = record.pop("issue")
    if "page" in record:
        record["page"] = re.sub(r"-{2,}", "-", record["page"])
    if values.get("url"):
        record["URL"] = _plain(values["url"])
        record.setdefault("DOI", doi_of(record["URL"]))
    return record


def _people(text: str) -> list[str]:
    """The names, parted at 'and' outside braces."""
    parts, depth, word = [""], 0, ""
    for word in re.split(r"(\s+|[{}])", text):
        depth += (word == "{") - (word == "}")
        if word.lower() == "and" and depth == 0:
            parts.append("")
        else:
            parts[-1] += word
    return [part.strip() for part in parts if part.strip()]


def _name(text: str) -> dict[str, str]:
    if text.startswith("{") and text.endswith("}") and text.count("{") == 1 + text[1:-1].count("{"):
        inner = text[1:-1]
        if _balanced(inner):
            return {"literal": _plain(inner)}
    return name_from(_plain(text))


def _balanced(text: str) -> bool:
    depth = 0
    for one in text:
        depth += (one == "{") - (one == "}")
        if depth < 0:
            return False
    return depth == 0


def _plain(text: str) -> str:
    """The text without TeX: commands as the letters that they stand for."""
    if "\\" not in text and "$" not in text and "{" not in text:
        return " ".join(text.replace("~", " ").split())
    from bibtexparser.library import Library
    from bibtexparser.middlewares import LatexDecodingMiddleware
    from bibtexparser.model import Entry, Field

    for sign, command in _BRACES.items():
        text = text.replace(command, _HELD[sign])
    library = Library([Entry("misc", "one", [Field("text", text)])])
    decoded = LatexDecodingMiddleware(keep_math_mode=True).transform(library)
    # what no TeX can read stays as it is
    made = str(decoded.entries[0]["text"]) if decoded.entries else text
    for sign, held in _HELD.items():
        made = made.replace(held, sign)
    return " ".join(made.replace("\N{MODIFIER LETTER CIRCUMFLEX ACCENT}", "^").split())
