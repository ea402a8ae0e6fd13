"""The numbers of a photograph beside it: what it shows, the light evened out, turned over or not."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSlider, QVBoxLayout, QWidget

from app.photo.edits import Part
from app.rule.choices import Choice, Segments
from app.store import Store
from app.theme import Theme
from core.document.model import Photo
from core.language import decimal, tr

WIDE: Final = 196  # pixels
PARTS: Final = (
    ("all", tr("the whole sheet")),
    ("left", tr("its left half")),
    ("right", tr("its right half")),
    ("lower", tr("its lower half")),
    ("upper", tr("its upper half")),
)
OTHER: Final = ("other", tr("a part of it"))
MIRRORS: Final = (("none", "no"), ("along", "ends"), ("across", "edges"))


class PhotoSide(QWidget):
    """Shows a photograph's values; the signals carry what a hand sets."""

    even_set = Signal(float)
    mirror_set = Signal(str)
    part_set = Signal(str)
    turn_asked = Signal()
    find_asked = Signal()
    remove_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__()
        self.setObjectName("photo_side")
        self.setFixedWidth(WIDE)
        self._store = store
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 10)
        column.setSpacing(4)
        self._file = QLabel(self)
        self._file.setObjectName("photo_file")
        self._file.setWordWrap(True)
        self._file.setProperty("role", "small")
        self._part = Choice("photo_part", theme)
        self._part.setAccessibleName(tr("What it shows"))
        self._part.chosen.connect(self.part_set)
        self._even_words = QLabel(self)
        self._even = QSlider(Qt.Orientation.Horizontal, self)
        self._even.setObjectName("photo_even")
        self._even.setAccessibleName(tr("Light evened out"))
        self._even.setRange(0, 100)
        self._even.valueChanged.connect(lambda value: self.even_set.emit(value / 100.0))
        self._even.sliderReleased.connect(store.end_run)
        self._mirror = Segments("photo_mirror", MIRRORS, self)
        self._mirror.set_name(tr("Turned over"))
        self._mirror.setToolTip(
            tr("A leaf of a book match is its neighbour turned over: its ends or its edges trade places.")
        )
        self._mirror.chosen.connect(self.mirror_set)
        self._lens = QLabel(self)
        for label, widget in (
            (None, self._file),
            (tr("Shows"), self._part),
            (self._even_words, self._even),
            (tr("Turned over"), self._mirror),
        ):
            self._add(column, label, widget)
        self._lens.setProperty("role", "small")
        column.addWidget(self._lens)
        self._buttons = [
            self._button(column, *button)
            for button in (
                (
                    "turn",
                    tr("Turn a quarter"),
                    tr("Another edge of what is seen is the sheet's lower one."),
                    self.turn_asked,
                ),
                ("find", tr("Find the corners"), tr("Where the sheet stands out from its ground."), self.find_asked),
                (
                    "remove",
                    tr("Take it away"),
                    tr("The sheet without this photograph. Undo brings it back."),
                    self.remove_asked,
                ),
            )
        ]
        column.addStretch(1)

    def _add(self, column: QVBoxLayout, label: str | QLabel | None, widget: QWidget) -> None:
        if label is not None:
            words = label if isinstance(label, QLabel) else QLabel(label, self)
            words.setProperty("role", "soft")
            words.setBuddy(widget)
            column.addWidget(words)
        column.addWidget(widget)
        column.addSpacing(2)

    def _button(self, column: QVBoxLayout, name: str, words: str, tip: str, signal: object) -> QPushButton:
        button = QPushButton(words, self)
        button.setObjectName(f"photo_{name}")
        button.setProperty("look", "line")
        button.setToolTip(tip)
        button.clicked.connect(lambda: signal.emit())  # type: ignore[attr-defined]  # a signal of this widget
        column.addWidget(button)
        return button

    def show_photo(self, photo: Photo | None, part: Part) -> None:
        """Show its values; nothing can be set where there is none."""
        self.setVisible(photo is not None)
        if photo is None:
            return
        self._file.setText(photo.file)
        self._part.offer((*PARTS, OTHER) if part == "other" else PARTS, part)
        percent = round(100.0 * photo.even)
        self._even_words.setText(tr("Light evened out: {percent} %", percent=percent))
        with QSignalBlocker(self._even):
            self._even.setValue(percent)
        self._mirror.show_value(photo.mirror)
        way = "outwards" if photo.lens < 0.0 else "inwards"
        edge = "none" if photo.lens == 0.0 else decimal(f"{abs(100.0 * photo.lens):.1f}") + f" % {way}"
        self._lens.setText(tr("Bow of the lens: {edge}", edge=edge))
