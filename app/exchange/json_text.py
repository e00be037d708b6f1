"""Records as JSON text that a person can read and compare line by line, and JSON text as records.

What fits a line stands on one; everything else is opened up, two spaces a step. The same record
always gives the same text.
"""

from __future__ import annotations

import json
from typing import Any

from app.domain.errors import PlanFileError
from app.domain.wording import tr

WIDTH = 100
MOST_BYTES = 20 * 1024 * 1024
"""The largest plan file that is read. A plan of 52 full weeks has about 1 MB."""


def write_json(record: Any) -> str:
    """The record as text that ends in a line break."""
    return _text(record, "") + "\n"


def _text(record: Any, indent: str) -> str:
    deeper = indent + "  "
    if isinstance(record, dict):
        quoted = ((_scalar(name), part) for name, part in record.items())
        parts = [f"{name}: {_text(part, deeper)}" for name, part in quoted]
        opening, closing = "{", "}"
    elif isinstance(record, list):
        parts = [_text(part, deeper) for part in record]
        opening, closing = "[", "]"
    else:
        return _scalar(record)
    line = opening + ", ".join(parts) + closing
    if len(line) + len(indent) <= WIDTH and "\n" not in line:
        return line
    return (
        opening
        + "".join(
            f"\n{deeper}{part}{',' * (number < len(parts))}" for number, part in enumerate(parts, 1)
        )
        + f"\n{indent}{closing}"
    )


def _scalar(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def read_json(data: bytes, *, source: str) -> Any:
    """The record that the bytes of the file `source` hold. Raises PlanFileError for other bytes."""
    if len(data) > MOST_BYTES:
        raise PlanFileError(
            tr(
                "The file has {data:,} bytes; a plan file has at most {most_bytes:,}.",
                data=len(data),
                most_bytes=MOST_BYTES,
            ),
            where=source,
            mend=tr("Choose a plan file that Weekloom wrote."),
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise PlanFileError(
            tr("Byte {start} is not UTF-8 text.", start=error.start),
            where=source,
            mend=tr("Choose a plan file, or save it again as UTF-8."),
        ) from None
    try:
        return json.loads(text, object_pairs_hook=_once, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise PlanFileError(
            tr("The text stops being JSON ({msg}).", msg=error.msg),
            where=tr(
                "{source}, line {lineno}, column {colno}",
                source=source,
                lineno=error.lineno,
                colno=error.colno,
            ),
            mend=tr("Mend that line, or export the plan again."),
        ) from None
    except PlanFileError as error:
        raise PlanFileError(error.what, where=source, mend=error.mend) from None
    except (RecursionError, ValueError):
        # nested without end, or a number of more digits than Python reads
        raise PlanFileError(
            tr("The file is nested too deeply or holds an endless number."),
            where=source,
            mend=tr("Choose a plan file that Weekloom wrote."),
        ) from None


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    record = dict(pairs)
    if len(record) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise PlanFileError(
            tr("The field {twice!r} stands twice in one record.", twice=twice), mend=tr("Keep one.")
        )
    return record


def _no_number(word: str) -> float:
    raise PlanFileError(tr("{word} is not a number.", word=word), mend=tr("Write a finite number."))
