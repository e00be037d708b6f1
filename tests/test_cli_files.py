"""Export and import in a terminal: every format, told in one sentence where it fails."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import NoReturn

import icalendar
import openpyxl
import pytest

from app import cli, resources
from app.cli_files import KINDS
from app.demo import members
from app.domain.client import Client, ClientId
from app.domain.work import Work
from app.exchange.plan_file import Plan, write_plan
from db.store import Store

RUNA = members(resources.catalogue())[0]


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "mine" / "coach.db"
    store = Store.open(path)
    store.save(None, Work(RUNA.client, RUNA.program), label="Add")
    store.save(None, Work(Client(ClientId("ask"), "Ask Elverum")), label="Add")
    store.close()
    return path


@pytest.fixture
def run(own: Path, capsys: pytest.CaptureFixture[str]):
    def one(*words: object) -> tuple[int, str, str]:
        code = cli.run([*map(str, words), "--file", str(own)], show=never, picture=never)
        said = capsys.readouterr()
        return code, said.out, said.err

    return one


def never(*_: object, **__: object) -> NoReturn:
    raise AssertionError("no window was asked for")


def programs(own: Path, client_id: str) -> list[str]:
    store = Store.open(own)
    names = [line.name for line in store.programs(ClientId(client_id))]
    store.close()
    return names


def test_help_names_every_format(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.run(["export", "--help"], show=never, picture=never) == 0
    said = capsys.readouterr().out
    for word in (*KINDS, "--tables", "--style", "--zone", "--start", "--loads"):
        assert word in said
    assert cli.run(["import", "--help"], show=never, picture=never) == 0
    assert "--leave-out" in capsys.readouterr().out


def test_a_workbook_of_everything(run, tmp_path: Path) -> None:
    out = tmp_path / "a.xlsx"
    code, said, _ = run(
        "export",
        "--as",
        "xlsx",
        "--client",
        "Runa Estvik",
        "--tables",
        "results,plan",
        "--out",
        out,
    )
    assert (code, said.strip()) == (0, str(out))
    assert openpyxl.load_workbook(out).sheetnames == ["Plan", "Results"]


def test_csv_of_every_program_in_the_style_that_was_asked_for(run, tmp_path: Path) -> None:
    to = tmp_path / "out"
    code, said, _ = run("export", "--as", "csv", "--style", "semicolon", "--to", to)
    assert code == 0
    (path,) = map(Path, said.split("\n")[:-1])
    assert path.read_text(encoding="utf-8-sig").splitlines()[0].startswith("Week;Light week;")


def test_a_calendar_counts_what_changed(run, own: Path, tmp_path: Path) -> None:
    out = tmp_path / "a.ics"
    wanted = ("export", "--as", "calendar", "--client", "Runa Estvik", "--out", out)
    assert run(*wanted, "--zone", "Europe/Oslo", "--start", "18:00")[0] == 0
    code, _, error = run(*wanted, "--zone", "Europe/Oslo", "--start", "19:00")
    assert code == 1
    assert "--replace" in error
    assert run(*wanted, "--zone", "Europe/Oslo", "--start", "19:00", "--replace")[0] == 0
    events = icalendar.Calendar.from_ical(out.read_bytes()).walk("VEVENT")
    assert {event["SEQUENCE"] for event in events} == {1}


@pytest.mark.parametrize(
    "words",
    [
        ("export", "--as", "pdf", "--to", "x"),
        ("export", "--as", "calendar", "--start", "noon", "--to", "x"),
        ("export", "--as", "calendar", "--weeks", "some", "--to", "x"),
        ("export", "--as", "csv", "--style", "pipe", "--to", "x"),
        ("import", "a.csv", "--weeks", "99"),
        ("import", "a.csv", "--from", "soon"),
    ],
)
def test_bad_use_ends_with_two_and_one_sentence(run, words: tuple[str, ...]) -> None:
    code, said, error = run(*words)
    assert (code, said) == (2, "")
    assert error.count("\n") == 1


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--as", "xlsx", "--tables", "sums"), "no table 'sums'"),
        (("--as", "calendar", "--zone", "Nowhere"), "no time zone"),
        (("--as", "xlsx", "--client", "Ask Elverum"), "no program"),
        (("--as", "xlsx", "--client", "Nobody"), "no client"),
    ],
)
def test_a_failed_run_ends_with_one_and_one_sentence(
    run, tmp_path: Path, words: tuple[str, ...], sentence: str
) -> None:
    code, said, error = run("export", *words, "--to", tmp_path / "out")
    assert (code, said) == (1, "")
    assert sentence in error
    assert error.count("\n") == 1


def test_what_stands_there_is_not_written_over_unasked(run, tmp_path: Path) -> None:
    assert run("export", "--to", tmp_path / "out")[0] == 0
    code, _, error = run("export", "--to", tmp_path / "out")
    assert code == 1
    assert "already" in error
    assert run("export", "--to", tmp_path / "out", "--replace")[0] == 0


def table(tmp_path: Path, *lines: str) -> Path:
    path = tmp_path / "lower.csv"
    path.write_text("Day;Exercise;Sets;Reps\n" + "\n".join(lines), encoding="utf-8")
    return path


def test_a_coach_s_table_becomes_a_program(run, own: Path, tmp_path: Path) -> None:
    path = table(tmp_path, "Monday;Back squat;3;5", "Monday;Leg extension;3;plenty")
    code, said, _ = run(
        "import", path, "--client", "ask elverum", "--weeks", "4", "--name", "Begin"
    )
    assert code == 0
    assert "Ask Elverum, Begin: 2 lines read" in said
    assert "row 3: 'plenty' is not understood." in said
    assert programs(own, "ask") == ["Begin"]


def test_names_nobody_knows_stop_it_unless_left_out(run, own: Path, tmp_path: Path) -> None:
    path = table(tmp_path, "Monday;Back squat;3;5", "Monday;Flying carpet;3;8")
    code, _, error = run("import", path, "--client", "Ask Elverum")
    assert code == 1
    assert "'Flying carpet'" in error
    assert programs(own, "ask") == []
    code, said, _ = run("import", path, "--client", "Ask Elverum", "--leave-out")
    assert code == 0
    assert "Left out: Flying carpet" in said
    assert programs(own, "ask") == ["lower"]


def test_a_table_needs_to_know_whose_it_is(run, tmp_path: Path) -> None:
    code, _, error = run("import", table(tmp_path, "Monday;Back squat;3;5"))
    assert code == 1
    assert "--client" in error


def test_a_folder_is_taken_file_by_file(run, own: Path, tmp_path: Path) -> None:
    folder = tmp_path / "plans"
    folder.mkdir()
    for number in range(3):
        client = Client(ClientId(f"c{number}"), f"Client {number}")
        plan = folder / f"{number}.plan.json"
        plan.write_text(write_plan(Plan(client)), encoding="utf-8")
    (folder / "1.plan.json").write_text("{", encoding="utf-8")
    code, said, error = run("import", folder)
    assert code == 1
    assert "1 of 3 plan files" in error
    assert said.count("\n") == 3
    store = Store.open(own)
    assert {"c0", "c2"} <= {line.id for line in store.clients()}
    store.close()


def test_half_a_plan_file_changes_nothing(run, own: Path, tmp_path: Path) -> None:
    whole = write_plan(Plan(replace(RUNA.client, team="Changed"), RUNA.program)).encode()
    before = own.read_bytes()
    for cut in (0, 1, len(whole) // 2, len(whole) - 3):
        path = tmp_path / "half.plan.json"
        path.write_bytes(whole[:cut])
        code, said, error = run("import", path, "--replace")
        assert (code, said) == (1, "")
        assert error.count("\n") == 1
    assert own.read_bytes() == before


@pytest.mark.parametrize("kind", ["csl-json", "bibtex", "ris"])
def test_references_go_out_in_every_form(run, tmp_path: Path, kind: str) -> None:
    code, said, _ = run("export", "--as", kind, "--to", tmp_path / "out")
    assert code == 0
    assert Path(said.strip()).stat().st_size > 10_000


def test_references_come_in_once(run, own: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine.ris"
    path.write_text("TY  - JOUR\nAU  - Estvik, R.\nTI  - On ridges\nPY  - 2020\nER  - \n")
    code, said, _ = run("import", path)
    assert (code, said) == (0, f"{path}: 1 reference taken in, 0 were there already\n")
    assert "1 was there already" in run("import", path)[1]
    path.write_text("nothing")
    code, said, error = run("import", path)
    assert (code, said) == (1, "")
    assert error.count("\n") == 1


def test_references_come_in_as_csl_json(run, own: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine.json"
    record = {
        "type": "book",
        "title": "On ridges",
        "author": [{"family": "Estvik"}],
        "issued": {"date-parts": [[2020]]},
    }
    for content in ([record], {"items": [record]}):
        path.write_text(json.dumps(content))
        code, said, error = run("import", path)
        assert (code, error) == (0, "")
        assert "taken in" in said
    assert "1 was there already" in said


def test_formulas_without_results_are_told_of_a_table(run, own: Path, tmp_path: Path) -> None:
    made = openpyxl.Workbook()
    for row in (("Day", "Exercise", "Sets", "Reps"), ("Monday", "Back squat", 3, 5)):
        made.active.append(row)
    made.active.append(("Monday", "Leg press", "=1+2", 8))
    made.save(tmp_path / "plan.xlsx")
    code, said, _ = run("import", tmp_path / "plan.xlsx", "--client", RUNA.client.name)
    assert code == 0
    assert "1 cell of sheet 'Sheet' holds a formula without its result (C3)" in said
