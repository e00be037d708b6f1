"""One command starts Weekloom on a fresh machine; what is missing is said in one sentence."""

from __future__ import annotations

import ast
import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

SCRIPT = Path(__file__).resolve().parents[2] / "packaging" / "bootstrap.py"
posix_only = pytest.mark.skipif(os.name == "nt", reason="uses a POSIX shell")


def start(
    root: Path, *arguments: str, python: str = sys.executable, **environ: str
) -> subprocess.CompletedProcess[str]:
    """The script as a user starts it, with the system's packages left alone and no screen."""
    clean = {
        name: value
        for name, value in os.environ.items()
        if name not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    }
    return subprocess.run(
        [python, str(root / "packaging" / "bootstrap.py"), *arguments],
        env={**clean, "WEEKLOOM_SYSTEM_PACKAGES": "skip", "PIP_CONFIG_FILE": os.devnull, **environ},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def assert_one_sentence(text: str, *words: str) -> None:
    """One line, one full stop at its end, no traceback, and every word in it."""
    lines = text.strip().splitlines()
    assert len(lines) == 1, text
    assert lines[0].endswith("."), text
    assert "Traceback" not in text
    for word in words:
        assert word in text


# --- the Python ---


def test_the_script_parses_on_an_old_python() -> None:
    ast.parse(SCRIPT.read_text(encoding="utf-8"), feature_version=(3, 6))


def test_the_script_asks_for_nothing_but_the_standard_library() -> None:
    tree = ast.walk(ast.parse(SCRIPT.read_text(encoding="utf-8")))
    imports = {alias.name for node in tree if isinstance(node, ast.Import) for alias in node.names}
    assert {name.partition(".")[0] for name in imports} <= sys.stdlib_module_names


@posix_only
def test_an_old_python_says_so(tmp_path: Path, bootstrap: ModuleType) -> None:
    names = {f"python3.{minor}": (3, minor) for minor in range(6, 11)}
    found = {shutil.which(name): version for name, version in names.items()}
    old = [
        python
        for python, version in found.items()
        if python and bootstrap.answers_to(python, version)
    ]
    if not old:
        pytest.skip("no Python 3.6 to 3.10 here")
    itself = subprocess.check_output([old[0], "-c", "import sys; print(sys.executable)"], text=True)
    done = start(SCRIPT.parents[1], "run", python=itself.strip(), PATH=str(tmp_path))
    assert done.returncode == 1
    assert_one_sentence(done.stderr, "needs Python 3.11 to 3.13", itself.strip(), "install")


@pytest.mark.parametrize("version", [(3, 10), (3, 14), (4, 0)])
def test_a_wrong_python_alone_is_refused(
    version: tuple[int, int], bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(bootstrap.Stop, match=r"needs Python 3\.11 to 3\.13.*install one"):
        bootstrap.another_python(version)


@pytest.mark.parametrize("version", [(3, 11), (3, 12), (3, 13)])
def test_a_fitting_python_is_used_as_it_is(version: tuple[int, int], bootstrap: ModuleType) -> None:
    assert bootstrap.another_python(version) is None


def test_a_fitting_python_on_the_path_stands_in(
    bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = {"python3.12": sys.executable, "python3.13": "broken"}
    monkeypatch.setattr(shutil, "which", paths.get)
    monkeypatch.setattr(bootstrap, "answers_to", lambda python, version: python != "broken")
    assert bootstrap.another_python((3, 14)) == sys.executable


def test_a_stand_in_of_a_version_manager_is_found_out(bootstrap: ModuleType) -> None:
    assert bootstrap.answers_to(sys.executable, sys.version_info[:2])
    assert not bootstrap.answers_to(sys.executable, (2, 7))
    assert not bootstrap.answers_to(sys.executable + "-is-not-there", sys.version_info[:2])


@pytest.mark.parametrize("arguments", [(), ("start",), ("--verbose",)])
def test_bad_use_prints_the_usage(arguments: tuple[str, ...]) -> None:
    done = start(SCRIPT.parents[1], *arguments)
    assert done.returncode == 2
    assert "bootstrap.py run" in done.stderr
    assert done.stdout == ""


# --- the environment ---


@pytest.fixture
def steps(bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the bootstrap does to make an environment, done quickly and written down."""
    done: list[str] = []

    def make_venv(root: Path) -> None:
        done.append("venv")
        bootstrap.python_of(root).parent.mkdir(parents=True)
        bootstrap.python_of(root).touch()

    monkeypatch.setattr(bootstrap, "make_venv", make_venv)
    monkeypatch.setattr(bootstrap, "install", lambda root, kind: done.append(kind))
    monkeypatch.setattr(bootstrap, "add_ourselves", lambda root: None)
    monkeypatch.setattr(bootstrap, "need_system_packages", lambda root, sections: None)
    monkeypatch.setattr(bootstrap, "need_qt_libraries", lambda root: None)
    return done


def test_a_second_start_installs_nothing(
    bootstrap: ModuleType, checkout: Path, steps: list[str]
) -> None:
    bootstrap.prepare(checkout, "run")
    bootstrap.prepare(checkout, "run")
    assert steps == ["venv", "run"]


def test_the_tests_add_to_the_environment_of_a_coach(
    bootstrap: ModuleType, checkout: Path, steps: list[str]
) -> None:
    for kind in ("run", "test", "test", "run"):
        bootstrap.prepare(checkout, kind)
    assert steps == ["venv", "run", "test"]


@pytest.mark.parametrize("lock", ["run.lock", "test.lock"])
def test_a_changed_lock_makes_the_environment_anew(
    bootstrap: ModuleType, checkout: Path, steps: list[str], lock: str
) -> None:
    bootstrap.prepare(checkout, "test")
    (checkout / "packaging" / lock).write_text("# another\n", encoding="utf-8")
    bootstrap.prepare(checkout, "test")
    assert steps == ["venv", "test", "venv", "test"]


def test_a_coach_does_not_wait_for_a_change_in_the_tests(
    bootstrap: ModuleType, checkout: Path, steps: list[str]
) -> None:
    bootstrap.prepare(checkout, "test")
    (checkout / "packaging" / "test.lock").write_text("# another\n", encoding="utf-8")
    bootstrap.prepare(checkout, "run")
    assert steps == ["venv", "test"]


def test_another_python_makes_the_environment_anew(
    bootstrap: ModuleType, checkout: Path, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    bootstrap.prepare(checkout, "run")
    monkeypatch.setattr(sys, "version_info", (3, 99, 0))
    bootstrap.prepare(checkout, "run")
    assert steps == ["venv", "run", "venv", "run"]


def test_a_moved_checkout_makes_the_environment_anew(
    bootstrap: ModuleType, checkout: Path, steps: list[str]
) -> None:
    bootstrap.prepare(checkout, "run")
    bootstrap.prepare(checkout.rename(checkout.with_name("elsewhere")), "run")
    assert steps == ["venv", "run", "venv", "run"]


@pytest.mark.parametrize("kinds", [("run",), ("test",), ("run", "test")])
def test_an_environment_killed_in_the_making_is_made_anew(
    bootstrap: ModuleType,
    checkout: Path,
    steps: list[str],
    kinds: tuple[str, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for kind in kinds[:-1]:
        bootstrap.prepare(checkout, kind)

    def killed(root: Path, kind: str) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(bootstrap, "install", killed)
        with pytest.raises(KeyboardInterrupt):
            bootstrap.prepare(checkout, kinds[-1])
    leftover = bootstrap.folder_of(checkout) / "leftover"
    leftover.touch()
    steps.clear()
    bootstrap.prepare(checkout, kinds[-1])
    assert steps == ["venv", kinds[-1]]
    assert not leftover.exists()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"locks": 1}', '{"locks": {"run": "0"}}'])
def test_an_environment_with_a_damaged_stamp_is_made_anew(
    bootstrap: ModuleType, checkout: Path, steps: list[str], text: str
) -> None:
    bootstrap.prepare(checkout, "run")
    (bootstrap.folder_of(checkout) / "weekloom.json").write_text(text, encoding="utf-8")
    bootstrap.prepare(checkout, "run")
    assert steps == ["venv", "run", "venv", "run"]


def test_an_environment_that_lost_its_python_is_made_anew(
    bootstrap: ModuleType, checkout: Path, steps: list[str]
) -> None:
    bootstrap.prepare(checkout, "run")
    bootstrap.python_of(checkout).unlink()
    bootstrap.prepare(checkout, "run")
    assert steps == ["venv", "run", "venv", "run"]


@posix_only
def test_a_linked_environment_is_unlinked_and_what_it_leads_to_is_kept(
    bootstrap: ModuleType, checkout: Path, steps: list[str], tmp_path: Path
) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "kept").touch()
    bootstrap.folder_of(checkout).symlink_to(elsewhere)
    bootstrap.prepare(checkout, "run")
    assert (elsewhere / "kept").exists()
    assert not bootstrap.folder_of(checkout).is_symlink()


# --- what can be missing ---


def test_a_python_without_venv_is_told_what_to_install(
    bootstrap: ModuleType, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(bootstrap.Stop, match=r"venv and ensurepip.*apt-get install python3-venv"):
        bootstrap.make_venv(checkout)
    assert not bootstrap.folder_of(checkout).exists()


def test_a_venv_that_fails_is_reported_with_its_last_word(
    bootstrap: ModuleType, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    failing = checkout / "python"
    failing.write_text("#!/bin/sh\necho starting; echo no more inodes; exit 3\n", encoding="utf-8")
    failing.chmod(0o755)
    monkeypatch.setattr(bootstrap, "base_python", lambda: str(failing))
    with pytest.raises(bootstrap.Stop, match=r"-m venv .* failed \(no more inodes\)"):
        bootstrap.make_venv(checkout)


def test_an_environment_that_cannot_be_deleted_is_named(
    bootstrap: ModuleType, checkout: Path, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    bootstrap.folder_of(checkout).mkdir()

    def refuse(folder: str) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(shutil, "rmtree", refuse)
    with pytest.raises(bootstrap.Stop, match=r"\.venv cannot be deleted \(Permission denied\)"):
        bootstrap.prepare(checkout, "run")
    assert steps == []


@pytest.mark.parametrize(
    ("number", "words"), [(13, "cannot be written"), (30, "cannot be written"), (28, "is full")]
)
def test_a_folder_that_takes_no_files_is_named(
    bootstrap: ModuleType,
    checkout: Path,
    steps: list[str],
    number: int,
    words: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refuse(root: Path) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(bootstrap, "make_venv", refuse)
    with pytest.raises(bootstrap.Stop, match=words) as stop:
        bootstrap.prepare(checkout, "run")
    assert_one_sentence(str(stop.value), str(bootstrap.folder_of(checkout)))


@posix_only
def test_a_read_only_disk_is_one_sentence(checkout: Path) -> None:
    script = 'mount --bind "$1" "$1" && mount -o remount,ro,bind "$1" && exec "$2" "$3" run'
    unshare = shutil.which("unshare")
    if unshare is None or subprocess.call([unshare, "-m", "true"], stderr=subprocess.DEVNULL):
        pytest.skip("needs the right to mount")
    bootstrap = str(checkout / "packaging" / "bootstrap.py")
    done = subprocess.run(
        [unshare, "-m", "sh", "-c", script, "sh", str(checkout), sys.executable, bootstrap],
        env={**os.environ, "WEEKLOOM_SYSTEM_PACKAGES": "skip"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 1
    assert_one_sentence(done.stderr, str(checkout), "cannot be written", "Read-only file system")


def test_no_network_is_one_sentence_and_the_next_start_tries_again(checkout: Path) -> None:
    lock = checkout / "packaging" / "run.lock"
    lock.write_text(f"weekloom-is-not-there==1 --hash=sha256:{'0' * 64}\n", encoding="utf-8")
    closed = {"PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_RETRIES": "1", "PIP_NO_CACHE_DIR": "1"}
    done = start(checkout, "run", PIP_FIND_LINKS="", PIP_EXTRA_INDEX_URL="", **closed)
    assert done.returncode == 1
    said = [line for line in done.stderr.splitlines() if "installing up to" not in line]
    assert_one_sentence("\n".join(said), "could not be fetched", "package index", "start again")
    assert not (checkout / ".venv" / "weekloom.json").exists()


@pytest.mark.parametrize(
    ("account", "words"),
    [
        ("ERROR: Could not install: [Errno 28] No space left on device", "disk is full"),
        ("WARNING: Retrying after NewConnectionError\nERROR: No matching", "could not be fetched"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM", "not the one the lock names"),
        ("ERROR: No matching distribution found for pyside6-essentials==6.11.3", "glibc 2.34"),
        ("ERROR: something new", "ERROR: something new"),
        ("", "it gave no reason"),
    ],
)
def test_each_failure_of_pip_comes_down_to_a_sentence(
    bootstrap: ModuleType, account: str, words: str
) -> None:
    assert_one_sentence(bootstrap.pip_sentence(account, Path("install.log")), words)


# --- the system's packages ---


@pytest.fixture
def debian(
    bootstrap: ModuleType, checkout: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., list[str]]:
    """A make-believe Debian; gives the calls that apt-get got."""
    tools = tmp_path / "bin"
    tools.mkdir()
    calls = tmp_path / "calls"
    calls.touch()
    monkeypatch.setenv("PATH", f"{tools}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.delenv("WEEKLOOM_SYSTEM_PACKAGES", raising=False)
    monkeypatch.setattr(bootstrap, "is_debian", lambda path: True)
    monkeypatch.setattr(bootstrap, "lacks_venv", lambda: False)

    def tool(name: str, body: str) -> None:
        (tools / name).write_text(f"#!/bin/sh\n{body}\n", encoding="utf-8")
        (tools / name).chmod(0o755)

    def system(*installed: str, uid: int, apt: str = "true", known: str = "*") -> list[str]:
        lines = "".join(f"ii  {name}\\n" for name in installed)
        tool("dpkg-query", f"printf '{lines}rc  xvfb\\n'; exit 1")
        tool("apt-cache", f'case "$2" in {known}) ;; *) exit 100 ;; esac')
        tool("apt-get", f'echo "$DEBIAN_FRONTEND $*" >> "{calls}"; {apt}')
        monkeypatch.setattr(os, "geteuid", lambda: uid)
        (checkout / "packaging" / "debian-packages.txt").write_text(
            "[python]\npython3-venv\n[window]  # Qt\nlibegl1\nlibnew1t64 libnew1\n[tests]\nxvfb\n",
            encoding="utf-8",
        )
        return calls.read_text(encoding="utf-8").splitlines()

    return system


@posix_only
def test_root_gets_what_is_missing_after_an_update(
    bootstrap: ModuleType, checkout: Path, debian: Callable[..., list[str]]
) -> None:
    debian("libegl1", uid=0, known="*t64")
    bootstrap.need_system_packages(checkout, ("window", "tests"))
    update, install = debian("libegl1", uid=0)
    assert re.fullmatch(r"noninteractive .* update", update)
    assert re.fullmatch(
        r"noninteractive .* install --yes --no-install-recommends libnew1t64 xvfb", install
    )


@posix_only
def test_a_package_is_asked_for_by_the_name_this_release_knows(
    bootstrap: ModuleType, checkout: Path, debian: Callable[..., list[str]]
) -> None:
    debian("libegl1", uid=0, known="libnew1")
    bootstrap.need_system_packages(checkout, ("window",))
    assert debian(uid=0)[1].endswith(" libnew1")


@posix_only
def test_nothing_is_asked_of_apt_where_nothing_is_missing(
    bootstrap: ModuleType, checkout: Path, debian: Callable[..., list[str]]
) -> None:
    debian("libegl1", "libnew1", uid=0)
    bootstrap.need_system_packages(checkout, ("window",))
    assert debian(uid=0) == []


@posix_only
def test_a_user_is_told_the_one_command(
    bootstrap: ModuleType, checkout: Path, debian: Callable[..., list[str]]
) -> None:
    debian("libegl1", uid=1000)
    with pytest.raises(bootstrap.Stop, match="apt-get install -y libnew1t64 xvfb'") as stop:
        bootstrap.need_system_packages(checkout, ("window", "tests"))
    assert_one_sentence(str(stop.value), "sudo", "start again")
    assert debian(uid=1000) == []


@posix_only
def test_a_python_without_venv_adds_its_package(
    bootstrap: ModuleType,
    checkout: Path,
    debian: Callable[..., list[str]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    debian("libegl1", "libnew1", uid=0)
    monkeypatch.setattr(bootstrap, "lacks_venv", lambda: True)
    bootstrap.need_system_packages(checkout, ("window",))
    assert debian(uid=0)[1].endswith(" python3-venv")


@posix_only
def test_a_failing_apt_is_one_sentence(
    bootstrap: ModuleType, checkout: Path, debian: Callable[..., list[str]]
) -> None:
    debian(uid=0, apt="echo reading; echo E: no mirror; exit 100")
    with pytest.raises(bootstrap.Stop, match="E: no mirror") as stop:
        bootstrap.need_system_packages(checkout, ("window",))
    assert_one_sentence(str(stop.value), "apt-get update", "network")


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("ID=debian\n", True),
        ('NAME="x"\nID=ubuntu\nID_LIKE=debian\n', True),
        ('ID=other\nID_LIKE="ubuntu debian"\n', True),
        ('ID=fedora\nID_LIKE="rhel"\nHOME_URL="debian"\n', False),
        ("", False),
    ],
)
def test_a_debian_is_known_by_its_release_file(
    bootstrap: ModuleType, tmp_path: Path, text: str, answer: bool
) -> None:
    (tmp_path / "os-release").write_text(text, encoding="utf-8")
    assert bootstrap.is_debian(tmp_path / "os-release") is answer
    assert bootstrap.is_debian(tmp_path / "absent") is False


def test_the_listing_holds_what_qt_and_the_tests_need(bootstrap: ModuleType) -> None:
    listed = bootstrap.system_packages(SCRIPT.with_name("debian-packages.txt"))
    assert set(listed) == {"python", "window", "tests"}
    names = {name for section in listed.values() for package in section for name in package}
    assert {"libegl1", "libxcb-cursor0", "libxkbcommon-x11-0", "xvfb", "xdotool"} <= names


@pytest.mark.parametrize(
    ("words", "library"),
    [
        ("ImportError: libEGL.so.1: cannot open shared object file: No such file", "libEGL.so.1"),
        ("ImportError: undefined symbol: there", "undefined symbol: there"),
    ],
)
@posix_only
def test_a_library_that_qt_does_not_find_is_named(
    bootstrap: ModuleType,
    checkout: Path,
    words: str,
    library: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    python = bootstrap.python_of(checkout)
    python.parent.mkdir(parents=True)
    python.write_text(f"#!/bin/sh\necho '{words}' >&2; exit 1\n", encoding="utf-8")
    python.chmod(0o755)
    monkeypatch.setattr(sys, "platform", "linux")
    with pytest.raises(bootstrap.Stop, match=re.escape(library)) as stop:
        bootstrap.need_qt_libraries(checkout)
    assert_one_sentence(str(stop.value), "install", "start again")


@posix_only
def test_a_library_that_only_an_x_window_needs_is_named_there(
    bootstrap: ModuleType, checkout: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Qt is asked once for each kind of screen, and not again once all was there."""
    python, ldd = bootstrap.python_of(checkout), tmp_path / "ldd"
    python.parent.mkdir(parents=True)
    asked = tmp_path / "asked"
    answers = {
        python: f"echo once >> '{asked}'; echo /there",
        ldd: "echo 'libxkb.so.0 => not found'",
    }
    for tool, body in answers.items():
        tool.write_text(f"#!/bin/sh\n{body}\n", encoding="utf-8")
        tool.chmod(0o755)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("PATH", f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.delenv("DISPLAY", raising=False)
    for _ in range(2):
        bootstrap.need_qt_libraries(checkout)
    assert asked.read_text(encoding="utf-8").count("once") == 1

    monkeypatch.setenv("DISPLAY", ":0")
    with pytest.raises(bootstrap.Stop, match=r"\(libxkb\.so\.0\)"):
        bootstrap.need_qt_libraries(checkout)
    ldd.write_text("#!/bin/sh\necho 'libxkb.so.0 => /lib/libxkb.so.0'\n", encoding="utf-8")
    for _ in range(2):
        bootstrap.need_qt_libraries(checkout)
    assert asked.read_text(encoding="utf-8").count("once") == 3


# --- the start ---


@pytest.mark.parametrize(
    ("arguments", "answer"),
    [
        ("", True),
        ("--file mine.weekloom", True),
        ("--file=mine.weekloom", True),
        ("demo", True),
        ("--file mine.weekloom demo", True),
        ("demo --to here", False),
        ("demo --to=here", False),
        ("demo --help", False),
        ("check plan.json --json", False),
        ("--file mine.weekloom backup", False),
        ("--version", False),
        ("--help", False),
    ],
)
def test_only_the_window_needs_a_screen(
    bootstrap: ModuleType, arguments: str, answer: bool
) -> None:
    assert bootstrap.wants_window(arguments.split()) is answer


@pytest.mark.parametrize(
    ("platform", "environ", "answer"),
    [
        ("linux", {}, False),
        ("linux", {"DISPLAY": ""}, False),
        ("linux", {"DISPLAY": ":0"}, True),
        ("linux", {"WAYLAND_DISPLAY": "wayland-0"}, True),
        ("darwin", {}, True),
        ("win32", {}, True),
    ],
)
def test_a_screen_is_known_by_its_variables(
    bootstrap: ModuleType, platform: str, environ: dict[str, str], answer: bool
) -> None:
    assert bootstrap.has_screen(platform, environ) is answer


@posix_only
def test_a_start_from_nothing_reaches_the_program_from_any_folder(
    bootstrap: ModuleType, checkout: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The whole way once: a real environment, a second start, the command, a shadowing folder."""
    (checkout / ".venv").mkdir()
    monkeypatch.setattr(bootstrap, "install", lambda root, kind: None)
    monkeypatch.setattr(bootstrap, "need_system_packages", lambda root, sections: None)
    bootstrap.make_environment(checkout, "run")
    bootstrap.write_stamp(checkout, {**bootstrap.read_stamp(checkout), "qt": "import x11"})
    (tmp_path / "app").mkdir()
    (tmp_path / "app" / "__main__.py").write_text("raise SystemExit(9)", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = start(checkout, "run", "check", "a plan.json", PIP_INDEX_URL="http://127.0.0.1:9/")
    assert (done.stdout, done.returncode) == ("['check', 'a plan.json'] offscreen\n", 0), (
        done.stderr
    )
    assert done.stderr == ""

    done = start(checkout, "run", DISPLAY=":0")
    assert (done.stdout, done.returncode) == ("[] None\n", 0), done.stderr

    done = start(checkout, "run")
    folder = checkout / "demo-output"
    assert done.returncode == 0
    assert "no screen" in done.stdout.splitlines()[0]
    assert str(folder) in done.stdout.splitlines()[0]
    assert done.stdout.splitlines()[1] == f"{['demo', '--to', str(folder)]} offscreen"

    command = checkout / ".venv" / "bin" / "weekloom"
    assert "['--version']" in subprocess.check_output([command, "--version"], encoding="utf-8")


@pytest.fixture
def asked(bootstrap: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The commands that were to be run; the first succeeds, the next ends with 1, and so on."""
    commands: list[list[str]] = []

    def wait_for(command: list[str], *, cwd: Path) -> int:
        commands.append(command)
        return len(commands) - 1

    monkeypatch.setattr(bootstrap, "wait_for", wait_for)
    return commands


@pytest.mark.usefixtures("steps")
def test_the_parts_of_the_tests_leave_nothing_out(
    bootstrap: ModuleType, checkout: Path, asked: list[list[str]]
) -> None:
    assert bootstrap.test(checkout, ["-k", "word"]) == 1
    assert [command[command.index("-m", 2) + 1] for command in asked] == [
        "not real_drag and not bench",
        "real_drag",
        "bench",
    ]
    assert all(command[-2:] == ["-k", "word"] for command in asked)


@pytest.mark.usefixtures("steps")
def test_marks_of_ones_own_make_one_part(
    bootstrap: ModuleType, checkout: Path, asked: list[list[str]]
) -> None:
    assert bootstrap.test(checkout, ["-m", "kill"]) == 0
    assert [command[-2:] for command in asked] == [["-m", "kill"]]


@pytest.mark.parametrize(
    ("codes", "code"),
    [
        ((0, 0, 0), 0),
        ((0, 5, 5), 0),
        ((5, 0, 5), 0),
        ((5, 5, 5), 5),
        ((0, 1, 5), 1),
        ((5, 2, 1), 2),
    ],
)
def test_the_tests_fail_if_any_part_does_or_none_was_there(
    bootstrap: ModuleType, codes: tuple[int, ...], code: int
) -> None:
    assert bootstrap.verdict(codes) == code


@posix_only
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_the_program_ends_in_its_own_way(tmp_path: Path, number: int) -> None:
    """Ctrl-C reaches both; a request to end reaches the parent, which hands it on."""
    child = tmp_path / "child.py"
    child.write_text(
        "import os, signal, time\n"
        "def end(*_): os.write(1, b'kept\\n'); os._exit(7)\n"
        f"signal.signal({int(number)}, end)\n"
        "os.write(1, b'ready\\n')\n"
        "time.sleep(60)\n",
        encoding="utf-8",
    )
    parent = (
        f"import sys; sys.path.insert(0, {str(SCRIPT.parent)!r}); import bootstrap; "
        f"sys.exit(bootstrap.wait_for([sys.executable, {str(child)!r}]))"
    )
    command = [sys.executable, "-B", "-c", parent]
    with subprocess.Popen(command, stdout=subprocess.PIPE, start_new_session=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"ready\n"
        if number == signal.SIGINT:
            os.killpg(process.pid, number)
        else:
            process.send_signal(number)
        assert process.stdout.read() == b"kept\n"
    assert process.returncode == 7
