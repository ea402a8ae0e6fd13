"""A real window and a mouse in it; what it remembers goes to a folder that is thrown away."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from tests.hand.mouse import Mouse

importlib.import_module("numpy")  # whole before a thread of the window begins with it: pytest.approx looks into it

# Three shelves on one sheet, in whole sixteenths of an inch; two share a row.
SHELVES = (
    Shelf("upper", 1219.2, 203.2, 63.5, mount=Mount(600.0, 1700.0)),
    Shelf("lower", 609.6, 203.2, 63.5, mount=Mount(700.0, 1100.0)),
    Shelf("side", 508.0, 152.4, 69.85, left="open"),
)
STOCK = Sheet("birch", 2438.4, 1219.2, thickness=18.0, trim=6.35)


@pytest.fixture
def project() -> Project:
    return Project((STOCK,), SHELVES, name="Study wall", units="in")


@pytest.fixture(autouse=True)
def _settings(tmp_path: Path) -> None:
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))


@pytest.fixture
def open_window(qtbot: QtBot) -> Iterator[Callable[[Project], Window]]:
    windows = []

    def make(project: Project) -> Window:
        window = Window(project)
        qtbot.addWidget(window)
        window.resize(1366, 768)
        with qtbot.waitExposed(window):
            window.show()
        window.activateWindow()
        QGuiApplication.processEvents()
        windows.append(window)
        return window

    yield make
    for window in windows:
        window.store.mark_saved(window.store.project, window.store.path or Path("nowhere"))  # closes without asking


@pytest.fixture
def window(open_window: Callable[[Project], Window], project: Project) -> Window:
    return open_window(project)


@pytest.fixture
def sheet(window: Window) -> Mouse:
    """The mouse on the sheet board."""
    return Mouse(window, window.sheet.canvas)


@pytest.fixture
def wall(window: Window) -> Mouse:
    """The mouse on the wall board."""
    return Mouse(window, window.wall.picture)
