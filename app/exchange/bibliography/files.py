"""A file of references in any of the three forms, written or read whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.exchange.bibliography import bibtex, csl_json, ris
from app.exchange.bibliography.record import MOST, BibliographyError, Csl, kept, with_ids
from app.exchange.sheets.decoding import decode

MOST_BYTES = 10 * 1024 * 1024


class Form(StrEnum):
    """A form that reference managers read."""

    CSL_JSON = "csl-json"
    BIBTEX = "bibtex"
    RIS = "ris"


LABELS = {Form.CSL_JSON: mark("CSL-JSON"), Form.BIBTEX: mark("BibTeX"), Form.RIS: mark("RIS")}
SUFFIXES = {Form.CSL_JSON: csl_json.SUFFIX, Form.BIBTEX: bibtex.SUFFIX, Form.RIS: ris.SUFFIX}
_WRITERS = {Form.CSL_JSON: csl_json.write, Form.BIBTEX: bibtex.write, Form.RIS: ris.write}
_READERS = {Form.CSL_JSON: csl_json.read, Form.BIBTEX: bibtex.read, Form.RIS: ris.read}


@dataclass(frozen=True, slots=True)
class Found:
    """The references of a file, and what of it could not be taken."""

    records: tuple[dict[str, Any], ...]
    left_out: tuple[str, ...] = ()


def write_references(records: Iterable[Csl], form: Form) -> bytes:
    """The file's bytes, UTF-8."""
    return _WRITERS[form](records).encode("utf-8", "replace")


def read_references(data: bytes, *, source: str, taken: Iterable[str] = ()) -> Found:
    """The references in the bytes of the file `source`, whichever form they have.

    taken: ids that none of them may get. Raises BibliographyError for what is no such file, or
    where nothing of it can be taken.
    """
    if len(data) > MOST_BYTES:
        raise BibliographyError(
            tr(
                "The file has {size:,} bytes; at most {most:,} are read.",
                size=len(data),
                most=MOST_BYTES,
            ),
            where=source,
            mend=tr("Export fewer references at once."),
        )
    try:
        text = decode(data, source=source).text
        records = _READERS[form_of(text)](text)
    except CoachError as error:
        raise BibliographyError(error.what, where=source, mend=error.mend) from error
    return _found(records, source, taken)


def _found(records: list[Any], source: str, taken: Iterable[str]) -> Found:
    if len(records) > MOST:
        raise BibliographyError(
            trn("It holds {n} reference.", "It holds {n} references.", len(records)),
            where=source,
            mend=tr("Take at most {n} at once.", n=MOST),
        )
    made, left_out = [], []
    for number, record in enumerate(records, 1):
        try:
            made.append(kept(record if isinstance(record, dict) else {}))
        except BibliographyError as error:
            name = record.get("id") if isinstance(record, dict) else ""
            left_out.append(
                tr("Reference {n} ({name}): {what}", n=number, name=name or "?", what=error.what)
            )
    if not made:
        raise BibliographyError(
            tr("No reference in it can be taken."),
            where=source,
            mend=left_out[0] if left_out else tr("Export the references again."),
        )
    return Found(tuple(with_ids(made, taken)), tuple(left_out))


def form_of(text: str) -> Form:
    """The form that a text is in. Raises BibliographyError for another."""
    start = text.lstrip("\ufeff \t\r\n")
    if start.startswith(("[", "{")):
        return Form.CSL_JSON
    if any(line.startswith("TY  -") for line in start.splitlines()[:200]):
        return Form.RIS
    if "@" in start and "{" in start:
        return Form.BIBTEX
    raise BibliographyError(
        tr("The file is neither CSL-JSON, BibTeX nor RIS."),
        mend=tr("Export the references in one of these forms."),
    )
