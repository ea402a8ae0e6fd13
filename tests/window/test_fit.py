"""In every language, size and theme: words fit, can be read, and what is pressed is large enough to hit.

Contrast: WCAG 2.2, 1.4.3, 4.5 : 1 for words, of the pixels as painted; at twice the size, where strokes are wide enough
to reach their own colour. Target size: WCAG 2.2, 2.5.8, 24 by 24 px.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from core import LANGUAGE
from tests.language.gather import PROJECT

WINDOWS = (
    ("en", "light", "2", (1280, 720), "hearth"),
    ("de", "dark", "2", (1280, 720), "landing-ledge"),
    ("de", "light", "1", (1120, 660), "stove-alcove"),
)
LONG = (
    ("en", "dark", "3", (1120, 660), "landing-ledge"),
    ("de", "light", "1.5", (1280, 720), "potting-shed"),
    ("de", "light", "1", (3840, 2160), "reading-corner"),
    ("de", "dark", "1", (1366, 768), ""),
)


def looked_at(language: str, theme: str, scale: str, size: tuple[int, int], demo: str) -> dict[str, list[str]]:
    """What a window of its own process finds of itself."""
    project = str(PROJECT / "demo_projects" / f"{demo}.grainfold") if demo else "-"
    command = [sys.executable, "-m", "tests.window.fit_child", project, theme, *map(str, size)]
    surroundings = os.environ | {LANGUAGE: language, "QT_SCALE_FACTOR": scale}
    run = subprocess.run(command, cwd=PROJECT, env=surroundings, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    found: dict[str, list[str]] = json.loads(run.stdout.splitlines()[-1])
    return found


@pytest.mark.parametrize(
    ("language", "theme", "scale", "size", "demo"),
    [*WINDOWS, *(pytest.param(*window, marks=pytest.mark.slow) for window in LONG)],
)
def test_words_fit_and_can_be_read(language: str, theme: str, scale: str, size: tuple[int, int], demo: str) -> None:
    found = looked_at(language, theme, scale, size, demo)
    assert found["cut"] == []
    assert found["small"] == []
    if float(scale) >= 2.0:
        assert found["faint"] == []
