"""Start Weekloom, or its tests, from a checkout, with nothing but a Python.

    python3 packaging/bootstrap.py run [arguments for weekloom]
    python3 packaging/bootstrap.py test [arguments for pytest]

Makes the environment .venv in the checkout and installs exactly what packaging/run.lock or
packaging/test.lock names, once; after that a start is only a look at .venv/weekloom.json. On Debian
and Ubuntu it installs the packages of packaging/debian-packages.txt if it runs as root, and says
which command to run if it does not (WEEKLOOM_SYSTEM_PACKAGES=skip leaves that out).

Whatever is missing is said in one sentence. Only the standard library is used, and no syntax newer
than Python 3.6, so that an old Python reaches its sentence instead of a SyntaxError.
"""

import contextlib
import errno
import hashlib
import importlib.util
import json
import os
import re
import shlex
import shutil
import signal
import subprocess
import sys
from pathlib import Path
from typing import IO, Dict, Iterator, List, Optional, Sequence, Tuple

ROOT = Path(__file__).resolve().parent.parent
OLDEST, NEWEST = (3, 11), (3, 13)
# One process each: the measurements want a fresh one, and a real drag owns its screen.
PARTS = (
    ("tests", "not real_drag and not bench", ()),
    ("real drags", "real_drag", ()),
    ("measurements", "bench", ("-p", "no:randomly")),
)
NO_TESTS = 5  # pytest's exit code where a part holds none of the tests asked for
NETWORK_SIGNS = (
    "NewConnectionError",
    "Failed to establish a new connection",
    "ConnectionError",
    "ConnectTimeout",
    "ReadTimeout",
    "NameResolutionError",
    "Could not fetch URL",
    "ProxyError",
)


class Stop(Exception):
    """What is missing, where, and how to mend it: one sentence, and exit code 1."""


def main(arguments: Sequence[str]) -> int:
    """Exit code: that of weekloom or pytest, 1 if something is missing, 2 for bad use."""
    if not arguments or arguments[0] not in ("run", "test"):
        asked_for_help = bool(arguments) and arguments[0] in ("-h", "--help")
        print(__doc__, file=sys.stdout if asked_for_help else sys.stderr)
        return 0 if asked_for_help else 2
    try:
        other = another_python(sys.version_info[:2])
        if other is not None:
            return wait_for([other, os.path.abspath(__file__)] + list(arguments))
        if arguments[0] == "run":
            return run(ROOT, list(arguments[1:]))
        return test(ROOT, list(arguments[1:]))
    except Stop as stop:
        say("%s" % stop)
        return 1
    except KeyboardInterrupt:
        return 130


def run(root: Path, arguments: List[str]) -> int:
    """Start weekloom, or write its demo to a folder where there is no screen for a window."""
    prepare(root, "run")
    environ = dict(os.environ)
    if not has_screen(sys.platform, environ):
        if wants_window(arguments):
            folder = root / "demo-output"
            print(
                "There is no screen here (neither DISPLAY nor WAYLAND_DISPLAY is set), so no "
                "window can open; the demo is written to %s instead." % folder,
                flush=True,
            )
            arguments = ["demo", "--to", str(folder)]
        environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    # -P: a folder called app where the coach happens to stand is not ours.
    return wait_for([str(python_of(root)), "-P", "-m", "app"] + arguments, environ=environ)


def test(root: Path, arguments: List[str]) -> int:
    """Run all parts of the tests, each in a process of its own, and fail if any of them does."""
    prepare(root, "test")
    pytest = [str(python_of(root)), "-m", "pytest"]
    if "-m" in arguments:
        return wait_for(pytest + arguments, cwd=root)
    codes = []
    for name, marks, extra in PARTS:
        say("%s (-m %r)" % (name, marks))
        codes.append(wait_for(pytest + ["-m", marks] + list(extra) + arguments, cwd=root))
    return verdict(codes)


def verdict(codes: Sequence[int]) -> int:
    """Exit code for all parts: the first failure; 5 only if no part held a test."""
    failures = [code for code in codes if code not in (0, NO_TESTS)]
    if failures:
        return failures[0]
    return 0 if 0 in codes else NO_TESTS


def prepare(root: Path, kind: str) -> None:
    """See to everything that a start of this kind ("run" or "test") needs."""
    need_system_packages(root, ("window", "tests") if kind == "test" else ("window",))
    if not is_ready(root, kind):
        make_environment(root, kind)
    need_qt_libraries(root)


