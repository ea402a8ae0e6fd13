"""The theme in use: the system's, unless the maker chose one."""

from __future__ import annotations

from typing import Literal, get_args

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from app.theme.palette import DARK, LIGHT, Palette

Mode = Literal["system", "light", "dark"]


class Theme(QObject):
    """Which colours the window has. `changed` is sent when `palette` is another one."""

    changed = Signal()

    def __init__(self, mode: str = "system", parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._mode: Mode = "system"
        self._palette = LIGHT
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._follow)
        self.set_mode(mode)

    @property
    def mode(self) -> Mode:
        """What was chosen: system, light or dark."""
        return self._mode

    @property
    def palette(self) -> Palette:
        """The colours in use."""
        return self._palette

    def set_mode(self, mode: str) -> None:
        """Choose; a word that is no mode means the system's."""
        modes: tuple[Mode, ...] = get_args(Mode)
        self._mode = next((known for known in modes if known == mode), "system")
        self._follow()

    def _follow(self) -> None:
        dark = self._mode == "dark" or (
            self._mode == "system" and QGuiApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
        )
        palette = DARK if dark else LIGHT
        if palette is not self._palette:
            self._palette = palette
            self.changed.emit()
