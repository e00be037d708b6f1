"""What stands in the fields of a PDF form, as plain text by field name.

A form comes back from somebody else's machine: nothing in it is run, followed or trusted, and its
size is limited before it is read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from io import BytesIO
from typing import Any

from app.domain.errors import CoachError
from app.domain.wording import tr

MOST_BYTES = 20_000_000
"""A filled booklet of a year has about a tenth of this."""

MOST_FIELDS = 60_000
MOST_LETTERS = 4_000
MOST_DEEP = 12
"""How many names a field's path may have."""


class FormError(CoachError):
    """A PDF that no form can be read from."""


def read_fields(data: bytes, *, where: str) -> Mapping[str, str]:
    """The text in every field by its full name; ticks that are set give their word, others ''.

    where: the file, for the error. Raises FormError for what is no PDF, is locked, has no form,
    or is larger than a form can be.
    """
    if len(data) > MOST_BYTES:
        raise _error(tr("The file is larger than a form can be."), where)
    if b"%PDF-" not in data[:1024]:
        raise _error(tr("The file is no PDF."), where)
    try:
        return dict(_fields(data, where))
    except FormError:
        raise
    except Exception as error:  # the library raises nearly anything for a broken file
        raise _error(tr("The PDF is damaged or half written."), where) from error


def _fields(data: bytes, where: str) -> Iterator[tuple[str, str]]:
    from pypdf import PdfReader
    from pypdf.errors import DependencyError

    try:
        reader = PdfReader(BytesIO(data), strict=False)
        locked = reader.is_encrypted
    except DependencyError:  # it has no cipher to open it with
        locked = True
    if locked:
        raise _error(tr("The PDF is locked with a password."), where)
    form = _object(reader.trailer["/Root"]).get("/AcroForm")
    kids = _object(_object(form).get("/Fields")) if form is not None else None
    if not kids:
        raise FormError(
            tr("The PDF has no fields: it was printed or flattened on its way."),
            where=where,
            mend=tr("Ask for the form itself, or enter the answers by hand."),
        )
    # a stack and not recursion: a hostile form may hang in itself
    stack: list[tuple[Any, str, int, Any]] = [(kid, "", 0, None) for kid in reversed(kids)]
    seen = 0
    while stack:
        kid, path, deep, inherited = stack.pop()
        seen += 1
        if seen > MOST_FIELDS or deep > MOST_DEEP:
            raise _error(tr("The PDF has more fields than a form can have."), where)
        node = _object(kid)
        name = node.get("/T")
        full = path if name is None else f"{path}.{name}" if path else str(name)
        value = node.get("/V", inherited)
        below = _object(node.get("/Kids")) or []
        named = [one for one in below if "/T" in _object(one)]
        if named:
            stack += [(one, full, deep + 1, value) for one in reversed(named)]
        elif full:
            yield full, _text(_object(value))


def _object(value: Any) -> Any:
    return value.get_object() if hasattr(value, "get_object") else value


def _text(value: Any) -> str:
    """A value as text: ticks as their word, nothing for what is not set."""
    if value is None:
        return ""
    text = value.decode("latin-1") if isinstance(value, bytes) else str(value)
    if text.startswith("/"):
        text = "" if text == "/Off" else text[1:]
    return text[:MOST_LETTERS]


def _error(what: str, where: str) -> FormError:
    return FormError(what, where=where, mend=tr("Choose the PDF that came back from the client."))
