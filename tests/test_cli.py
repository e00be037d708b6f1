"""The headless commands: what they write, what they say, how they end."""

from __future__ import annotations

import json
import sqlite3
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

import app
from app import cli, resources
from app.demo import members
from app.domain.client import Client, ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from app.exchange.plan_file import Plan, write_plan
from app.picture_folder import PictureFolder
from db.passphrase import Passphrase
from db.store import Store

RUNA = members(resources.catalogue())[0]
Run = Callable[..., "Done"]


class Done:
    """How a command ended: exit code, standard output and standard error."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def one(*arguments: object) -> Done:
        code = cli.run([str(a) for a in arguments], show=no_window, picture=no_picture)
        said = capsys.readouterr()
        return Done(code, said.out, said.err)

    return one


def no_window(path: Path, *, demo: bool = False) -> int:
    raise AssertionError("no window was asked for")


def no_picture(path: Path, out: Path) -> None:
    raise AssertionError("no picture was asked for")


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "runa.plan.json"
    path.write_text(write_plan(Plan(RUNA.client, RUNA.program)), encoding="utf-8")
    return path


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A coach's file with two clients, one of them with a plan."""
    path = tmp_path / "mine" / "coach.db"
    store = Store.open(path)
    store.save(None, Work(RUNA.client, RUNA.program), label="Add")
    store.save(None, Work(Client(ClientId("ask"), "Ask Elverum")), label="Add")
    store.close()
    return path


def stored(path: Path) -> list[Work]:
    store = Store.open(path)
    works = []
    for line in store.clients():
        programs = [store.load_program(p.id) for p in store.programs(line.id)]
        works += [Work(store.load_client(line.id), one) for one in programs or [None]]
    store.close()
    return works


def refused(done: Done, *parts: str) -> None:
    """It failed with one sentence that says all these parts."""
    assert done.code == 1
    assert done.out == ""
    assert done.err.startswith("weekloom: ")
    assert len(done.err.splitlines()) == 1
    for part in parts:
        assert part in done.err


# -- bad use --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "arguments",
    [
        ["bogus"],
        ["check"],
        ["booklet", "a.json"],
        ["booklet", "a.json", "--out", "b.pdf", "--weeks", "six"],
        ["booklet", "a.json", "--out", "b.pdf", "--paper", "A3"],
        ["booklet", "a.json", "--out", "b.pdf", "--date", "yesterday"],
        ["export"],
        ["export", "--out", "a", "--to", "b"],
        ["import"],
        ["--file"],
        ["check", "a.json", "--nonsense"],
    ],
    ids=" ".join,
)
def test_bad_use_is_one_sentence_and_exit_code_two(run: Run, arguments: list[str]) -> None:
    done = run(*arguments)
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith("weekloom")
    assert "--help" in done.err
    assert len(done.err.splitlines()) == 1


@pytest.mark.parametrize(
    "command", ["", "demo", "check", "booklet", "export", "import", "backup", "restore", "verify"]
)
def test_every_command_explains_itself(run: Run, command: str) -> None:
    done = run(*command.split(), "--help")
    assert (done.code, done.err) == (0, "")
    assert "usage: weekloom" in done.out


def test_the_versions_are_said(run: Run) -> None:
    done = run("--version")
    lines = dict(line.split(" ", 1) for line in done.out.splitlines())
    assert lines["Weekloom"] == app.__version__
    assert lines["Qt"].startswith("6.")
    assert lines["SQLite"] == sqlite3.sqlite_version
    assert set(lines) == {"Weekloom", "Schema", "Python", "Qt", "SQLite"}


# -- the window -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("arguments", "path"),
    [
        (["--file", "a.db"], Path("a.db")),
        (["--data-dir", "here"], Path("here", "weekloom.db")),
    ],
)
def test_without_a_command_the_window_opens_on_the_file(arguments: list[str], path: Path) -> None:
    opened: list[tuple[Path, bool]] = []

    def show(on: Path, *, demo: bool = False) -> int:
        opened.append((on, demo))
        return 7

    assert cli.run(arguments, show=show, picture=no_picture) == 7
    assert opened == [(path, False)]


