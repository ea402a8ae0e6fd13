"""How long the window takes for what a monkey does to it: nothing may hang."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from app.window.window import Window
from core.document.load import load_project
from tests.bench.measure import Measure, at_most
from tests.bench.places import FIRST_DEMO
from tests.safe.monkey import Monkey

EVENTS = int(os.environ.get("GRAINFOLD_EVENTS", "2000"))
HANG_MS = 200.0
SHOWN = 5  # of the slowest


def measures() -> Iterator[Measure]:
    """The slowest event, and how many hang."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    with TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        project = load_project(FIRST_DEMO)
        window = Window(project)
        window.resize(1366, 768)
        window.show()
        app.processEvents()
        monkey = Monkey(window, project, Path(folder), 1)
        monkey.play(EVENTS)
        slowest = sorted(monkey.times, reverse=True)
        for slow in slowest[:SHOWN]:
            yield Measure(f"monkey: {slow.what}"[:58], 1000.0 * slow.seconds, "ms", None, True)
        hangs = sum(1000.0 * slow.seconds > HANG_MS for slow in slowest)
        yield at_most(f"monkey: of {EVENTS} events, those over {HANG_MS:g} ms", hangs, "events", 0.0)
        yield at_most("monkey: errors nobody caught", window.errors.count, "errors", 0.0)
        window.leave_kept()