# --- the Python ---------------------------------------------------------------------------------


def another_python(version: Tuple[int, ...]) -> Optional[str]:
    """None if this Python will do, else one on the PATH that does.  Raises Stop if none does."""
    if OLDEST <= version <= NEWEST:
        return None
    for minor in range(NEWEST[1], OLDEST[1] - 1, -1):
        found = shutil.which("python3.%d" % minor)
        if found is not None and answers_to(found, (3, minor)):
            return found
    raise Stop(
        "Weekloom needs Python %s to %s, and this is Python %s at %s: install one of them and run "
        "this file with it, for example `python3.12 packaging/bootstrap.py run`."
        % (dotted(OLDEST), dotted(NEWEST), dotted(version), sys.executable)
    )


def answers_to(python: str, version: Tuple[int, int]) -> bool:
    """Whether that program runs and is that Python; a version manager's stand-in may not be."""
    question = "import sys; print(sys.version_info[:2] == %r)" % (version,)
    try:
        answer = subprocess.check_output([python, "-c", question], stderr=subprocess.DEVNULL)
    except (OSError, subprocess.CalledProcessError):
        return False
    return answer.strip() == b"True"


def dotted(version: Tuple[int, ...]) -> str:
    """The version as people write it: 3.11."""
    return ".".join(str(part) for part in version)


def base_python() -> str:
    """The Python that stands behind an environment this file may have been started from."""
    return getattr(sys, "_base_executable", None) or sys.executable


def lacks_venv() -> bool:
    """Whether this Python comes without the parts that make an environment (Debian splits them)."""
    importlib.invalidate_caches()
    return any(importlib.util.find_spec(name) is None for name in ("venv", "ensurepip"))


# --- the system ---------------------------------------------------------------------------------


def need_system_packages(root: Path, sections: Sequence[str]) -> None:
    """Install the listed packages that a Debian or Ubuntu lacks, or say how.  Raises Stop."""
    if not is_debian(Path("/etc/os-release")) or skips_system_packages():
        return
    listed = system_packages(root / "packaging" / "debian-packages.txt")
    wanted = [names for section in sections for names in listed[section]]
    if lacks_venv():
        wanted += listed["python"]
    installed = installed_of(wanted)
    missing = [names for names in wanted if not installed.intersection(names)]
    if not missing:
        return
    if os.geteuid() != 0:
        raise Stop(
            "system packages are missing that only an administrator can install: run `sudo sh -c "
            "'apt-get update && apt-get install -y %s'` and start again."
            % " ".join(available_of(names) for names in missing)
        )
    say("installing %d system packages" % len(missing))
    apt_get("update")
    apt_get("install", "--yes", "--no-install-recommends", *[available_of(n) for n in missing])


def skips_system_packages() -> bool:
    """Whether the user sees to the system's libraries."""
    return os.environ.get("WEEKLOOM_SYSTEM_PACKAGES") == "skip"


def is_debian(os_release: Path) -> bool:
    """Whether the system says that it is Debian, Ubuntu or a child of theirs."""
    try:
        text = os_release.read_text(encoding="utf-8")
    except OSError:
        return False
    family = re.findall(r"^ID(?:_LIKE)?=\"?([^\"\n]*)", text, flags=re.MULTILINE)
    return any(name in ("debian", "ubuntu") for line in family for name in line.split())


def system_packages(listing: Path) -> Dict[str, List[List[str]]]:
    """Sections of the listing; each package as the names it goes by in different releases."""
    sections = {}  # type: Dict[str, List[List[str]]]
    current = []  # type: List[List[str]]
    for text in listing.read_text(encoding="utf-8").splitlines():
        line = text.partition("#")[0].strip()
        if line.startswith("["):
            current = sections.setdefault(line.strip("[]"), [])
        elif line:
            current.append(line.split())
    return sections


