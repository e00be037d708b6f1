"""The desktop entry, the metainfo and the changelog say the same as pyproject.toml."""

from __future__ import annotations

import configparser
import re
import tomllib
from pathlib import Path
from xml.etree import ElementTree as ET

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def desktop_entry() -> configparser.SectionProxy:
    """The one section of the desktop entry."""
    entry = configparser.ConfigParser(interpolation=None)
    entry.optionxform = str  # type: ignore[assignment,method-assign]
    entry.read(ROOT / "packaging" / "weekloom.desktop", encoding="utf-8")
    return entry["Desktop Entry"]


def metainfo() -> ET.Element:
    """The metainfo's root element."""
    return ET.parse(ROOT / "packaging" / "weekloom.metainfo.xml").getroot()  # noqa: S314 - our own


def test_the_desktop_entry_starts_the_command_of_the_project() -> None:
    entry = desktop_entry()
    assert entry["Type"] == "Application"
    assert entry["Exec"].split()[0] in PROJECT["scripts"]
    assert entry["Terminal"] == "false"
    assert entry["Categories"].endswith(";")


def test_the_metainfo_leads_to_the_desktop_entry_and_tells_the_same() -> None:
    component, entry = metainfo(), desktop_entry()
    assert component.findtext("launchable") == "weekloom.desktop"
    assert component.findtext("name") == entry["Name"]
    assert component.findtext("summary") == entry["Comment"]
    assert component.findtext("project_license") == PROJECT["license"]
    assert component.findtext("metadata_license") == "CC0-1.0"
    categories = [node.text for node in component.iterfind("categories/category")]
    assert categories == entry["Categories"].rstrip(";").split(";")


def test_the_metainfo_knows_the_present_version() -> None:
    releases = [node.get("version") for node in metainfo().iterfind("releases/release")]
    assert PROJECT["version"] in releases


def test_the_changelog_has_room_for_what_is_not_released() -> None:
    text = (ROOT / "packaging" / "CHANGELOG.md").read_text(encoding="utf-8")
    headings = re.findall(r"^## \[(.+?)\]", text, re.MULTILINE)
    assert headings[0] == "Unreleased"
    assert all(re.fullmatch(r"\d+\.\d+\.\d+", heading) for heading in headings[1:])