def test_the_coachs_own_file_lies_in_the_data_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("platformdirs.user_data_path", lambda *_, **__: Path("data"))
    opened: list[Path] = []

    def show(path: Path, *, demo: bool = False) -> int:
        opened.append(path)
        return 0

    cli.run([], show=show, picture=no_picture)
    assert opened == [Path("data", "weekloom.db")]


def test_the_demo_opens_on_a_new_file_that_is_gone_afterwards() -> None:
    opened: list[Path] = []

    def show(path: Path, *, demo: bool = False) -> int:
        assert demo
        assert path.parent.is_dir()
        assert not path.exists()
        opened.append(path)
        return 0

    assert cli.run(["demo"], show=show, picture=no_picture) == 0
    assert not opened[0].parent.exists()


# -- check and booklet ----------------------------------------------------------------------


def test_findings_are_no_failure(run: Run, plan: Path) -> None:
    done = run("check", plan)
    assert (done.code, done.err) == (0, "")
    assert "Split squat, rear foot raised bends the left knee past 90" in done.out
    assert "Accepted" in done.out


def test_findings_as_json(run: Run, plan: Path) -> None:
    done = run("check", plan, "--json")
    record = json.loads(done.out)
    assert record["program"] == "Ridge season"
    conflict = next(
        f for f in record["findings"] if f["weight"] == "conflict" and not f["accepted"]
    )
    assert (conflict["rule"], conflict["week"], conflict["day"]) == ("limitation", 7, "Thursday")


def test_a_booklet_is_written_as_asked(run: Run, plan: Path, tmp_path: Path) -> None:
    out = tmp_path / "b.pdf"
    done = run(
        "booklet",
        plan,
        "--out",
        out,
        "--paper",
        "Letter",
        "--weeks",
        "2-3",
        "--grey",
        "--coach",
        "Tavi Hellmark",
        "--date",
        "2026-10-05",
    )
    assert (done.code, done.err) == (0, "")
    assert done.out.strip() == str(out)
    with pypdfium2.PdfDocument(out) as pdf:
        assert pdf[0].get_size() == pytest.approx((612, 792), abs=1)  # ANSI letter, points
        text = "".join(page.get_textpage().get_text_range() for page in pdf)
    assert "Tavi Hellmark" in text
    assert "5 October 2026" in text


@pytest.mark.parametrize(
    ("more", "size"),
    [
        (("--kind", "form", "--paper", "phone"), (283.5, 504.6)),
        (("--kind", "wall"), (841.9, 595.3)),
        (("--large", "--without-loads"), (595.3, 841.9)),
    ],
)
def test_a_booklet_is_of_the_kind_that_was_asked_for(
    run: Run, plan: Path, tmp_path: Path, more: tuple[str, ...], size: tuple[float, float]
) -> None:
    out = tmp_path / "b.pdf"
    done = run("booklet", plan, "--out", out, "--weeks", "2-2", *more)
    assert (done.code, done.err) == (0, "")
    with pypdfium2.PdfDocument(out) as pdf:
        assert pdf[0].get_size() == pytest.approx(size, abs=1)
    assert (b"/AcroForm" in out.read_bytes()) is ("form" in more)


def test_weeks_that_are_not_there_leave_no_booklet(run: Run, plan: Path, tmp_path: Path) -> None:
    out = tmp_path / "b.pdf"
    refused(run("booklet", plan, "--out", out, "--weeks", "20-30"), "Weeks 20 to 30", "21")
    assert not out.exists()


def spoiled(plan: Path, old: str, new: str) -> None:
    text = plan.read_text(encoding="utf-8")
    assert old in text
    plan.write_text(text.replace(old, new, 1), encoding="utf-8")


