"""The lock of a whole file: a passphrase, and SQLite's connection through the cipher library.

A locked file is a SQLCipher 4 file with the library's own settings: AES-256-CBC and HMAC-SHA-512
on each page of 4096 bytes, the key from the passphrase by PBKDF2-HMAC-SHA-512 with 256,000 rounds
and the salt in the file's first 16 bytes. Source: the library's published design
(https://www.zetetic.net/sqlcipher/design/). The library is imported for locked files only.
"""

from __future__ import annotations

import sqlite3
import sys
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from secrets import token_bytes
from typing import TYPE_CHECKING, Any, cast

from app.domain.errors import CoachError
from app.domain.wording import tr
from db.errors import Cause, StoreFailure

if TYPE_CHECKING:
    from types import ModuleType

LEAST_LETTERS = 8
"""The fewest letters of a passphrase. NIST SP 800-63B (value from memory)."""

PAGE_BYTES = 4096
SALT_BYTES = 16
HMAC_BYTES = 64
ROUNDS = 256_000

PAGES_TRIED = 64
"""Pages that a passphrase is tried on before it is called wrong: damage seldom spares none."""

KINDS_OF_BYTES = 200
"""A page of noise has nearly all 256 kinds of bytes: fewer than this are no locked page."""

MODULE = "sqlcipher3.dbapi2"


@dataclass(frozen=True, slots=True)
class Passphrase:
    """What a locked file opens with. It never shows in a `repr`, so it reaches no log.

    The text is kept in one Unicode form (NFC), so every keyboard gives the same bytes.
    """

    text: str = field(repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "text", unicodedata.normalize("NFC", self.text))

    def for_file(self, path: Path) -> str:
        """The key of that file, as a text in SQL: the statements that need it take no parameters.

        Worked out once, since 256,000 rounds take a while. A file without a byte gets a new one.
        """
        with path.open("rb") as file:
            salt = file.read(SALT_BYTES)
        if len(salt) < SALT_BYTES:
            salt = token_bytes(SALT_BYTES)
        return f"\"x'{_secret(self, salt).hex()}{salt.hex()}'\""


def new_passphrase(text: str) -> Passphrase:
    """The passphrase for a file that is to be locked. Raises CoachError for a weak one."""
    if "\0" in text or not text.isprintable():
        raise CoachError(
            tr("The passphrase holds a sign that cannot be typed again."),
            mend=tr("Use letters, figures, spaces and signs of the keyboard."),
        )
    if len(text.strip()) < LEAST_LETTERS or len(set(text)) < LEAST_LETTERS // 2:
        raise CoachError(
            tr("The passphrase is too easy to guess."),
            mend=tr(
                "Use at least {n} letters; four or more unrelated words are good.", n=LEAST_LETTERS
            ),
        )
    return Passphrase(text)


def looks_locked(path: Path) -> bool:
    """True if the file begins as locked ones do: with a page of noise.

    Other noise (a packed file, say) looks the same; only its passphrase can tell.
    """
    with path.open("rb") as file:
        page = file.read(PAGE_BYTES)
    noisy = len(page) == PAGE_BYTES and len(set(page)) >= KINDS_OF_BYTES
    return noisy and not page.startswith(b"SQLite format 3")


def cipher() -> ModuleType:
    """The driver for locked files. Raises StoreFailure where it is not installed."""
    try:
        from sqlcipher3 import dbapi2
    except ImportError as error:
        raise StoreFailure(Cause.NO_CIPHER) from error
    return cast("ModuleType", dbapi2)


def address(path: Path, *, writable: bool = True) -> str:
    """The URI of an existing file."""
    return f"{path.absolute().as_uri()}?mode={'rw' if writable else 'ro'}"


def connect(
    path: Path, *, writable: bool = True, wait_s: float, key: Passphrase | None
) -> sqlite3.Connection:
    """SQLite's connection to an existing file, unlocked if there is a key.

    It commits by itself and may be used in any thread, by one at a time. Raises the driver's
    Error; key: only for a file that it fits (`fits`), or an empty one.
    """
    if key is not None:
        return connect_cipher(path, writable=writable, wait_s=wait_s, key=key)
    return sqlite3.connect(
        address(path, writable=writable),
        uri=True,
        timeout=wait_s,
        isolation_level=None,
        check_same_thread=False,
    )


def connect_cipher(
    path: Path, *, writable: bool = True, wait_s: float, key: Passphrase | None
) -> sqlite3.Connection:
    """The same through the cipher library, which also opens files without a lock."""
    raw: Any = cipher().connect(
        address(path, writable=writable),
        uri=True,
        timeout=wait_s,
        isolation_level=None,
        check_same_thread=False,
    )
    # its own log would go to standard error, page by page
    raw.execute("PRAGMA cipher_log_level = NONE")
    if key is not None:
        raw.execute(f"PRAGMA key = {key.for_file(path)}")
    return cast("sqlite3.Connection", raw)


def is_cipher(raw: sqlite3.Connection) -> bool:
    """True for a connection through the cipher library."""
    return not isinstance(raw, sqlite3.Connection)


def module_of(raw: sqlite3.Connection) -> Any:
    """The driver behind a connection."""
    return sys.modules[MODULE] if is_cipher(raw) else sqlite3


def fits(path: Path, key: Passphrase) -> bool:
    """True if the passphrase fits any of the file's pages.

    It tells a wrong passphrase from damage, which SQLite does not: each page carries a check sum
    that only the right key gives.
    """
    with path.open("rb") as file:
        salt = file.read(SALT_BYTES)
        hmac_key = _hmac_key(key, salt)
        file.seek(0)
        return any(_is_of(page, number, hmac_key) for number, page in _pages(file))


def _pages(file: Any) -> Iterator[tuple[int, bytes]]:
    for number in range(1, PAGES_TRIED + 1):
        page = file.read(PAGE_BYTES)
        if len(page) < PAGE_BYTES:
            return
        yield number, page[SALT_BYTES:] if number == 1 else page


def _is_of(page: bytes, number: int, hmac_key: bytes) -> bool:
    import hmac

    body, told = page[:-HMAC_BYTES], page[-HMAC_BYTES:]
    found = hmac.new(hmac_key, body + number.to_bytes(4, "little"), "sha512").digest()
    return hmac.compare_digest(found, told)


def _hmac_key(key: Passphrase, salt: bytes) -> bytes:
    import hashlib

    own_salt = bytes(byte ^ 0x3A for byte in salt)
    return hashlib.pbkdf2_hmac("sha512", _secret(key, salt), own_salt, 2, 32)


@lru_cache(maxsize=8)
def _secret(key: Passphrase, salt: bytes) -> bytes:
    import hashlib

    return hashlib.pbkdf2_hmac("sha512", key.text.encode(), salt, ROUNDS, 32)
