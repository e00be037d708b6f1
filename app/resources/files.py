"""Where the shipped data lie, and their bytes and text."""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path

from app.domain.errors import ResourceError
from app.domain.wording import tr
from app.resources import parsed

Table = parsed.Table


@cache
def folder() -> Path:
    """The `resources` folder: beside the packages, or inside a frozen or an installed program.

    Raises ResourceError naming the places searched.
    """
    beside = Path(__file__).resolve().parents[2] / "resources"
    frozen = Path(getattr(sys, "_MEIPASS", beside.parent)) / "resources"
    installed = Path(sys.prefix) / "share" / "weekloom" / "resources"
    for place in (frozen, beside, installed):
        if (place / "references.json").is_file():
            return place.resolve()
    raise ResourceError(
        tr(
            "The folder of shipped data is missing (searched {beside} and {installed}).",
            beside=beside,
            installed=installed,
        ),
        mend=tr("Install Weekloom again, or start it from a complete checkout."),
    )


def path_of(relative: str) -> Path:
    """The place of a shipped file or folder, given relative to `resources`, parts split by `/`.

    Raises ResourceError when it is not there or lies outside.
    """
    place = folder().joinpath(*relative.split("/")).resolve()
    if not place.is_relative_to(folder()) or not place.exists():
        raise ResourceError(
            tr("There is no shipped file {relative!r}.", relative=relative),
            mend=tr("Install Weekloom again."),
        )
    return place


def data(relative: str) -> bytes:
    """The bytes of a shipped file."""
    return path_of(relative).read_bytes()


def text(relative: str) -> str:
    """The text of a shipped UTF-8 file."""
    try:
        return data(relative).decode("utf-8")
    except UnicodeDecodeError as error:
        raise ResourceError(
            tr("Byte {start} is not UTF-8.", start=error.start),
            where=relative,
            mend=tr("Save the file as UTF-8."),
        ) from error


def names_in(relative: str, suffix: str) -> tuple[str, ...]:
    """The files of a shipped folder that end in `suffix`, relative to `resources`, sorted."""
    found = sorted(path_of(relative).glob(f"*{suffix}"))
    return tuple(f"{relative}/{place.name}" for place in found)


def font_path(name: str) -> Path:
    """The place of a shipped font file, such as `NotoSans-Regular.ttf`."""
    return path_of(f"fonts/{name}")


def read_toml(relative: str) -> Table:
    """A shipped TOML file as plain tables. Raises ResourceError with line and column."""
    stamp, place = parsed.stamp_of(path_of(relative)), parsed.place_for(relative)
    tables = parsed.kept(place, stamp)
    if tables is None:
        tables = tables_from_toml(text(relative), source=relative)
        parsed.keep(place, stamp, tables=tables)
    return tables


def tables_from_toml(content: str, *, source: str) -> Table:
    """TOML text as plain tables. Raises ResourceError with the source, line and column."""
    import tomllib  # what was parsed before is read without it

    try:
        return tomllib.loads(content)
    except tomllib.TOMLDecodeError as error:
        raise ResourceError(
            tr("This is not TOML: {error}.", error=error),
            where=source,
            mend=tr("Mend the line named."),
        ) from error
