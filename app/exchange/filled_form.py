"""A fillable booklet that came back: bytes in, the text of its fields out, or why it is none."""

from __future__ import annotations

from app.domain.form_names import (
    FORM_VERSION,
    ISSUE,
    UNITS,
    VERSION,
    SetPlace,
    What,
    read_day_name,
    read_set_name,
)
from app.domain.form_results import FilledForm
from app.domain.program import SessionId
from app.domain.wording import tr
from app.domain.work import IssueId
from app.exchange.pdf_fields import FormError, read_fields


def read_filled_form(data: bytes, *, where: str) -> FilledForm:
    """What stands in the fields of a filled booklet.

    where: the file, for the error. Raises FormError for what is no PDF or no form (see
    `read_fields`), for a form that is no booklet, and for one of a later version.
    """
    fields = read_fields(data, where=where)
    issue, version = fields.get(ISSUE, "").strip(), fields.get(VERSION, "").strip()
    units = fields.get(UNITS, "").strip()
    if not issue or units not in ("kg", "lb"):
        raise FormError(
            tr("The form is no booklet of Weekloom's."),
            where=where,
            mend=tr("Choose the booklet that the client filled in."),
        )
    if version != str(FORM_VERSION):
        raise FormError(
            tr("The form was made by another version of Weekloom."),
            where=where,
            mend=tr("Open it with the version that made it, or enter the results by hand."),
        )
    sets: dict[SetPlace, dict[What, str]] = {}
    days: dict[tuple[int, SessionId], str] = {}
    for name, text in fields.items():
        if not text.strip():
            continue
        if (found := read_set_name(name)) is not None:
            place, what = found
            sets.setdefault(place, {})[what] = text.strip()
        elif (day := read_day_name(name)) is not None:
            days[day] = text.strip()
    return FilledForm(IssueId(issue), units, sets, days)
