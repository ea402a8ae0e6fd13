"""A row of the list of actions: its words at the left, its key at the right."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem

from app.theme import Theme

ROW: Final = 28


class ActionRows(QStyledItemDelegate):
    """Draws the key beside the words."""

    def __init__(self, theme: Theme, parent: QObject) -> None:
        super().__init__(parent)
        self._theme = theme

    KEYS: Final = Qt.ItemDataRole.UserRole
    ACTION: Final = Qt.ItemDataRole.UserRole + 1

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(super().sizeHint(option, index).width(), ROW)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().paint(painter, option, index)
        keys = index.data(self.KEYS)
        if keys:
            painter.save()
            painter.setPen(QColor(self._theme.palette.soft))
            box = option.rect.adjusted(10, 0, -12, 0)
            painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, str(keys))
            painter.restore()
