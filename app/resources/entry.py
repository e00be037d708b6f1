"""One entry of a data file, read field by field with errors that lead to the line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

from app.domain.errors import ResourceError
from app.domain.wording import tr

Choice = TypeVar("Choice", bound=StrEnum)

LONGEST_LINE = 300
_FORBIDDEN = re.compile(r"[<>\x00-\x1f\x7f]")


def near(found: str, allowed: Iterable[str]) -> str:
    """` Did you mean ...?` for the allowed word nearest to `found`; empty if none is near."""
    from difflib import get_close_matches  # only a mistake needs it

    close = get_close_matches(found, list(allowed), n=1)
    return tr(" Did you mean {first!r}?", first=close[0]) if close else ""


def _called(kind: type[StrEnum]) -> str:
    """`a load kind` for LoadKind, `an equipment` for Equipment."""
    words = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", kind.__name__).lower()
    return f"{(tr('an') if words[0] in 'aeiou' else 'a')} {words}"


@dataclass(frozen=True, slots=True)
class Entry:
    """One named table of a data file, with the text it came from to tell lines by."""

    source: str
    name: str
    values: Mapping[str, object]
    content: str = ""

    def error(self, field: str, what: str, *, mend: str = "") -> ResourceError:
        """The error for one field of this entry: file, line, entry and field, then `what`."""
        line = self._line_of(field)
        place = (self.source, tr("line {line}", line=line) if line else "", self.name, field)
        return ResourceError(what, where=", ".join(p for p in place if p), mend=mend)

    def _line_of(self, field: str) -> int:
        """The line of `field`, else of the entry's head; 0 if it cannot be told."""
        lines = self.content.splitlines()
        head = f"[{self.name}]"
        start = next((i for i, line in enumerate(lines) if line.strip() == head), -1)
        if start < 0:
            return 0
        for number, line in enumerate(lines[start + 1 :], start + 2):
            if line.startswith("["):
                break
            if re.match(rf"\s*{re.escape(field)}\s*=", line):
                return number
        return start + 1

    def refuse_unknown(self, allowed: Iterable[str]) -> None:
        """Raise ResourceError for the first field that is not in `allowed`."""
        known = tuple(allowed)
        for field in self.values:
            if field not in known:
                raise self.error(
                    field,
                    tr("There is no field {field!r}.{near}", field=field, near=near(field, known)),
                    mend=tr("Fields are {known}.", known=", ".join(known)),
                )

    def words(self, field: str, default: str | None = None) -> str:
        """A line of plain text; required unless a default is given."""
        found = self.values.get(field, default)
        if found is None:
            raise self.error(
                field, tr("This field is missing."), mend=tr("Add it as a line of text.")
            )
        return self._plain(field, found)

    def _plain(self, field: str, found: object) -> str:
        if not isinstance(found, str):
            raise self.error(
                field,
                tr("{found!r} is not text.", found=found),
                mend=tr('Write it in quotes: "...".'),
            )
        if odd := _FORBIDDEN.search(found):
            raise self.error(
                field,
                tr(
                    "The character {group!r} is not allowed in {found!r}.",
                    group=odd.group(),
                    found=found[:40],
                ),
                mend=tr("Use plain text on one line, without < and >."),
            )
        if len(found) > LONGEST_LINE:
            raise self.error(
                field,
                tr("A text of {found} characters is too long.", found=len(found)),
                mend=tr("Use at most {longest_line}.", longest_line=LONGEST_LINE),
            )
        return found

    def lines(self, field: str) -> tuple[str, ...]:
        """A list of lines of text; empty when absent."""
        return tuple(self._plain(field, line) for line in self.rows(field))

    def rows(self, field: str) -> tuple[object, ...]:
        """A list of anything; empty when absent."""
        found = self.values.get(field, [])
        if not isinstance(found, list):
            raise self.error(
                field, tr("{found!r} is not a list.", found=found), mend=tr("Write it in [ ].")
            )
        return tuple(found)

    def table(self, field: str) -> Mapping[str, object]:
        """A table of named values; empty when absent."""
        found = self.values.get(field, {})
        if not isinstance(found, dict):
            raise self.error(
                field,
                tr("{found!r} is not a table.", found=found),
                mend=tr("Write { name = value }."),
            )
        return found

    def flag(self, field: str, default: bool | None = None) -> bool:
        """True or false; required unless a default is given."""
        found = self.values.get(field, default)
        if not isinstance(found, bool):
            raise self.error(
                field,
                tr("{found!r} is neither true nor false.", found=found),
                mend=tr("Write true."),
            )
        return found

    def integer(self, field: str, default: int, *, low: int, high: int) -> int:
        """A whole number from `low` to `high`."""
        found = self.values.get(field, default)
        if not isinstance(found, int) or isinstance(found, bool):
            raise self.error(
                field,
                tr("{found!r} is not a whole number.", found=found),
                mend=tr("Write digits only."),
            )
        return int(self.within(field, found, low=low, high=high))

    def number(self, field: str, default: float, *, low: float, high: float) -> float:
        """A number from `low` to `high`."""
        return self.within(field, self.values.get(field, default), low=low, high=high)

    def within(self, field: str, found: object, *, low: float, high: float) -> float:
        """`found` as a number, if it is one from `low` to `high`."""
        if not isinstance(found, int | float) or isinstance(found, bool):
            raise self.error(
                field, tr("{found!r} is not a number.", found=found), mend=tr("Write digits only.")
            )
        if not low <= found <= high:
            raise self.error(
                field,
                tr("{found:g} is outside {low:g} to {high:g}.", found=found, low=low, high=high),
                mend=tr("Use a value from {low:g} to {high:g}.", low=low, high=high),
            )
        return float(found)

    def choice(self, field: str, kind: type[Choice], found: object | None = None) -> Choice:
        """One member of an enumeration, by its value: of `found`, or else of the field."""
        word = self.words(field) if found is None else self._plain(field, found)
        try:
            return kind(word)
        except ValueError:
            allowed = [str(member) for member in kind]
            raise self.error(
                field,
                tr(
                    "{word!r} is not {called}.{near}",
                    word=word,
                    called=_called(kind),
                    near=near(word, allowed),
                ),
                mend=tr("Use one of {allowed}.", allowed=", ".join(allowed)),
            ) from None

    def choices(self, field: str, kind: type[Choice]) -> tuple[Choice, ...]:
        """Members of an enumeration, by their values; empty when absent."""
        return tuple(self.choice(field, kind, word) for word in self.rows(field))
