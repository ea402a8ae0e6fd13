"""Entry fields: what is typed stays as typed until it can be used, and then comes back in the maker's own notation."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.rule.reading import Reading
from core.lengths import Unit

REASON_MS: Final = 600  # a number half typed is no mistake yet

Number = float | int | None
Take = Callable[[Number], str]  # use the value; returns why not, '' when it was used


class EntryField(QLineEdit):
    """A line of text that is applied while it is typed, and put back with Escape.

    `refused` carries why the text cannot be used, '' when that is over. `settled` is sent at Enter, Tab and when the
    focus leaves.
    """

    refused = Signal(str)
    settled = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setMinimumHeight(26)
        self.reason = ""
        self._pending = ""
        self._was_focused = self._fresh_click = False
        self._late = QTimer(self, singleShot=True, interval=REASON_MS)
        self._late.timeout.connect(self._tell)
        self.textEdited.connect(self._typed)
        self.returnPressed.connect(self.settle)

    # What kinds of field do

    def _typed(self, text: str) -> None:
        """The text was changed by hand."""
        raise NotImplementedError

    def _begin(self) -> None:
        """Remember what Escape puts back."""
        raise NotImplementedError

    def _put_back(self) -> bool:
        """Back to what there was at `_begin`. Returns False where nothing was changed."""
        raise NotImplementedError

    def _rest(self) -> None:
        """Show the value as it stands when nobody types."""
        raise NotImplementedError

    # Why not

    def _refuse(self, reason: str) -> None:
        self._pending = reason
        if not reason:
            self._late.stop()
            self._tell()
        elif self.reason:
            self._tell()
        else:
            self._late.start()

    def _tell(self) -> None:
        self._late.stop()
        if self._pending == self.reason:
            return
        turned = bool(self._pending) != bool(self.reason)
        self.reason = self._pending
        self.setAccessibleDescription(self.reason)
        if turned:
            self.setProperty("refused", bool(self.reason))
            self.style().unpolish(self)
            self.style().polish(self)
        self.refused.emit(self.reason)

    def settle(self) -> None:
        """What is typed is meant: say at once what is wrong, else show it tidily."""
        if self._pending:
            self._tell()
        else:
            self._rest()
        self.settled.emit()

    # Keys and focus

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            control = event.modifiers() & Qt.KeyboardModifier.ControlModifier
            if control and event.key() in (Qt.Key.Key_Z, Qt.Key.Key_Y, Qt.Key.Key_Delete):
                event.ignore()  # these are the window's: undo takes back edits, not letters
                return False
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._begin()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._fresh_click = not self._was_focused
        super().mousePressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        self._was_focused = True
        if self._fresh_click and not self.hasSelectedText():
            self.selectAll()  # the first click takes the whole number, typing replaces it

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._was_focused = False
        if event.reason() is not Qt.FocusReason.PopupFocusReason:
            self.settle()
            self.deselect()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            if self._put_back():
                self.selectAll()
                event.accept()
            else:
                event.ignore()
            return
        super().keyPressEvent(event)


class NameField(EntryField):
    """A name. `take` is asked when the text is settled or typed, as `live` says."""

    def __init__(self, name: str, take: Callable[[str], str], live: bool, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._take = take
        self._live = live
        self._value = self._start = ""

    def show_value(self, value: str, fresh: bool = False) -> None:
        """The document's value; the same one again leaves what is typed alone."""
        if fresh or value != self._value:
            self._value = value
            self.setText(value)
            self._refuse("")

    def _use(self, text: str) -> None:
        before, self._value = self._value, text
        reason = self._take(text)
        if reason:
            self._value = before
        self._refuse(reason)

    def _typed(self, text: str) -> None:
        if self._live:
            self._use(text.strip())
        else:
            self._refuse("")

    def settle(self) -> None:
        if not self._live and self.text().strip() != self._value:
            self._use(self.text().strip())
        super().settle()

    def _begin(self) -> None:
        self._start = self._value

    def _put_back(self) -> bool:
        if self.text() == self._start:
            return False
        if self._value != self._start:
            self._use(self._start)
        self.setText(self._start)
        self._refuse("")
        return True

    def _rest(self) -> None:
        if self.text() != self._value:
            self.setText(self._value)


class NumberField(EntryField):
    """A number with its unit: typed, or stepped with the arrow keys (Shift: fine, Page: ten at once)."""

    def __init__(self, name: str, reading: Reading, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._reading = reading
        self._take = take
        self._unit = Unit.INCH
        self._value: Number = None
        self._start: Number = None
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)

    @property
    def value(self) -> Number:
        """The document's value, in its stored unit."""
        return self._value

    def show_value(self, value: Number, unit: Unit, fresh: bool = False) -> None:
        """The document's value; the same one again leaves what is typed alone."""
        if not fresh and value == self._value and unit is self._unit and self.text():
            return
        self._value, self._unit = value, unit
        if fresh:
            self._start = value
        self._rest()
        self._refuse("")

    def _use(self, value: Number) -> bool:
        before, self._value = self._value, value
        reason = self._take(value)
        if reason:
            self._value = before
        self._refuse(reason)
        return not reason

    def _typed(self, text: str) -> None:
        try:
            value = self._reading.read(text, self._unit)
        except ValueError as error:
            self._refuse(str(error))
        else:
            self._use(value)

    def _begin(self) -> None:
        self._start = self._value
        if not self._pending and self.text() != self._tidy():
            self.setText(self._tidy())

    def _tidy(self) -> str:
        """The text to type on: without the marks that say 'a little more' or 'less'."""
        return self._reading.show(self._value, self._unit).removesuffix(" +").removesuffix(" −")

    def _put_back(self) -> bool:
        if self.text() == self._tidy() and self._value == self._start:
            return False
        if self._value != self._start:
            self._use(self._start)
        self.setText(self._tidy())
        self._refuse("")
        return True

    def _rest(self) -> None:
        text = self._reading.show(self._value, self._unit)
        if text != self.text():
            self.setText(text)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Up: 1,
            Qt.Key.Key_Down: -1,
            Qt.Key.Key_PageUp: 10,
            Qt.Key.Key_PageDown: -10,
        }.get(Qt.Key(event.key()))
        if steps is None:
            super().keyPressEvent(event)
            return
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if self._use(self._reading.step(self._value, self._unit, steps, fine)):
            self.setText(self._tidy())
            self.selectAll()
        event.accept()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()  # the wheel scrolls the rule, it never changes a number in passing
