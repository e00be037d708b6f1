"""Write packaging/parts.cdx.json: every library that Weekloom runs with, as a CycloneDX document.

For whoever has to know whether a library with a known weakness is inside. It is made from
packaging/run.lock alone, so the same lock always gives the same bytes, and it names the lock by its
check sum. `packaging/relock.py` writes it anew.
"""

from __future__ import annotations

import hashlib
import json
import re
import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "packaging" / "run.lock"
PLACE = ROOT / "packaging" / "parts.cdx.json"

_PIN = re.compile(r"^(?P<name>[\w.-]+)==(?P<version>[^\s;]+)(?:\s*;\s*(?P<where>[^\\]+))?", re.M)


def component(name: str, version: str, where: str) -> dict[str, Any]:
    """One library; where: the marker of the systems that it is for, empty for all."""
    address = f"pkg:pypi/{name}@{version}"
    made: dict[str, Any] = {
        "type": "library",
        "bom-ref": address,
        "name": name,
        "version": version,
        "purl": address,
    }
    if where:
        made["properties"] = [{"name": "weekloom:only-where", "value": where}]
    return made


def parts(lock: str) -> dict[str, Any]:
    """The document for the text of a lock."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    found = [
        component(pin["name"], pin["version"], (pin["where"] or "").strip())
        for pin in _PIN.finditer(lock)
    ]
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {
            "component": {"type": "application", "bom-ref": "weekloom", "name": project["name"]},
            "properties": [
                {
                    "name": "weekloom:run.lock:sha256",
                    "value": hashlib.sha256(lock.encode()).hexdigest(),
                }
            ],
        },
        "components": found,
        "dependencies": [{"ref": "weekloom", "dependsOn": [one["bom-ref"] for one in found]}],
    }


def text() -> str:
    """The document for the lock as it is now."""
    return json.dumps(parts(LOCK.read_text(encoding="utf-8")), indent=1) + "\n"


if __name__ == "__main__":
    PLACE.write_text(text(), encoding="utf-8", newline="\n")
