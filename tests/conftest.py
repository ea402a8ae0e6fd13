"""What holds for all tests: sizes, the display, and a home of their own.

Sizes: `python3 -m tests` is quick, `--long` runs the large sizes. In a test:

    @settings(max_examples=examples(50, 1000))      # from tests.conftest import examples
    @pytest.mark.slow                               # runs with --long only
"""

import os
import shutil
import sys
import tempfile

import pytest
from hypothesis import HealthCheck, settings

LONG = "GRAINFOLD_TESTS_LONG"  # in the surroundings, so that processes started by a test see it too

# No deadlines and no complaint of slow cases: how long one example takes says more about a busy machine than
# about the code; growth is tested as a ratio.
for name, count in (("quick", 50), ("long", 500)):
    settings.register_profile(name, deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=count)


def examples(quick: int, long: int) -> int:
    """How many examples (or how large a size) this run takes."""
    return long if os.environ.get(LONG) else quick


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--long", action="store_true", help="the large sizes, and the tests marked slow")


@pytest.hookimpl(tryfirst=True)  # before pytest-qt loads Qt
def pytest_configure(config: pytest.Config) -> None:
    if config.getoption("--long"):
        os.environ[LONG] = "1"
    settings.load_profile("long" if os.environ.get(LONG) else "quick")
    _choose_display()
    _live_in_a_home_of_our_own(config)


def _choose_display() -> None:
    """A real X display held in memory (pytest-xvfb), OpenGL in software: the same picture everywhere."""
    for name in ("QT_SCALE_FACTOR", "QT_STYLE_OVERRIDE", "QT_QPA_PLATFORMTHEME", "QT_FONT_DPI"):
        os.environ.pop(name, None)
    if not sys.platform.startswith("linux"):
        return
    if shutil.which("Xvfb") is None and not os.environ.get("DISPLAY"):
        raise pytest.UsageError("The tests need an X display: install Xvfb.")
    os.environ["QT_QPA_PLATFORM"] = "xcb"
    os.environ["LIBGL_ALWAYS_SOFTWARE"] = "1"


def _live_in_a_home_of_our_own(config: pytest.Config) -> None:
    """Tests neither read nor change the settings and recent files of the person who runs them."""
    home = tempfile.TemporaryDirectory()
    config.add_cleanup(home.cleanup)
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        os.environ[name] = os.path.join(home.name, name)
        os.mkdir(os.environ[name])


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if not os.environ.get(LONG):
        for item in items:
            if item.get_closest_marker("slow"):
                item.add_marker(pytest.mark.skip(reason="slow: runs with --long"))
