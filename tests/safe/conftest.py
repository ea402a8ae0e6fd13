"""A window, a project, and files thrown away afterwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from PySide6.QtWidgets import QFileDialog

from app.store import Store
from core.document.model import Project
from tests.real_window import _settings, open_window, window
from tests.window.conftest import click, enter, find, project

__all__ = ["_settings", "click", "enter", "find", "open_window", "project", "window"]


def deeper(depth: float) -> Callable[[Project], Project]:
    def change(project: Project) -> Project:
        shelf = msgspec.structs.replace(project.shelves[0], depth=depth)
        return msgspec.structs.replace(project, shelves=(shelf, *project.shelves[1:]))

    return change


@pytest.fixture
def choose(monkeypatch: pytest.MonkeyPatch) -> Callable[[Path | str], None]:
    """The file the system's dialogs come back with."""

    def answer(path: Path | str) -> None:
        for name in ("getSaveFileName", "getOpenFileName"):
            monkeypatch.setattr(QFileDialog, name, lambda *_args, **_named: (str(path), ""))

    return answer


@pytest.fixture
def store(qapp: object, project: Project) -> Store:
    return Store(project)
