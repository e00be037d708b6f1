"""Bring the gettext files of `resources/languages` up to what the code says.

python packaging/translations.py           update every file: new texts empty, unused ones dropped
python packaging/translations.py --check   only tell what an update would change

A comment under the first line of a file is its translator's: the words chosen for terms.

The files hold what clients read on paper: the texts of the booklet, of the other papers and of the
parts of the domain that these print. The window's own texts are marked in the same way and can be
added here (`SCOPE`) once a translator takes the window on.
"""

from __future__ import annotations

import argparse
import ast
import tomllib
from collections.abc import Iterator
from io import BytesIO
from itertools import takewhile
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / "resources" / "languages"

KEYWORDS = {"tr": (0,), "mark": (0,), "trn": (0, 1), "plural": (1, 2)}
"""The calls whose texts are templates, with the places of the texts among the arguments."""

SCOPE = (
    "app/booklet",
    "app/domain/client.py",
    "app/domain/curve.py",
    "app/domain/effort.py",
    "app/domain/energy/account.py",
    "app/domain/energy/advice.py",
    "app/domain/energy/aim.py",
    "app/domain/energy/macros.py",
    "app/domain/energy/plan.py",
    "app/domain/energy/ramp.py",
    "app/domain/energy/refer.py",
    "app/domain/energy/requirement.py",
    "app/domain/energy/resting.py",
    "app/domain/exercise.py",
    "app/domain/intake.py",
    "app/domain/intake_questions.py",
    "app/domain/loads.py",
    "app/domain/muscle_groups.py",
    "app/domain/one_rm.py",
    "app/domain/program.py",
    "app/domain/progress/told.py",
    "app/domain/screening.py",
    "app/domain/warmup.py",
    "app/domain/wording.py",
    "app/domain/working.py",
    "app/press.py",
)
"""Files and folders whose texts are shipped in other languages."""

COACH_ONLY = (
    "app/booklet/fonts.py",
    "app/booklet/mark.py",
    "app/booklet/report.py",
    "app/booklet/report_entries.py",
)
"""What is printed for a colleague of the coach, or told to the coach: English."""


def files() -> tuple[Path, ...]:
    """The files in scope, relative to the checkout."""
    found = []
    for name in SCOPE:
        place = ROOT / name
        found += sorted(place.rglob("*.py")) if place.is_dir() else [place]
    relative = (path.relative_to(ROOT) for path in found)
    return tuple(path for path in relative if path.as_posix() not in COACH_ONLY)


def texts(source: str) -> Iterator[str | tuple[str, str]]:
    """The templates of a module, those of errors left out: they are told in the window alone."""
    tree = ast.parse(source)
    raised = {
        id(node)
        for statement in ast.walk(tree)
        if isinstance(statement, ast.Raise)
        for node in ast.walk(statement)
    }
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Name)
            and id(node) not in raised
        ):
            found = tuple(
                place.value
                for at in KEYWORDS.get(node.func.id, ())
                for place in node.args[at : at + 1]
                if isinstance(place, ast.Constant) and isinstance(place.value, str) and place.value
            )
            if len(found) == 1:
                yield found[0]
            elif found:
                yield found[0], found[1]


def muscles() -> Iterator[str]:
    """The plain names of muscles, which stand in a data file."""
    tables = tomllib.loads((ROOT / "resources" / "muscles.toml").read_text(encoding="utf-8"))
    for table in tables.values():
        yield table["plain"]


def template() -> Catalog:
    """Every text in scope, untranslated."""
    catalog = Catalog(project="Weekloom", charset="utf-8", header_comment="")
    for path in files():
        for text in texts((ROOT / path).read_text(encoding="utf-8")):
            catalog.add(text)
    for text in muscles():
        catalog.add(text)
    return catalog


def updated(language: str) -> bytes:
    """The file of a language as it should be."""
    old = FOLDER / f"{language}.po"
    catalog = Catalog(locale=language, charset="utf-8", header_comment=HEADER)
    if old.is_file():
        with old.open("rb") as file:
            catalog = read_po(file, locale=language)
    catalog.header_comment = HEADER
    catalog.project, catalog.version = "Weekloom", ""
    catalog.update(template(), no_fuzzy_matching=True)
    catalog.obsolete.clear()
    catalog.fuzzy = False
    out = BytesIO()
    write_po(out, catalog, width=100, sort_output=True, omit_header=True, no_location=True)
    return header(catalog, glossary(old)) + out.getvalue()


def glossary(file: Path) -> str:
    """The comment under the first line of a file, as its translator left it."""
    lines = file.read_text(encoding="utf-8").splitlines()[1:] if file.is_file() else []
    return "".join(f"{line}\n" for line in takewhile(lambda line: line.startswith("#"), lines))


HEADER = """\
# What clients read on paper, in another language; packaging/translations.py keeps the list.
"""


def header(catalog: Catalog, words: str = "") -> bytes:
    """The head of a file: its glossary, language and plural forms, nothing that changes daily."""
    return (
        f"{HEADER}{words}"
        'msgid ""\n'
        'msgstr ""\n'
        f'"Language: {catalog.locale}\\n"\n'
        '"MIME-Version: 1.0\\n"\n'
        '"Content-Type: text/plain; charset=utf-8\\n"\n'
        '"Content-Transfer-Encoding: 8bit\\n"\n'
        f'"Plural-Forms: {catalog.plural_forms}\\n"\n\n'
    ).encode()


def languages() -> tuple[str, ...]:
    """The languages there are files of."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.po")))


def main() -> int:
    """Update or check every file."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--check", action="store_true", help="change nothing")
    parser.add_argument("languages", nargs="*", help="codes; all that are there if left out")
    asked = parser.parse_args()
    stale = 0
    for language in asked.languages or languages():
        path, content = FOLDER / f"{language}.po", updated(language)
        if path.is_file() and path.read_bytes() == content:
            continue
        stale += 1
        if not asked.check:
            FOLDER.mkdir(exist_ok=True)
            path.write_bytes(content)
        print(f"{path.relative_to(ROOT)} {'is stale' if asked.check else 'was updated'}")
    return stale if asked.check else 0


if __name__ == "__main__":
    raise SystemExit(main())