@pytest.mark.parametrize("command", ["check", "booklet", "import"])
@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        ('"sets": 3', '"sets": -3', ["-3 is out of range", "from 1 to 20"]),
        ('"exercise": "hip_thrust"', '"exercise": "hip_trust"', ["'hip_trust'", "'hip_thrust'?"]),
        ('"name": "Runa Estvik"', '"name": ""', ["client.name", "at least one letter"]),
        ('"version": 4', '"version": 9', ["version 9", "Update Weekloom"]),
        ('"program": {', '"programme": {', ["'programme' is unknown", "'program'?"]),
        ('"client": {', '"client" {', ["line 4", "stops being JSON"]),
    ],
)
def test_a_broken_plan_file_is_refused_and_nothing_is_written(
    run: Run, plan: Path, own: Path, command: str, old: str, new: str, parts: list[str]
) -> None:
    spoiled(plan, old, new)
    before = {path: path.read_bytes() for path in own.parent.parent.rglob("*") if path.is_file()}
    extra = {"check": [], "booklet": ["--out", own.parent / "b.pdf"], "import": ["--file", own]}
    refused(run(command, plan, *extra[command]), str(plan), *parts)
    after = {path: path.read_bytes() for path in own.parent.parent.rglob("*") if path.is_file()}
    assert after == before


def test_ten_thousand_weeks_are_refused_by_number(run: Run, plan: Path) -> None:
    record = json.loads(plan.read_text(encoding="utf-8"))
    record["program"]["weeks"] = [{"id": n} for n in range(1, 10_001)]
    plan.write_text(json.dumps(record), encoding="utf-8")
    refused(run("check", plan), "program.weeks", "10000", "1 to 52")


def test_a_missing_file_a_folder_and_a_client_alone_are_told(run: Run, tmp_path: Path) -> None:
    refused(run("check", tmp_path / "none.json"), "none.json", "There is no such file")
    refused(run("check", tmp_path), str(tmp_path))
    alone = tmp_path / "alone.json"
    alone.write_text(write_plan(Plan(Client(ClientId("a"), "Ask"))), encoding="utf-8")
    refused(run("check", alone), "no program")


