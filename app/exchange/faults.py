"""What a schema finds wrong with a record, as a sentence: where, what is there, what may be."""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from app.domain.errors import PlanFileError
from app.domain.wording import mark, tr

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

KINDS = {
    "object": mark("a record in braces"),
    "array": mark("a list in brackets"),
    "string": mark("text in quotes"),
    "integer": mark("a whole number"),
    "number": mark("a number"),
    "boolean": mark("true or false"),
}
LONGEST_LIST = 30
"""Most allowed values that a sentence lists."""


def path_text(path: Iterable[str | int]) -> str:
    """A place in a record: `program.weeks[3].days.monday`; `the file` for the whole of it."""
    text = ""
    for part in path:
        text += f"[{part}]" if isinstance(part, int) else f".{part}" if text else part
    return text or tr("the file")


def fault(error: ValidationError, *, source: str) -> PlanFileError:
    """The error of a schema as a coach reads it."""
    what, mend = _said(
        str(error.validator), error.instance, limit=error.validator_value, schema=error.schema
    )
    return PlanFileError(what, where=f"{source}, {path_text(error.absolute_path)}", mend=mend)


def _said(name: str, found: Any, *, limit: Any, schema: Any) -> tuple[str, str]:
    match name:
        case "additionalProperties":
            return _unknown_field(found, list(schema.get("properties", {})))
        case "required":
            lacking = next(field for field in limit if field not in found)
            return tr("The field {lacking!r} is missing.", lacking=lacking), tr(
                "Add {lacking!r}.", lacking=lacking
            )
        case "type":
            return tr("{shown} is not {limit}.", shown=shown(found), limit=tr(KINDS[limit])), tr(
                "Write {limit}.", limit=tr(KINDS[limit])
            )
        case "enum":
            return tr("{shown} is not known here.", shown=shown(found)), near(
                str(found), list(map(str, limit))
            )
        case "const":
            return tr(
                "{shown} stands where {shown_2} belongs.", shown=shown(found), shown_2=shown(limit)
            ), tr("Write {shown}.", shown=shown(limit))
        case "minimum" | "maximum":
            return tr("{shown} is out of range.", shown=shown(found)), _range(schema)
        case "minItems" | "maxItems" | "minProperties" | "maxProperties":
            return tr("There are {found} entries.", found=len(found)), _entries(schema)
        case "maxLength":
            return tr("The text has {found:,} letters.", found=len(found)), tr(
                "Keep it to {limit:,}.", limit=limit
            )
        case "uniqueItems":
            return tr("An entry stands twice."), tr("Keep each once.")
        case _:  # pattern
            return tr("{shown} cannot stand here.", shown=shown(found)), _hint(schema)


def _unknown_field(found: dict[str, Any], known: list[str]) -> tuple[str, str]:
    name = next(name for name in found if name not in known)
    return tr("The field {name!r} is unknown.", name=name), near(name, known)


def near(found: str, known: list[str]) -> str:
    """What to write instead: the nearest of the known names, or all of them if few."""
    close = difflib.get_close_matches(found, known, n=1)
    if close:
        return tr("Did you mean {first!r}?", first=close[0])
    if len(known) <= LONGEST_LIST:
        return tr("Use {known}.", known=", ".join(known))
    return tr("Choose one that is in the library.")


def near_words(found: str, known: list[str]) -> str:
    """As `near`, for names of several words: 'sqat' is near to every name with the word 'squat'.

    Of those with the fewest other words up to three are told.
    """
    wanted = found.casefold().replace(" ", "_").split("_")
    ranked = []
    for name in known:
        words = name.split("_")
        nearest = [max(_likeness(word, one) for one in words) for word in wanted]
        if min(nearest) >= 0.75:
            ranked.append((-sum(nearest), len(words), -_likeness(name, found), name))
    if not ranked:
        return near(found, known)
    best = min(ranked)[:2]
    names = [repr(name) for *rank, name in sorted(ranked) if tuple(rank[:2]) == best][:3]
    if len(names) == 1:
        return tr("Did you mean {first}?", first=names[0])
    return tr("Did you mean {names} or {last}?", names=", ".join(names[:-1]), last=names[-1])


def _likeness(one: str, other: str) -> float:
    """How alike two words are, from 0 to 1."""
    return difflib.SequenceMatcher(None, one, other).ratio()


def _range(schema: dict[str, Any]) -> str:
    whole = tr("a whole number") if schema.get("type") == "integer" else tr("a number")
    low, high = schema.get("minimum"), schema.get("maximum")
    if high is None:
        return tr("Write {whole} from {low:,} on.", whole=whole, low=low)
    return tr("Write {whole} from {low:,} to {high:,}.", whole=whole, low=low, high=high)


def _entries(schema: dict[str, Any]) -> str:
    low = schema.get("minItems", schema.get("minProperties", 0))
    high = schema.get("maxItems", schema.get("maxProperties"))
    if low == high:
        return tr("Write exactly {low}.", low=low)
    return (
        tr("Write {low} to {high:,}.", low=low, high=high)
        if high is not None
        else tr("Write at least {low}.", low=low)
    )


def _hint(schema: dict[str, Any]) -> str:
    return str(schema.get("description", "Write another text."))


def shown(value: object) -> str:
    """A value as it stands in the file, cut if it is long."""
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else f"{text[:57]}..."
