"""What is shipped is read once; references and muscle names are complete."""

from __future__ import annotations

import json
import re

import pytest

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle
from app.resources import catalogue, muscle_names, poses, range_book, references, text
from app.resources.shipped import muscle_names_from_toml, references_from_json

RECORDS = json.loads(text("references.json"))


def record(**changes: object) -> dict[str, object]:
    plain: dict[str, object] = {
        "id": "ask2020",
        "type": "article-journal",
        "author": [{"family": "Ask", "given": "B"}],
        "issued": {"date-parts": [[2020]]},
    }
    return plain | changes


def shorts(*records: dict[str, object]) -> list[str]:
    found = references_from_json(json.dumps(records), source="mine.json")
    return [reference.short for reference in found.values()]


def test_everything_is_read_once() -> None:
    assert catalogue() is catalogue()
    assert references() is references()
    assert muscle_names() is muscle_names()
    assert poses() is poses()


def test_poses_have_a_start_and_an_end() -> None:
    assert poses()["back_squat"].start != poses()["back_squat"].end


def test_a_reference_is_called_by_surname_and_year() -> None:
    assert references()["bazvalle2022"].short == "Baz-Valle 2022"
    assert references()["haff2016"].short == "Haff 2016"
    assert references()["acsm2009"].short == "ACSM 2009"


def test_references_of_one_author_and_year_get_letters() -> None:
    assert shorts(record(), record(id="ask2020-two"), record(id="b")) == [
        "Ask 2020a",
        "Ask 2020b",
        "Ask 2020c",
    ]
    assert shorts(record(), record(id="x", issued={"date-parts": [[2021]]})) == [
        "Ask 2020",
        "Ask 2021",
    ]


def test_a_body_is_called_by_its_name_or_its_letters() -> None:
    body = [{"literal": "Guild of Porters"}]
    assert shorts(record(author=body)) == ["Guild of Porters 2020"]
    assert shorts(record(author=body, authority="GP")) == ["GP 2020"]


def test_short_names_are_all_different() -> None:
    names = [reference.short for reference in references().values()]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("row", RECORDS, ids=[row["id"] for row in RECORDS])
def test_a_shipped_reference_is_complete(row: dict[str, object]) -> None:
    assert re.fullmatch(r"[a-z]+(\d{4})?(-[a-z]+)?", str(row["id"]))
    assert row["type"] in {"article-journal", "article", "book", "chapter", "report"}
    assert row.get("author") or row.get("editor")
    assert "title" in row or "title not at hand" in str(row["note"])
    assert "container-title" in row or "publisher" in row
    if doi := row.get("DOI"):
        assert re.fullmatch(r"10\.\d{4,5}/\S+", str(doi))


@pytest.mark.parametrize("row", RECORDS, ids=[row["id"] for row in RECORDS])
def test_the_id_of_a_shipped_reference_ends_in_its_year(row: dict[str, object]) -> None:
    year = re.search(r"\d{4}", str(row["id"]))
    issued = row["issued"]
    assert isinstance(issued, dict)
    assert year is None or int(year.group()) == issued["date-parts"][0][0]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("[", r"mine\.json: This is not JSON.*line 1"),
        ("{}", r"mine\.json: This is not a list of records"),
        ("[3]", r"mine\.json: This is not a list of records"),
        (json.dumps([record(author=[])]), r"mine\.json, ask2020, author: There is no first author"),
        (json.dumps([record(issued={})]), r"mine\.json, ask2020, issued: There is no year"),
        (json.dumps([record(), record()]), r"mine\.json: Two records have the id 'ask2020'"),
        (json.dumps([{"type": "book"}]), r"mine\.json, \?"),
    ],
)
def test_broken_references_are_refused(content: str, says: str) -> None:
    with pytest.raises(ResourceError, match=says):
        references_from_json(content, source="mine.json")


def test_every_muscle_has_its_names() -> None:
    assert tuple(muscle_names()) == tuple(Muscle)
    assert muscle_names()[Muscle.QUADRICEPS].plain == "front thigh"
    plain = [name.plain for name in muscle_names().values()]
    trade = [name.trade for name in muscle_names().values()]
    assert len(set(plain)) == len(plain)
    assert len(set(trade)) == len(trade)


@pytest.mark.parametrize(
    ("find", "put", "says"),
    [
        ("[shin]", "[shins]", r"'shins' is not a muscle. Did you mean 'shin'"),
        ('plain = "shin"', "", r"shin, plain: This field is missing"),
        ('plain = "shin"', 'palin = "shin"', r"no field 'palin'. Did you mean 'plain'"),
    ],
)
def test_broken_muscle_names_are_refused(find: str, put: str, says: str) -> None:
    content = text("muscles.toml")
    assert find in content
    with pytest.raises(ResourceError, match=says):
        muscle_names_from_toml(content.replace(find, put), source="muscles.toml")


def test_a_muscle_without_names_is_refused_by_name() -> None:
    content = text("muscles.toml").partition("[forearms]")[0]
    with pytest.raises(ResourceError, match="The muscle group forearms has no names"):
        muscle_names_from_toml(content, source="muscles.toml")


def test_a_citation_library_can_set_every_reference(recwarn: pytest.WarningsRecorder) -> None:
    # Reading the records is slow to import and needed by this one test alone.
    from citeproc.source.json import CiteProcJSON

    source = CiteProcJSON(RECORDS)
    assert {str(key) for key in source} == set(references())
    assert [str(warning.message) for warning in recwarn if "unsupported" in str(warning)] == []


def test_no_reference_prints_without_a_title() -> None:
    assert [one["id"] for one in RECORDS if not str(one.get("title", "")).strip()] == []


def test_reasons_and_notes_name_sources_as_a_coach_reads_them() -> None:
    keys = set(references())
    for ranges in range_book().ranges.values():
        for one in ranges:
            words = set(re.findall(r"[\w-]+", f"{one.reason} {one.note}"))
            assert not words & keys, one.rule
