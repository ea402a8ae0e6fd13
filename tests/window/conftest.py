"""A real window on a project of its own; what it remembers goes to a folder that is thrown away."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from tests.real_window import _settings, open_window, window

Find = Callable[[str], QWidget]

# Two shelves that fit one sheet, in sizes that are whole sixteenths of an inch.
SHELVES = (
    Shelf("upper", 1219.2, 203.2, 63.5, mount=Mount(500.0, 1500.0)),
    Shelf("lower", 914.4, 190.5, 63.5, left="open", mount=Mount(700.0, 1100.0)),
)
STOCK = Sheet("birch", 2438.4, 1219.2, thickness=18.0, trim=6.35)


__all__ = ["_settings", "open_window", "window"]  # fixtures: pytest finds them here


@pytest.fixture
def project() -> Project:
    return Project((STOCK,), SHELVES, name="Study wall", units="in")


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
def enter(qtbot: QtBot, find: Find, window: Window) -> Callable[[str, str], None]:
    """Type into a field and press Enter, as after Tab: the old text is selected. The plan is made, however slowly."""

    def type_in(name: str, text: str) -> None:
        field = find(name)
        field.setFocus(Qt.FocusReason.TabFocusReason)
        qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        qtbot.keyClicks(field, text)
        qtbot.keyClick(field, Qt.Key.Key_Return)
        window.store.planner.settle()

    return type_in
