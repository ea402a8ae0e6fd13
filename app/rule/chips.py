"""A strip of chips: one for each shelf or kind of sheet, the chosen one chalked, and one to add."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import partial

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from core.language import tr

GAP = 5
JOINING = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


class Chip(QPushButton):
    """`joined`: pressed with Control or Shift, to be taken together with what is chosen. `menu_asked`: where."""

    joined = Signal()
    menu_asked = Signal(QPoint)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self.menu_asked.emit(event.globalPos())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.modifiers() & JOINING and self.rect().contains(event.position().toPoint()):
            self.setDown(False)
            self.joined.emit()
            return
        super().mouseReleaseEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.modifiers() & JOINING and event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.joined.emit()
            return
        super().keyPressEvent(event)


class ChipStrip(QWidget):
    """Chips that wrap to as many lines as they need. `chosen` carries an id, `joined` one to be taken together with
    what is chosen, `menu_asked` one that a menu is wanted for and where on the screen, `add_asked` nothing.
    """

    chosen = Signal(str)
    joined = Signal(str)
    menu_asked = Signal(str, QPoint, object)
    add_asked = Signal()

    def __init__(self, name: str, add_words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._chips: list[Chip] = []
        self._shown: tuple[tuple[str, str, str], ...] = ()
        self._add = QPushButton(add_words, self)
        self._add.setObjectName(f"{name}_add")
        self._add.setProperty("look", "quiet")
        self._add.clicked.connect(self.add_asked)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_chips(self, chips: Sequence[tuple[str, str, str]], chosen: str, together: Collection[str] = ()) -> None:
        """chips: (id, word on the chip, name for tooltip and screen reader). together: ids chosen with it."""
        if tuple(chips) != self._shown:
            self._shown = tuple(chips)
            self._rebuild()
        for (key, _word, _name), chip in zip(self._shown, self._chips, strict=True):
            if chip.isChecked() != (key == chosen):
                chip.setChecked(key == chosen)
            also = key in together and key != chosen
            if chip.property("together") != also:
                chip.setProperty("together", also)
                chip.setAccessibleDescription(tr("edited together with the chosen one") if also else "")
                chip.style().unpolish(chip)
                chip.style().polish(chip)

    def _rebuild(self) -> None:
        while len(self._chips) > len(self._shown):
            gone = self._chips.pop()
            gone.hide()
            gone.deleteLater()
        while len(self._chips) < len(self._shown):
            chip = Chip(self)
            chip.setObjectName(f"{self.objectName()}_{len(self._chips)}")
            chip.setProperty("look", "chip")
            chip.setCheckable(True)
            chip.clicked.connect(partial(self._clicked, len(self._chips)))
            chip.joined.connect(partial(self._joined, len(self._chips)))
            chip.menu_asked.connect(partial(self._asked, len(self._chips)))
            chip.show()
            self._chips.append(chip)
        before: QWidget = self
        for (_key, word, name), chip in zip(self._shown, self._chips, strict=True):
            chip.setText(word)
            chip.setToolTip(name)
            chip.setAccessibleName(name)
            if before is not self:
                QWidget.setTabOrder(before, chip)
            before = chip
        if before is not self:
            QWidget.setTabOrder(before, self._add)
        self._lay_out()

    def _clicked(self, at: int) -> None:
        self._chips[at].setChecked(True)
        self.chosen.emit(self._shown[at][0])

    def _asked(self, at: int, where: QPoint) -> None:
        self.menu_asked.emit(self._shown[at][0], where, None)

    def _joined(self, at: int) -> None:
        self.joined.emit(self._shown[at][0])

    def _lay_out(self) -> None:
        x = y = 0
        line = 26
        for chip in (*self._chips, self._add):
            wide = max(30, chip.sizeHint().width())
            if x and x + wide > self.width():
                x, y = 0, y + line + GAP
            chip.setGeometry(QRect(x, y, wide, line))
            x += wide + GAP
        if self.height() != y + line or self.minimumHeight() != y + line:
            self.setFixedHeight(y + line)

    def sizeHint(self) -> QSize:
        return QSize(200, self.minimumHeight())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()
