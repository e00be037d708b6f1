"""Kept tables are those of the source, exactly, or none at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.resources import files, parsed

values = st.recursive(
    st.text() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)
STAMP: parsed.Stamp = ("0.0", "/resources/x.toml", 12, 1_700_000_000_000_000_000)


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder for what is kept."""
    monkeypatch.setattr(parsed, "place_for", lambda name: tmp_path / "c" / name.replace("/", "."))
    return tmp_path / "c"


@given(tables=st.dictionaries(st.text(), values, max_size=5))
def test_what_comes_back_is_what_was_kept_to_the_kind_of_every_value(tmp_path_factory, tables):
    place = tmp_path_factory.mktemp("cache") / "x.json"
    parsed.keep(place, STAMP, tables=tables)
    assert repr(parsed.kept(place, STAMP)) == repr(tables)  # 1, 1.0 and True are equal


@pytest.mark.parametrize("folder", ["exercises", "ranges", "poses"])
def test_the_shipped_tables_are_the_same_from_the_cache(cache, folder):
    for name in files.names_in(folder, ".toml"):
        fresh = files.tables_from_toml(files.text(name), source=name)
        assert repr(files.read_toml(name)) == repr(fresh)
        assert parsed.kept(parsed.place_for(name), parsed.stamp_of(files.path_of(name))) is not None
        assert repr(files.read_toml(name)) == repr(fresh)
    assert not list(cache.glob("*.new"))


def test_another_size_time_place_or_version_counts_as_another_source(tmp_path):
    place = tmp_path / "x.json"
    parsed.keep(place, STAMP, tables={"a": 1})
    others = (("0.1", *STAMP[1:]), (*STAMP[:2], 13, STAMP[3]), (*STAMP[:3], 5), ("0.0", "/y"))
    assert [parsed.kept(place, other) for other in others] == [None] * 4


def test_a_stamp_follows_the_file(tmp_path):
    source = tmp_path / "x.toml"
    source.write_text("a = 1", encoding="utf-8")
    first = parsed.stamp_of(source)
    os.utime(source, ns=(5, 5))
    second = parsed.stamp_of(source)
    source.write_text("a = 11", encoding="utf-8")
    os.utime(source, ns=(5, 5))
    assert len({first, second, parsed.stamp_of(source)}) == 3


@given(where=st.integers(min_value=0), byte=st.integers(1, 255))
def test_one_damaged_byte_anywhere_is_noticed(tmp_path_factory, where, byte):
    place = tmp_path_factory.mktemp("cache") / "x.json"
    parsed.keep(place, STAMP, tables={"squat": {"name": "Squat", "skill": 2}})
    raw = bytearray(place.read_bytes())
    raw[where % len(raw)] ^= byte
    place.write_bytes(raw)
    found = parsed.kept(place, STAMP)
    assert found is None or found == {"squat": {"name": "Squat", "skill": 2}}


@pytest.mark.parametrize("found", [b"", b"\n", b"[]", b"\xff\xfe", b'["0.0"]\n{}', b"{" * 5000])
def test_what_is_no_cache_is_parsed_anew_and_replaced(cache, found):
    name = files.names_in("ranges", ".toml")[0]
    fresh = files.read_toml(name)
    place = parsed.place_for(name)
    place.write_bytes(found)
    assert files.read_toml(name) == fresh
    assert parsed.kept(place, parsed.stamp_of(files.path_of(name))) == fresh


def test_a_folder_that_cannot_be_made_does_without(tmp_path, monkeypatch):
    (tmp_path / "c").write_text("a file in the way", encoding="utf-8")
    monkeypatch.setattr(parsed, "place_for", lambda name: tmp_path / "c" / "x.json")
    name = files.names_in("ranges", ".toml")[0]
    assert files.read_toml(name) == files.tables_from_toml(files.text(name), source=name)


def test_tables_that_json_would_change_are_not_kept(tmp_path):
    for number, odd in enumerate((float("nan"), float("inf"), {1, 2})):
        place = tmp_path / f"{number}.json"
        parsed.keep(place, STAMP, tables={"odd": odd})
        assert not place.exists()


@pytest.mark.skipif(os.name == "nt", reason="rights are told otherwise there")
def test_only_the_user_may_read_what_is_kept(tmp_path):
    place = tmp_path / "cache" / "tables" / "x.json"
    parsed.keep(place, STAMP, tables={})
    assert stat.S_IMODE(place.stat().st_mode) == 0o600
    for folder in (place.parent, place.parent.parent):
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_every_shipped_file_has_a_place_of_its_own():
    names = [n for folder in ("exercises", "ranges", "poses") for n in files.names_in(folder, "")]
    assert len({parsed.place_for(name) for name in names}) == len(names)