def test_a_folder_that_cannot_be_written_to_is_told(
    run: Run, plan: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    out = tmp_path / "b.pdf"
    monkeypatch.setattr("tempfile.mkstemp", no)
    refused(run("booklet", plan, "--out", out, "--weeks", "1-1"), str(out), "You may not write")
    assert not out.exists()


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs a folder nobody may fill")
@pytest.mark.parametrize(
    "arguments",
    [["demo", "--to", "/proc/demo"], ["export", "--to", "/proc/plans"]],
    ids=" ".join,
)
def test_even_the_superuser_is_told_where_nothing_can_be_written(
    run: Run, own: Path, arguments: list[str]
) -> None:
    refused(run("--file", own, *arguments), "/proc/")


# -- the coach's file ------------------------------------------------------------------------


def test_what_is_exported_comes_back_equal(run: Run, own: Path, tmp_path: Path) -> None:
    done = run("export", "--to", tmp_path / "out", "--file", own)
    assert (done.code, done.err) == (0, "")
    files = [Path(line) for line in done.out.splitlines()]
    assert sorted(path.name for path in files) == [
        "ask-elverum.plan.json",
        "runa-estvik-ridge-season.plan.json",
    ]
    other = tmp_path / "other.db"
    done = run("import", *files, "--file", other)
    assert (done.code, done.err) == (0, "")
    assert stored(other) == stored(own)


@pytest.mark.parametrize("name", ["Runa Estvik", "runa estvik", "runa-estvik"])
def test_one_program_is_exported_by_name_or_id(
    run: Run, own: Path, tmp_path: Path, name: str
) -> None:
    out = tmp_path / "one.json"
    done = run("--file", own, "export", "--client", name, "--program", "ridge season", "--out", out)
    assert (done.code, done.err) == (0, "")
    assert out.read_text(encoding="utf-8") == write_plan(Plan(RUNA.client, RUNA.program))


def test_what_is_not_in_the_file_cannot_be_exported(run: Run, own: Path, tmp_path: Path) -> None:
    out = tmp_path / "one.json"
    where = ["--out", out, "--file", own]
    refused(run("export", "--client", "Runa Estvig", *where), "Did you mean 'Runa Estvik'?")
    refused(run("export", "--program", "Ridge season", *where), "Name the client")
    refused(run("export", *where), "2 plans fit", "--to")
    assert not out.exists()


def test_importing_the_same_again_changes_nothing(run: Run, own: Path, plan: Path) -> None:
    assert run("import", plan, "--file", own).code == 0
    assert len(stored(own)) == 2


def test_another_plan_of_the_same_id_needs_leave(run: Run, own: Path, plan: Path) -> None:
    spoiled(plan, '"name": "Ridge season"', '"name": "Ridge season, again"')
    before = stored(own)
    refused(run("import", plan, "--file", own), "already holds another", "--replace")
    assert stored(own) == before
    assert run("import", plan, "--file", own, "--replace").code == 0
    names = {work.program.name for work in stored(own) if work.program}
    assert names == {"Ridge season, again"}


def test_one_bad_file_of_many_leaves_the_coachs_file_alone(
    run: Run, plan: Path, tmp_path: Path
) -> None:
    bad = tmp_path / "bad.json"
    bad.write_text("{}", encoding="utf-8")
    own = tmp_path / "new.db"
    refused(run("import", plan, bad, "--file", own), str(bad), "'format' is missing")
    assert not own.exists()


def test_two_programs_of_one_new_client_arrive_together(
    run: Run, plan: Path, tmp_path: Path
) -> None:
    second = tmp_path / "second.json"
    program = replace(RUNA.program, id=ProgramId("second"))
    second.write_text(write_plan(Plan(RUNA.client, program)), encoding="utf-8")
    own = tmp_path / "new.db"
    assert run("import", plan, second, "--file", own).code == 0
    assert {work.program.id for work in stored(own)} == {"ridge-season", "second"}


def test_plans_that_contradict_each_other_are_both_refused(
    run: Run, own: Path, plan: Path, tmp_path: Path
) -> None:
    second = tmp_path / "second.json"
    program = replace(RUNA.program, name="Other")
    second.write_text(write_plan(Plan(RUNA.client, program)), encoding="utf-8")
    before = stored(own)
    refused(run("import", plan, second, "--file", own, "--replace"), "a different 'Other'")
    assert stored(own) == before


def test_a_copy_is_made_looked_over_and_put_back(run: Run, own: Path, tmp_path: Path) -> None:
    done = run("backup", "--file", own, "--to", tmp_path / "copies")
    copy = Path(done.out.strip())
    assert copy.parent == tmp_path / "copies"
    before = stored(own)
    store = Store.open(own)
    store.remove_client(RUNA.client.id)
    store.close()
    done = run("restore", copy, "--file", own)
    assert (done.code, done.err) == (0, "")
    assert stored(own) == before
    done = run("verify", "--file", own)
    assert done.out.strip() == f"{own} is whole: clients 2, programs 1."


def test_pictures_that_a_copy_without_their_lock_cannot_show_are_told(
    run: Run, own: Path, tmp_path: Path
) -> None:
    copy = Path(run("backup", "--file", own, "--to", tmp_path / "copies").out.strip())
    assert "another passphrase" not in run("restore", copy, "--file", own).out
    PictureFolder(own, Passphrase("a long ridge walk")).add(b"picture")
    done = run("restore", copy, "--file", own)
    assert (done.code, done.err) == (0, "")
    assert "pictures that are locked with another passphrase" in done.out


@pytest.mark.parametrize("command", ["export --to x", "backup", "verify"])
def test_a_file_that_is_not_there_is_told_and_not_made(
    run: Run, tmp_path: Path, command: str
) -> None:
    path = tmp_path / "none.db"
    refused(run(*command.split(), "--file", path), str(path), "There is no such file")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["export --to x", "import", "backup", "verify"])
def test_a_database_that_is_not_ours_is_left_alone(
    run: Run, plan: Path, tmp_path: Path, command: str
) -> None:
    path = tmp_path / "theirs.db"
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE songs (name TEXT)")
    connection.commit()
    connection.close()
    before = path.read_bytes()
    extra = [plan] if command == "import" else []
    refused(run(*command.split(), *extra, "--file", path), str(path), "not a Weekloom file")
    assert path.read_bytes() == before
    assert not (tmp_path / "x").exists()


def test_what_cannot_be_a_copy_is_not_put_back(run: Run, own: Path, plan: Path) -> None:
    before = stored(own)
    refused(run("restore", plan, "--file", own), "not a Weekloom file")
    assert stored(own) == before


def test_a_failure_of_ours_keeps_its_traceback(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("app.off_desk.look_over", broken)
    with pytest.raises(ZeroDivisionError):
        cli.run(["check", str(plan)], show=no_window, picture=no_picture)
