"""Fixtures of a real window; what it remembers goes to a folder that is thrown away. For conftest files to import."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Project


@pytest.fixture(autouse=True)
def _settings(tmp_path: Path) -> None:
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))


def is_active(window: Window) -> bool:
    """Does the window have the keyboard? On a busy machine the display gives it late, or not at the first asking."""
    window.activateWindow()
    QGuiApplication.processEvents()
    return window.isActiveWindow()


@pytest.fixture
def open_window(qtbot: QtBot) -> Callable[[Project], Window]:
    def closes_without_asking(window: Window) -> None:
        window.store.mark_saved(window.store.project, window.store.path or Path("nowhere"))

    def make(project: Project) -> Window:
        window = Window(project)
        qtbot.addWidget(window, before_close_func=closes_without_asking)
        window.resize(1366, 768)
        with qtbot.waitExposed(window):
            window.show()
        qtbot.waitUntil(lambda: is_active(window), timeout=20_000)
        return window

    return make


@pytest.fixture
def window(open_window: Callable[[Project], Window], project: Project) -> Window:
    return open_window(project)
