"""What every test shares: no screen, no surprises, and a real mouse only where one is asked for."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile

import pytest
from hypothesis import HealthCheck, settings

# Before anything imports Qt: without a screen Qt would end the whole run.
if "WEEKLOOM_REAL_SCREEN" not in os.environ:
    os.environ["QT_QPA_PLATFORM"] = "offscreen"

# What is kept between starts is kept in a folder of this run.
_caches = tempfile.TemporaryDirectory(prefix="weekloom-caches-", ignore_cleanup_errors=True)
os.environ["XDG_CACHE_HOME"] = _caches.name

settings.register_profile("quick", max_examples=50, deadline=None)
settings.register_profile(
    "ci",
    max_examples=30,
    deadline=None,
    derandomize=False,  # hypothesis would try the same examples for ever there
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("thorough", max_examples=1000, deadline=None)
settings.load_profile(
    os.environ.get("WEEKLOOM_HYPOTHESIS", "ci" if os.environ.get("CI") else "quick")
)

REAL_DRAG_PROGRAMS = ("Xvfb", "xdotool")


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a real drag where no virtual screen is at hand; fail it where one was promised."""
    if item.get_closest_marker("real_drag") is None:
        return
    missing = [name for name in REAL_DRAG_PROGRAMS if shutil.which(name) is None]
    if not missing and sys.platform.startswith("linux"):
        return
    reason = f"a real drag needs {' and '.join(missing or REAL_DRAG_PROGRAMS)} on Linux"
    if os.environ.get("WEEKLOOM_REQUIRE_XVFB"):
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)
