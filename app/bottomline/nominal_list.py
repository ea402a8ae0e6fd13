"""What is still nominal, right above the bottom line: each thing with its field to go to, and a way to say it is so."""

from __future__ import annotations

from functools import partial
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from app.bottomline.pill import pill
from app.bottomline.sentence import Sentence
from app.theme import Theme
from app.theme.icons import IconMark
from app.theme.type import BODY, font
from core.findings.nominal import Nominal
from core.language import tr

ROW_HEIGHT: Final = 36  # pixels
MOST_ROWS: Final = 8
WORD_WIDTH: Final = 110


class NominalList(QWidget):
    """`field_asked` carries the thing whose number is wanted, `done_asked` the thing that is found to be so."""

    field_asked = Signal(object)
    done_asked = Signal(object)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("nominal_list")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._theme = theme
        self._found: tuple[Nominal, ...] = ()
        self._built: tuple[Nominal, ...] | None = None
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 7, 0, 6)
        self._rows.setSpacing(0)
        self.hide()

    def show_found(self, found: tuple[Nominal, ...]) -> None:
        """These; built only while the list is open, which shuts when there is none left."""
        self._found = found
        if not self.isHidden():
            if found:
                self._build()
            else:
                self.hide()

    def setVisible(self, visible: bool) -> None:
        if visible:
            self._build()
        super().setVisible(visible)

    def _build(self) -> None:
        if self._found == self._built:
            return
        self._built = self._found
        while (item := self._rows.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        for at, one in enumerate(self._found[:MOST_ROWS]):
            self._rows.addWidget(self._row(at, one))
        self.setFixedHeight(13 + ROW_HEIGHT * min(len(self._found), MOST_ROWS))

    def _row(self, at: int, one: Nominal) -> QWidget:
        line = QWidget(self)
        line.setFixedHeight(ROW_HEIGHT)
        row = QHBoxLayout(line)
        row.setContentsMargins(20, 0, 14, 0)
        row.setSpacing(8)
        row.addWidget(IconMark("check", self._theme, line))
        word = QPushButton(one.word, line)
        word.setObjectName(f"nominal_{at}_field")
        word.setProperty("look", "quiet")
        word.setMinimumWidth(WORD_WIDTH)
        word.setToolTip(tr("To its field."))
        word.setStyleSheet("text-align: left;")
        word.clicked.connect(partial(self.field_asked.emit, one))
        row.addWidget(word)
        said = Sentence(f"nominal_{at}", font(BODY), self._theme, line)
        said.set_text(one.text, leads=False)
        row.addWidget(said, 1)
        done = pill(f"nominal_{at}_done", one.done, partial(self.done_asked.emit, one), line)
        done.setToolTip(tr("It is as it stands here."))
        row.addWidget(done)
        return line

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self._theme.palette.hairline), 1))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()
