"""Write packaging/run.lock and packaging/test.lock anew from pyproject.toml.

For contributors, after a change of dependencies; needs the program `uv` on the PATH. Arguments go
to uv, for example `--upgrade` or `--upgrade-package reportlab`. The lock files name packages,
versions and hashes, never the place they come from: each machine asks the index it is set up for.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HEADER = "# Made by packaging/relock.py from pyproject.toml. Do not edit by hand.\n"


def relock(name: str, *, groups: tuple[str, ...], constraint: str | None, extra: list[str]) -> None:
    """Write packaging/`name`, held to the versions of `constraint` if one is named."""
    lock = ROOT / "packaging" / name
    command = ["uv", "pip", "compile", "pyproject.toml", "--universal", "--python-version", "3.11"]
    command += ["--generate-hashes", "--no-emit-index-url", "--no-emit-find-links", "--no-header"]
    command += ["--no-annotate", "--quiet", "--output-file", f"packaging/{name}", *extra]
    for group in groups:
        command += ["--group", group]
    if constraint is not None:
        command += ["--constraint", f"packaging/{constraint}"]
    subprocess.run(command, cwd=ROOT, check=True)  # noqa: S603 - the command is spelled out above
    lock.write_text(HEADER + lock.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    relock("test.lock", groups=("test", "lint"), constraint=None, extra=sys.argv[1:])
    relock("run.lock", groups=(), constraint="test.lock", extra=[])
    subprocess.run([sys.executable, "packaging/parts_list.py"], cwd=ROOT, check=True)
