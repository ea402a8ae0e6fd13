"""A way out as a button."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton, QWidget


def pill(name: str, words: str, action: Callable[[], None], parent: QWidget) -> QPushButton:
    """A round button: its object name, its words, what it does."""
    made = QPushButton(words, parent)
    made.setObjectName(name)
    made.setProperty("look", "pill")
    made.clicked.connect(action)
    return made
