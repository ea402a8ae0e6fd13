"""A quiet button in a board's heading: words, and an icon beside them as long as there is room."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QPushButton, QWidget

from app.theme import Theme
from app.theme.icons import BESIDE, SIZE, icon

UNDRAWN: Final = frozenset({"before", "after", "first", "back", "next", "last"})  # their words are arrows already
ARROWS: Final = frozenset("«‹›»")


class Tool(QPushButton):
    """`name` chooses the icon."""

    def __init__(self, name: str, words: str, theme: Theme, parent: QWidget) -> None:
        super().__init__(words, parent)
        self.setProperty("look", "arrow" if words in ARROWS else "quiet")
        self.setIconSize(QSize(SIZE, SIZE))
        self._theme = theme
        self._icon = QIcon()
        self._shown = True
        if name not in UNDRAWN:
            self.draw(name)

    def draw(self, name: str) -> None:
        """Have this icon from now on."""
        is_chip = self.property("look") == "chip"
        self._icon = icon(name, self._theme, *(("ink", "on_chalk") if is_chip else ("chalk",)))
        if self._shown:
            self.setIcon(self._icon)

    def show_icon(self, shown: bool) -> None:
        """With its icon, or with its words alone."""
        if shown is not self._shown:
            self._shown = shown
            self.setIcon(self._icon if shown else QIcon())

    @property
    def bare_width(self) -> int:
        """Pixels it takes with its words alone."""
        return self.sizeHint().width() - (0 if self.icon().isNull() else BESIDE)

    @property
    def drawn_width(self) -> int:
        """Pixels it takes with its icon."""
        return self.bare_width + (0 if self._icon.isNull() else BESIDE)


def show_icons(tools: list[Tool], room: int) -> None:
    """All with their icons where that fits in so many pixels, else all with their words alone."""
    fits = sum(tool.drawn_width for tool in tools) <= room
    for tool in tools:
        tool.show_icon(fits)
