"""References as CSL-JSON, the open form that this project keeps its own in."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from app.domain.wording import tr
from app.exchange.bibliography.record import BibliographyError, Csl, doi_link, kept

SUFFIX = ".json"


def write(records: Iterable[Csl]) -> str:
    """The records as a JSON array, with the DOI as a link beside it."""
    made = []
    for record in records:
        fields = kept(record)
        if "DOI" in fields:
            fields["URL"] = doi_link(fields["DOI"])
        made.append({"id": fields.pop("id"), **fields})
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"


def holds(text: str) -> bool:
    """Whether it is JSON of references: a list, an object with one, or a record with a title."""
    if text.lstrip("\ufeff \t\r\n").startswith("["):
        return True
    try:
        found = json.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError):
        return False
    return (
        isinstance(found, dict) and "format" not in found and ("items" in found or "title" in found)
    )


def read(text: str) -> list[Any]:
    """The records of a JSON array, or of an object that holds one. Raises BibliographyError."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        raise BibliographyError(
            tr("This is not JSON."), mend=tr("Export the references again as CSL-JSON.")
        ) from None
    if isinstance(found, dict):
        found = found.get("items", [found])
    if not isinstance(found, list):
        raise BibliographyError(
            tr("This is no list of references."), mend=tr("Export them again as CSL-JSON.")
        )
    return found
