"""Typing a value while it is held: the field in its line of the card, and why what is typed cannot be used."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPointF, QSizeF, Qt, Signal
from PySide6.QtWidgets import QWidget

from app.hand.drag import Drag
from app.hand.field import ValueField
from app.rule.subject import sentence
from app.store import Store


class Typed(QObject):
    """`taken` when the drag is done with what was typed, `put_back` at Escape, `changed` when the card looks otherwise.

    at: which of the grip's numbers is being typed, -1 for none; trouble: why it cannot be used.
    """

    taken = Signal()
    put_back = Signal()
    changed = Signal()

    def __init__(self, widget: QWidget, store: Store) -> None:
        super().__init__(widget)
        self._widget = widget
        self._store = store
        self._drag: Drag | None = None
        self._field: ValueField | None = None
        self.at = -1
        self.trouble = ""

    @property
    def going_on(self) -> bool:
        """Is something being typed?"""
        return self.at >= 0

    @property
    def size(self) -> QSizeF:
        """Size of the field."""
        return QSizeF(self._field.size()) if self._field is not None else QSizeF()

    @property
    def field(self) -> ValueField | None:
        """The field, once there was something to type."""
        return self._field

    def move_to(self, corner: QPointF) -> None:
        """Put the field there."""
        if self._field is not None:
            self._field.move(corner.toPoint())

    def begin(self, drag: Drag, at: int, text: str, *, whole: bool = False) -> None:
        """Type number `at` of what is held. whole: `text` is the old value, which typing replaces."""
        if self._field is None:
            self._field = ValueField(self._widget)
            self._field.taken.connect(self.take)
            self._field.next_asked.connect(self._go_on)
            self._field.put_back.connect(self.put_back)
            self._field.textEdited.connect(self._edited)
        self._drag, self.at, self.trouble = drag, at, ""
        self._field.open_with(text, drag.grip.numbers[at].words, whole=whole)
        self.changed.emit()

    def shut(self) -> None:
        """Nothing is typed any more; the keys are the board's again."""
        self._drag, self.trouble = None, ""
        if self.at < 0 or self._field is None:
            return
        self.at = -1
        had_focus = self._field.hasFocus()
        self._field.shut()
        if had_focus:
            self._widget.setFocus(Qt.FocusReason.OtherFocusReason)

    def take(self) -> None:
        """Use what is typed. Where it cannot be used it stays open, but not when the focus has gone elsewhere."""
        if self.at < 0 or self._field is None:
            return
        if self._field.text().strip() and not self._use():
            if not self._field.hasFocus():
                self.put_back.emit()
            return
        self.taken.emit()

    def _use(self) -> bool:
        drag, field = self._drag, self._field
        if drag is None or field is None:
            return True
        try:
            value = float(drag.grip.numbers[self.at].reading.read(field.text(), self._store.unit) or 0.0)
        except ValueError as error:
            self.trouble = sentence(str(error))
        else:
            self.trouble = drag.put((*drag.values[: self.at], value, *drag.values[self.at + 1 :]))
        self.changed.emit()
        return not self.trouble

    def _go_on(self) -> None:
        """Tab: the next number, if there is one."""
        drag = self._drag
        if drag is None or not self._use():
            return
        if self.at + 1 >= len(drag.grip.numbers):
            self.taken.emit()
            return
        number = drag.grip.numbers[self.at + 1]
        self.begin(drag, self.at + 1, number.show(drag.values[self.at + 1], self._store.unit), whole=True)

    def _edited(self) -> None:
        if self.trouble:
            self.trouble = ""
            self.changed.emit()
