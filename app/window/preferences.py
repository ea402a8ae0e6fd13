"""What the window remembers from one day to the next: nothing of the work, only how it was arranged."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from PySide6.QtCore import QByteArray, QSettings

Paper = Literal["letter", "a4", "tabloid", "a3"]
PAPERS: tuple[Paper, ...] = ("letter", "a4", "tabloid", "a3")
MOST_RECENT = 10
FOLDED_AT_FIRST = ("figure", "wall", "saw", "frame", "glue")


class Preferences:
    """A few remembered choices, in the place the system has for them."""

    def __init__(self) -> None:
        self._settings = QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "Grainfold", "Grainfold")

    def _text(self, key: str, otherwise: str) -> str:
        value = self._settings.value(key, otherwise)
        return value if isinstance(value, str) else otherwise

    @property
    def theme(self) -> str:
        """system, light or dark."""
        return self._text("theme", "system")

    @theme.setter
    def theme(self, mode: str) -> None:
        self._settings.setValue("theme", mode)

    @property
    def language(self) -> str:
        """Code of the language chosen; '' for the system's."""
        return self._text("language", "")

    @language.setter
    def language(self, code: str) -> None:
        self._settings.setValue("language", code)
        self._settings.sync()  # the window opens anew at once

    @property
    def paper(self) -> Paper | None:
        """The paper of the pages; None for what goes with the units."""
        kept = self._text("paper", "")
        return next((paper for paper in PAPERS if paper == kept), None)

    @paper.setter
    def paper(self, name: Paper | None) -> None:
        self._settings.setValue("paper", name or "")

    @property
    def folded(self) -> tuple[str, ...]:
        """Keys of the sections of the rule that are shut."""
        text = self._text("folded", ",".join(FOLDED_AT_FIRST))
        return tuple(key for key in text.split(",") if key)

    @folded.setter
    def folded(self, keys: tuple[str, ...]) -> None:
        self._settings.setValue("folded", ",".join(keys))

    @property
    def folder(self) -> Path:
        """Where the last file was opened or saved."""
        kept = self._text("folder", "")
        return Path(kept) if kept and Path(kept).is_dir() else Path.home()

    @folder.setter
    def folder(self, path: Path) -> None:
        self._settings.setValue("folder", str(path))

    @property
    def guided(self) -> bool:
        """Has the guide of first steps been seen, or ended?"""
        return self._text("guided", "") == "yes"

    @guided.setter
    def guided(self, seen: bool) -> None:
        self._settings.setValue("guided", "yes" if seen else "")

    @property
    def recent(self) -> tuple[Path, ...]:
        """Projects opened or saved last, the newest first."""
        kept = self._text("recent", "")
        return tuple(Path(line) for line in kept.split("\n") if line)

    def remember(self, path: Path) -> None:
        """This project was opened or saved."""
        others = [other for other in self.recent if other != path]
        self._keep_recent([path, *others][:MOST_RECENT])

    def forget_recent(self, path: Path) -> None:
        """This project cannot be opened."""
        self._keep_recent([other for other in self.recent if other != path])

    def _keep_recent(self, paths: list[Path]) -> None:
        self._settings.setValue("recent", "\n".join(str(path) for path in paths))

    @property
    def geometry(self) -> QByteArray:
        """The window's place, as Qt packs it; empty for none."""
        value = self._settings.value("geometry")
        return value if isinstance(value, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, packed: QByteArray) -> None:
        self._settings.setValue("geometry", packed)
