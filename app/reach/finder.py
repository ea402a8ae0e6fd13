"""The searchable list of everything the window can be told to do, each with its key."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.actions import Actions
from app.reach import words
from app.reach.rows import ActionRows
from app.theme import Theme
from core.language import tr

WIDTH, HEIGHT = 520, 420
TOP = 58  # below the bar


def matching(text: str, names: Sequence[str]) -> list[int]:
    """Places of the names that have every word of the text, those that begin with it first."""
    wanted = text.casefold().split()
    found = [n for n, name in enumerate(names) if all(word in name.casefold() for word in wanted)]
    return sorted(found, key=lambda n: (not names[n].casefold().startswith(text.casefold().strip()), n))


class Finder(QFrame):
    """Opens over the boards; Escape or a click elsewhere shuts it. Enter does what is chosen."""

    def __init__(self, actions: Actions, theme: Theme, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("finder")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(words.FIND)
        self._actions = [actions[name] for name in actions.names()]
        self._groups = [_group(action) for action in self._actions]
        self._before: QWidget | None = None
        self._field = QLineEdit(self)
        self._field.setObjectName("finder_text")
        self._field.setPlaceholderText(words.FIND_HINT)
        self._field.setAccessibleName(words.FIND_HINT)
        self._field.textChanged.connect(self._show)
        self._field.installEventFilter(self)
        self._list = QListWidget(self)
        self._list.setObjectName("finder_list")
        self._list.setAccessibleName(words.FIND)
        self._list.setItemDelegate(ActionRows(theme, self._list))
        self._list.itemClicked.connect(self._do)
        self._list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._none = QLabel(words.NOTHING_FOUND, self)
        self._none.setProperty("role", "soft")
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 12, 12, 12)
        column.setSpacing(8)
        for widget in (self._field, self._none, self._list):
            column.addWidget(widget)
        self.hide()

    def open(self) -> None:
        """Show it, ready to type."""
        window = self.parentWidget()
        if window is None:
            return
        self._before = QApplication.focusWidget()
        wide, high = min(WIDTH, window.width() - 40), min(HEIGHT, window.height() - TOP - 80)
        self.setGeometry(QRect((window.width() - wide) // 2, TOP, wide, high))
        self._field.clear()
        self._show("")
        self.show()
        self.raise_()
        self._field.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _show(self, text: str) -> None:
        self._list.clear()
        named = [
            f"{group}: {action.text()}" if group else action.text()
            for action, group in zip(self._actions, self._groups, strict=True)
        ]
        for n in matching(text, [f"{name} {self._actions[n].toolTip()}" for n, name in enumerate(named)]):
            action = self._actions[n]
            item = QListWidgetItem(self._actions[n].icon(), named[n].replace("&", ""), self._list)
            keys = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
            item.setData(ActionRows.KEYS, keys if action.isEnabled() else words.NOT_NOW)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{named[n]}, {keys}" if keys else named[n])
            item.setData(ActionRows.ACTION, n)
            item.setToolTip(action.toolTip())
            if not action.isEnabled():
                item.setFlags(Qt.ItemFlag.NoItemFlags)
        self._none.setVisible(self._list.count() == 0)
        self._move(1, from_start=True)

    def _move(self, by: int, from_start: bool = False) -> None:
        row = -1 if from_start else self._list.currentRow()
        for _ in range(self._list.count()):
            row = (row + by) % self._list.count()
            if self._list.item(row).flags() & Qt.ItemFlag.ItemIsEnabled:
                self._list.setCurrentRow(row)
                return

    def _do(self, item: QListWidgetItem | None = None) -> None:
        chosen: QListWidgetItem | None = self._list.currentItem() if item is None else item
        if chosen is None or not chosen.flags() & Qt.ItemFlag.ItemIsEnabled:
            return
        action: QAction = self._actions[chosen.data(ActionRows.ACTION)]
        self.shut()
        action.trigger()

    def shut(self) -> None:
        """Hide it; the focus goes back to where it was."""
        self.hide()
        if self._before is not None and self._before.isVisible():
            self._before.setFocus(Qt.FocusReason.OtherFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            keys = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1, Qt.Key.Key_Tab: 1, Qt.Key.Key_Backtab: -1}
            key = Qt.Key(event.key())
            if key in keys:
                self._move(keys[key])
                return True
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._do()
                return True
            if key is Qt.Key.Key_Escape:
                self.shut()
                return True
        if event.type() == QEvent.Type.FocusOut and self.isVisible():
            self.hide()
        return super().eventFilter(watched, event)


def _group(action: QAction) -> str:
    """Actions whose own words say too little have those of their group before them."""
    name = action.objectName().removeprefix("action_")
    return {"theme": tr("Light and dark"), "paper": tr("Paper")}.get(name.partition("_")[0], "")
