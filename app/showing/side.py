"""What is set of a picture to show, and the files that can be written of it."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from app.rule.choices import Choice, Segments
from app.showing.wish import Showing
from app.theme import Theme
from core.language import tr

WIDE: Final = 210  # pixels
SIZES: Final = {  # name: pixels
    "1920 × 1080": (1920, 1080),
    "3840 × 2160": (3840, 2160),
    "1280 × 720": (1280, 720),
    "1200 × 1200": (1200, 1200),
    "1080 × 1350": (1080, 1350),
}
FILES: Final = (
    ("picture", tr("Picture, PNG …"), tr("What is seen here, as large as is set.")),
    ("turntable", tr("Turntable, WebP …"), tr("The shelves turning, as a moving picture.")),
    ("model", tr("Model, GLB …"), tr("A glTF model with the sheet's own face on it, in metres.")),
)


class ShowingSide(QWidget):
    """`changed` carries a field of the wish and its value; `write_asked` the kind of file."""

    changed = Signal(str, object)
    write_asked = Signal(str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("showing_side")
        self.setFixedWidth(WIDE)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 10)
        column.setSpacing(4)
        self._what = self._segments(
            column, "what", tr("Shown"), (("wall", tr("wall")), ("shelf", tr("one shelf"))), "shelf"
        )
        self._finish = self._segments(
            column, "finish", tr("Finish"), (("raw", tr("raw")), ("oiled", tr("oiled"))), "finish"
        )
        self._ground = Segments("showing_ground", (("paper", tr("paper")), ("clear", tr("see-through"))), self)
        self._ground.chosen.connect(lambda key: self.changed.emit("clear", key == "clear"))
        self._add(column, tr("Behind it"), self._ground)
        self._ground.set_name(tr("Behind it"))
        self._size = Choice("showing_size", theme)
        self._size.setAccessibleName(tr("Pixels"))
        self._size.chosen.connect(lambda key: self.changed.emit("size", key))
        self._add(column, tr("Pixels"), self._size)
        column.addSpacing(8)
        for kind, words, tip in FILES:
            button = QPushButton(words, self)
            button.setObjectName(f"showing_{kind}")
            button.setProperty("look", "line")
            button.setToolTip(tip)
            button.clicked.connect(partial(self.write_asked.emit, kind))
            column.addWidget(button)
        column.addStretch(1)

    def _segments(
        self, column: QVBoxLayout, name: str, label: str, options: tuple[tuple[str, str], ...], field: str
    ) -> Segments:
        control = Segments(f"showing_{name}", options, self)
        control.set_name(label)
        control.chosen.connect(lambda key: self.changed.emit(field, key))
        self._add(column, label, control)
        return control

    def _add(self, column: QVBoxLayout, label: str, widget: QWidget) -> None:
        words = QLabel(label, self)
        words.setProperty("role", "soft")
        words.setBuddy(widget)
        column.addWidget(words)
        column.addWidget(widget)

    def show_wish(self, wish: Showing, has_wall: bool) -> None:
        """Show what is set. has_wall: a shelf hangs."""
        self._what.show_value("wall" if wish.is_wall else "shelf")
        self._what.setEnabled(has_wall)
        self._finish.show_value(wish.finish)
        self._ground.show_value("clear" if wish.clear else "paper")
        size = next((name for name, pixels in SIZES.items() if pixels == wish.size), next(iter(SIZES)))
        self._size.offer([(name, name) for name in SIZES], size)