def installed_of(packages: Sequence[Sequence[str]]) -> "set[str]":
    """Those of the names that are installed here."""
    names = [name for alternatives in packages for name in alternatives]
    query = ["dpkg-query", "--show", "--showformat", "${db:Status-Abbrev} ${Package}\n"] + names
    answer = subprocess.run(query, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    lines = [line.split() for line in answer.stdout.decode().splitlines()]
    return {line[1] for line in lines if len(line) == 2 and line[0] == "ii"}


def available_of(names: Sequence[str]) -> str:
    """The first of the names that this release knows, else the first of them."""
    for name in names if len(names) > 1 else ():
        look = ["apt-cache", "show", name]
        if (
            subprocess.run(
                look, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
            ).returncode
            == 0
        ):
            return name
    return names[0]


def apt_get(*arguments: str) -> None:
    """Let apt-get do that without asking.  Raises Stop with its last word."""
    command = ["apt-get", "-q", "-o", "DPkg::Lock::Timeout=120"] + list(arguments)
    environ = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    done = subprocess.run(
        command, env=environ, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False
    )
    if done.returncode != 0:
        raise Stop(
            "apt-get could not install the system packages (%s): see that the network and the "
            "package sources work, run `apt-get %s` by hand, and start again."
            % (last_line(done.stdout.decode(errors="replace")), shell(arguments))
        )


def need_qt_libraries(root: Path) -> None:
    """Ask Qt once on Linux whether the system has the libraries it needs.  Raises Stop."""
    stamp, python = read_stamp(root), str(python_of(root))
    x11 = bool(os.environ.get("DISPLAY")) and not os.environ.get("WAYLAND_DISPLAY")
    question = "x11" if x11 and shutil.which("ldd") else "import"
    answered = str(stamp.get("qt", ""))
    if not sys.platform.startswith("linux") or question in answered.split():
        return
    probe = "import PySide6.QtWidgets as q, pathlib; print(pathlib.Path(q.__file__).parent)"
    done = subprocess.run(
        [python, "-I", "-c", probe], stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False
    )
    if done.returncode != 0:
        text = done.stderr.decode(errors="replace")
        library = re.search(r"(\S+\.so[.\d]*): cannot open", text)
        raise missing_libraries(library.group(1) if library else last_line(text))
    if question == "x11":
        # Qt itself would blame one library whichever is missing.
        plugin = Path(done.stdout.decode().strip(), "Qt", "plugins", "platforms", "libqxcb.so")
        listing = subprocess.run(["ldd", str(plugin)], stdout=subprocess.PIPE, check=False).stdout
        absent = set(re.findall(r"(\S+) => not found", listing.decode(errors="replace")))
        if absent:
            raise missing_libraries(", ".join(sorted(absent)))
    write_stamp(root, dict(stamp, qt=(answered + " " + question).strip()))


def missing_libraries(libraries: str) -> Stop:
    """The sentence for libraries that Qt does not find in this system."""
    return Stop(
        "the window needs libraries that this system does not have (%s): install the packages that "
        "hold them and start again; packaging/debian-packages.txt has their names on Debian."
        % libraries
    )


def has_screen(platform: str, environ: Dict[str, str]) -> bool:
    """Whether a window can open: elsewhere than on Linux it is taken for granted."""
    if not platform.startswith("linux"):
        return True
    return bool(environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY"))


def wants_window(arguments: Sequence[str]) -> bool:
    """Whether weekloom would open its window: no command, or the demo without a folder."""
    rest = list(arguments)
    while rest and (rest[0] == "--file" or rest[0].startswith("--file=")):
        rest = rest[2 if rest[0] == "--file" else 1 :]
    if rest and rest[0] == "demo":
        return not any(
            word in ("-h", "--help", "--to") or word.startswith("--to=") for word in rest
        )
    return not rest


# --- the environment ----------------------------------------------------------------------------


def folder_of(root: Path) -> Path:
    """The environment's folder."""
    return root / ".venv"


def python_of(root: Path) -> Path:
    """The environment's Python."""
    if os.name == "nt":
        return folder_of(root) / "Scripts" / "python.exe"
    return folder_of(root) / "bin" / "python"


def lock_of(root: Path, kind: str) -> Path:
    """The lock file for a kind of start."""
    return root / "packaging" / (kind + ".lock")


def kinds_in(kind: str) -> Tuple[str, ...]:
    """The kinds of start that an environment for this kind serves: test.lock holds run.lock."""
    return ("run", "test") if kind == "test" else (kind,)


def wanted_stamp(root: Path, kinds: Sequence[str]) -> Dict[str, object]:
    """What an environment that is complete for these kinds says of itself."""
    locks = {}
    for kind in kinds:
        locks[kind] = hashlib.sha256(lock_of(root, kind).read_bytes()).hexdigest()
    return {"python": dotted(sys.version_info[:2]), "root": str(root), "locks": locks}


def read_stamp(root: Path) -> Dict[str, object]:
    """What the environment says of itself; empty if it is half-made, foreign or not there."""
    try:
        stamp = json.loads((folder_of(root) / "weekloom.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def locks_in(stamp: Dict[str, object]) -> Dict[str, str]:
    """The locks that a stamp says were installed, by kind."""
    locks = stamp.get("locks")
    return locks if isinstance(locks, dict) else {}


def write_stamp(root: Path, stamp: Dict[str, object]) -> None:
    """Let the environment say that of itself, whole or not at all."""
    target = folder_of(root) / "weekloom.json"
    draft = target.with_suffix(".new")
    with contextlib.suppress(OSError):  # without a stamp the next start is slower, no more
        draft.write_text(json.dumps(stamp, indent=1, sort_keys=True), encoding="utf-8")
        os.replace(str(draft), str(target))


def is_ready(root: Path, kind: str) -> bool:
    """Whether the environment is complete and made from the present lock for this kind."""
    stamp, wanted = read_stamp(root), wanted_stamp(root, kinds_in(kind))
    locks = locks_in(stamp)
    return (
        all(locks.get(name) == lock for name, lock in locks_in(wanted).items())
        and all(stamp.get(name) == wanted[name] for name in ("python", "root"))
        and python_of(root).exists()
    )


def make_environment(root: Path, kind: str) -> None:
    """Make or complete the environment for this kind of start.  Raises Stop."""
    with one_at_a_time(root):
        if is_ready(root, kind):  # another start has made it meanwhile
            return
        grows = is_ready(root, "run") and "test" not in locks_in(read_stamp(root))
        with writing_to(folder_of(root)):
            if grows:
                (folder_of(root) / "weekloom.json").unlink()  # from here on it is half-made
            else:
                remove(folder_of(root))
                make_venv(root)
            install(root, kind)
            add_ourselves(root)
        write_stamp(root, wanted_stamp(root, kinds_in(kind)))


@contextlib.contextmanager
def one_at_a_time(root: Path) -> Iterator[None]:
    """Let only one start at a time touch the environment; a second one waits."""
    with writing_to(root), open(str(root / ".venv.lock"), "a+b") as handle:
        if sys.platform == "win32":
            import msvcrt

            handle.seek(0)
            msvcrt.locking(handle.fileno(), msvcrt.LK_LOCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX)
        yield


@contextlib.contextmanager
def writing_to(folder: Path) -> Iterator[None]:
    """Turn the system's refusal to write there into a sentence.  Raises Stop."""
    try:
        yield
    except OSError as error:
        if error.errno == errno.ENOSPC:
            raise Stop(
                "the disk that holds %s is full: free about 1 GB and start again." % folder
            ) from None
        raise Stop(
            "%s cannot be written (%s): give yourself the right to write there, or copy the "
            "checkout to a folder of your own, and start again." % (folder, error.strerror)
        ) from None


def remove(folder: Path) -> None:
    """Delete an environment that is half-made or of another lock.  Raises Stop."""
    try:
        if folder.is_symlink() or folder.is_file():
            folder.unlink()
        elif folder.exists():
            shutil.rmtree(str(folder))
    except OSError as error:
        raise Stop(
            "the old environment %s cannot be deleted (%s): close the programs that use it, delete "
            "it by hand, and start again." % (folder, error.strerror)
        ) from None


def make_venv(root: Path) -> None:
    """Make an empty environment.  Raises Stop."""
    if lacks_venv():
        raise Stop(
            "Python %s at %s comes without its venv and ensurepip modules: install them (on Debian "
            "and Ubuntu: `sudo apt-get install python3-venv`) and start again."
            % (dotted(sys.version_info[:2]), sys.executable)
        )
    folder_of(root).mkdir()
    command = [base_python(), "-I", "-m", "venv", str(folder_of(root))]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    if done.returncode != 0:
        raise Stop(
            "`%s` failed (%s): run it by hand to see why, and start again."
            % (shell(command), last_line(done.stdout.decode(errors="replace")))
        )


def install(root: Path, kind: str) -> None:
    """Install exactly what the lock names, by hash.  Raises Stop."""
    lock, log = lock_of(root, kind), folder_of(root) / "install.log"
    count = len(re.findall(r"^[A-Za-z]", lock.read_text(encoding="utf-8"), flags=re.MULTILINE))
    say("installing up to %d packages into %s, once; this takes a minute" % (count, log.parent))
    command = [str(python_of(root)), "-I", "-m", "pip", "install", "--require-hashes", "--no-deps"]
    command += ["--only-binary", ":all:", "--disable-pip-version-check", "--no-input"]
    command += ["--progress-bar", "off", "-r", str(lock)]
    environ = {k: v for k, v in os.environ.items() if k not in ("PIP_TARGET", "PIP_PREFIX")}
    environ["PIP_USER"] = "0"
    with open(str(log), "wb") as account:
        code = wait_for(command, environ=environ, output=account)
    if code != 0:
        raise Stop(pip_sentence(log.read_text(encoding="utf-8", errors="replace"), log))


def pip_sentence(text: str, log: Path) -> str:
    """What pip's account of a failure comes down to, and how to mend it."""
    if "No space left" in text or "Errno 28" in text:
        return "the disk is full: free about 1 GB and start again."
    if any(sign in text for sign in NETWORK_SIGNS):
        return (
            "the packages could not be fetched: see that this machine reaches the package index "
            "that pip is set up for (pip's own words are in %s), and start again." % log
        )
    if "DO NOT MATCH THE HASHES" in text:
        return (
            "a fetched package is not the one the lock names, so nothing was installed: start "
            "again, and if it happens again ask whoever runs your package index (%s)." % log
        )
    absent = re.search(r"No matching distribution found for (\S+)", text)
    if absent:
        return (
            "there is no ready-made %s for this system: Weekloom needs a 64-bit Windows 10, macOS "
            "13 or Linux with glibc 2.34 (Debian 12, Ubuntu 22.04) or newer (%s)."
            % (absent.group(1), log)
        )
    return "pip failed (%s): see %s, mend that, and start again." % (last_line(text), log)


def add_ourselves(root: Path) -> None:
    """Let the environment's Python find the checkout, and put the command weekloom into it."""
    python = python_of(root)
    question = "import sysconfig; print(sysconfig.get_path('purelib'))"
    answer = subprocess.check_output([str(python), "-I", "-c", question])
    packages = Path(os.fsdecode(answer).strip())
    # Relative, so that it is plain ASCII whatever the checkout's folder is called.
    way = os.path.relpath(str(folder_of(root).resolve().parent), str(packages.resolve()))
    (packages / "weekloom.pth").write_text(way + "\n", encoding="ascii")
    if os.name == "nt":
        script = python.parent / "weekloom.cmd"
        script.write_text('@"%~dp0python.exe" -P -m app %*\n', encoding="ascii")
    else:
        script = python.parent / "weekloom"
        script.write_text('#!/bin/sh\nexec %s -P -m app "$@"\n' % shlex.quote(str(python)))
        script.chmod(0o755)


# --- small things -------------------------------------------------------------------------------


def wait_for(
    command: Sequence[str],
    *,
    environ: Optional[Dict[str, str]] = None,
    cwd: Optional[Path] = None,
    output: Optional[IO[bytes]] = None,
) -> int:
    """Exit code of the command; an interrupt is the command's to answer, and we wait for it."""
    running = []  # type: List[subprocess.Popen[bytes]]
    asked_to_end = []  # type: List[object]

    def hand_on(*_: object) -> None:
        asked_to_end.append(True)
        for process in running:
            process.terminate()

    # The terminal sends an interrupt to the command as well; a request to end is handed on.
    # Functions, not SIG_IGN: that the command would inherit.
    before = {
        signal.SIGINT: signal.signal(signal.SIGINT, lambda *_: None),
        signal.SIGTERM: signal.signal(signal.SIGTERM, hand_on),
    }
    try:
        running.append(
            subprocess.Popen(
                list(command),
                env=environ,
                cwd=None if cwd is None else str(cwd),
                stdout=output,
                stderr=None if output is None else subprocess.STDOUT,
            )
        )
        if asked_to_end:  # while it was being started
            hand_on()
        code = running[0].wait()
        return code if code >= 0 else 128 - code
    finally:
        for number, answer in before.items():
            signal.signal(number, answer)


def last_line(text: str) -> str:
    """The last line that says something."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    return lines[-1] if lines else "it gave no reason"


def shell(words: Sequence[str]) -> str:
    """The words as one would type them."""
    return " ".join(shlex.quote(word) for word in words)


def say(sentence: str) -> None:
    """Print where it does not mix with weekloom's own output."""
    print("weekloom: " + sentence, file=sys.stderr, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
