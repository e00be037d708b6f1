"""The list of parts names every library of the lock, and the lock itself."""

from __future__ import annotations

import hashlib
import json
import re
import tomllib
from importlib.util import module_from_spec, spec_from_file_location
from typing import Any

import pytest

from tests.packaging.test_locks import ROOT, requirements


def script() -> Any:
    """packaging/parts_list.py as a module."""
    spec = spec_from_file_location("parts_list", ROOT / "packaging" / "parts_list.py")
    assert spec is not None
    assert spec.loader is not None
    made = module_from_spec(spec)
    spec.loader.exec_module(made)
    return made


parts_list = script()

MOST_DIRECT = 25
"""More libraries that we ask for ourselves would be more than we can keep an eye on."""


def test_it_is_that_of_the_lock() -> None:
    assert parts_list.PLACE.read_text(encoding="utf-8") == parts_list.text(), (
        "run `python packaging/parts_list.py` after a change of packaging/run.lock"
    )


def test_every_library_of_the_lock_is_named_with_its_version() -> None:
    document = json.loads(parts_list.PLACE.read_text(encoding="utf-8"))
    named = {f"{one['name']}=={one['version']}" for one in document["components"]}
    pinned = {
        entry.split()[0].rstrip(";") for pins in requirements("run").values() for entry in pins
    }
    assert named == pinned
    (told,) = document["metadata"]["properties"]
    assert told["value"] == hashlib.sha256(parts_list.LOCK.read_bytes()).hexdigest()
    references = [one["bom-ref"] for one in document["components"]]
    assert len(set(references)) == len(references)
    assert document["dependencies"] == [{"ref": "weekloom", "dependsOn": references}]
    assert (document["bomFormat"], document["specVersion"]) == ("CycloneDX", "1.6")


@pytest.mark.parametrize(
    ("line", "component"),
    [
        (
            "numpy==2.4.6 ; python_full_version < '3.12' \\",
            ("numpy", "python_full_version < '3.12'"),
        ),
        ("et-xmlfile==2.0.0 \\", ("et-xmlfile", "")),
        ("# a remark", None),
        ("    --hash=sha256:00", None),
    ],
)
def test_a_line_of_the_lock_is_a_component(line, component) -> None:
    found = parts_list.parts(line)["components"]
    if component is None:
        assert found == []
    else:
        (one,) = found
        where = one.get("properties", [{"value": ""}])[0]["value"]
        assert (one["name"], where) == component
        assert re.fullmatch(r"pkg:pypi/[\w.-]+@[\w.]+", one["purl"])


def test_few_libraries_are_asked_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert len(project["project"]["dependencies"]) <= MOST_DIRECT
