"""Every page in German, whose words are longer: nothing overlaps, clips or runs off. A process speaks one language."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from core import LANGUAGE
from tests.paper.recorder import demo_names

PROJECT = Path(__file__).parents[2]
LOOK = """
import sys
from app.paper.canvas import start_gui
start_gui()
from tests.paper.recorder import demo
from tests.paper.test_every_page import faults
for name in sys.argv[1:]:
    for paper in ("letter", "a4"):
        print(*(f"{name}, {fault}" for fault in faults(demo(name), paper)), sep="\\n", end="")
"""


def faults_in_german(names: list[str]) -> str:
    surroundings = {**os.environ, LANGUAGE: "de", "QT_QPA_PLATFORM": "offscreen"}
    run = subprocess.run(
        [sys.executable, "-c", LOOK, *names], cwd=PROJECT, env=surroundings, capture_output=True, text=True, check=True
    )
    return run.stdout


def test_nothing_overlaps_clips_or_runs_off_in_german() -> None:
    assert faults_in_german(["potting-shed"]) == ""


@pytest.mark.slow
def test_nor_in_any_demo() -> None:
    assert faults_in_german(demo_names()) == ""
