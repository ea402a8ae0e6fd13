"""A real window and a mouse in it; what it remembers goes to a folder that is thrown away."""

from __future__ import annotations

import importlib

import pytest

from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from tests.hand.mouse import Mouse
from tests.real_window import _settings, open_window, window

importlib.import_module("numpy")  # whole before a thread of the window begins with it: pytest.approx looks into it

# Three shelves on one sheet, in whole sixteenths of an inch; two share a row.
SHELVES = (
    Shelf("upper", 1219.2, 203.2, 63.5, mount=Mount(600.0, 1700.0)),
    Shelf("lower", 609.6, 203.2, 63.5, mount=Mount(700.0, 1100.0)),
    Shelf("side", 508.0, 152.4, 69.85, left="open"),
)
STOCK = Sheet("birch", 2438.4, 1219.2, thickness=18.0, trim=6.35)


__all__ = ["_settings", "open_window", "window"]  # fixtures: pytest finds them here


@pytest.fixture
def project() -> Project:
    return Project((STOCK,), SHELVES, name="Study wall", units="in")


@pytest.fixture
def sheet(window: Window) -> Mouse:
    """The mouse on the sheet board."""
    return Mouse(window, window.sheet.canvas)


@pytest.fixture
def wall(window: Window) -> Mouse:
    """The mouse on the wall board."""
    return Mouse(window, window.wall.picture)
