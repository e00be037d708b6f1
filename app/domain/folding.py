"""Names as fingers and files spell them, brought to one form so that they can be compared."""

from __future__ import annotations

import re
from unicodedata import category, combining, normalize

_APART = re.compile(r"[\W_]+")


def fold(text: str) -> str:
    """Lower case without accents, apostrophes, hyphens and what has no width: 'farmers carry'.

    Whatever is neither letter nor digit, a no-break space too, becomes one space.
    """
    if not text.isascii():
        text = "".join(
            letter
            for letter in normalize("NFKD", text)
            if not combining(letter) and category(letter) != "Cf"
        )
    text = text.casefold().replace("'", "").replace("\N{RIGHT SINGLE QUOTATION MARK}", "")
    return _APART.sub(" ", text).strip()


def solid(name: str) -> str:
    """The folded name without spaces: two names that share it are the same to a reader.

    A name of signs alone stays as it is, in lower case.
    """
    return fold(name).replace(" ", "") or name.casefold().strip()
