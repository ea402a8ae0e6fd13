"""A real window on a project of its own; what it remembers goes to a folder that is thrown away."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf

Find = Callable[[str], QWidget]

# Two shelves that fit one sheet, in sizes that are whole sixteenths of an inch.
SHELVES = (
    Shelf("upper", 1219.2, 203.2, 63.5, mount=Mount(600.0, 1500.0)),
    Shelf("lower", 914.4, 190.5, 63.5, left="open", mount=Mount(700.0, 1100.0)),
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
def find(window: Window) -> Find:
    """The one control with this object name."""

    def one(name: str) -> QWidget:
        found = [child for child in window.findChildren(QWidget, name) if not child.isHidden()]
        assert len(found) == 1, f"{len(found)} controls are named {name}"
        return found[0]

    return one


@pytest.fixture
def click(qtbot: QtBot, find: Find) -> Callable[[str], None]:
    return lambda name: qtbot.mouseClick(find(name), Qt.MouseButton.LeftButton)


@pytest.fixture
def enter(qtbot: QtBot, find: Find) -> Callable[[str, str], None]:
    """Type into a field and press Enter, as after Tab: the old text is selected."""

    def type_in(name: str, text: str) -> None:
        field = find(name)
        field.setFocus(Qt.FocusReason.TabFocusReason)
        qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        qtbot.keyClicks(field, text)
        qtbot.keyClick(field, Qt.Key.Key_Return)

    return type_in
