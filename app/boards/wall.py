"""The wall board: what you want."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QWidget

from app.boards.board import Board
from app.boards.wall_picture import WallPicture
from app.store import Store
from app.theme import Theme
from core.drawing.names import letter
from core.language import tr


class WallBoard(Board):
    """What you want. `add_asked` asks for a first shelf, `sizes_asked` for the wall's own numbers."""

    add_asked = Signal()
    sizes_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("wall", tr("Wall"), store, theme, parent)
        self.picture = WallPicture(self)
        self.set_content(self.picture)
        self._add = QPushButton(tr("or add one by its numbers"), self.picture)
        self._add.setObjectName("wall_add")
        self._add.setProperty("look", "pill")
        self._add.clicked.connect(self.add_asked)
        self.picture.resized.connect(self._place_add)
        tip = tr("The wall's own sizes, its studs and what stands in the way, in the rule.")
        self.add_tool(self.tool("sizes", tr("Sizes of the wall"), tip, self.sizes_asked.emit))

    def refresh_plan(self) -> None:
        shelves = self.store.project.shelves
        off = [letter(at) for at, shelf in enumerate(shelves) if shelf.mount is None]
        if not shelves:
            words = tr("what you want; nothing hangs here yet")
        elif off:
            words = tr("what you want; not on the wall yet: {join}", join=", ".join(off))
        else:
            words = tr("what you want")
        self.subtitle.set_words(words)
        wanted = not shelves and not self.small
        if self._add.isHidden() is wanted:
            self._add.setVisible(wanted)
            self._place_add()
        self.picture.refresh()

    def _place_add(self) -> None:
        """Below the words on the empty wall."""
        self._add.adjustSize()
        left = self.picture.rect().center().x() - self._add.rect().center().x()
        self._add.move(left, round(self.picture.eye()) + 70)

    def refresh_selection(self) -> None:
        self.picture.refresh()

    def refresh_size(self) -> None:
        self.refresh_plan()
