"""A table of the plan (cut order, cut list) in the place of the sheet, with the very words that go on paper."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.boards.board import Board
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, font
from core.drawing.tables import Table
from core.language import tr
from core.plan.model import Plan

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class TableModel(QAbstractTableModel):
    """A table as Qt wants it; columns to tick by hand are for paper only."""

    def __init__(self) -> None:
        super().__init__()
        self._table: Table | None = None
        self._columns: tuple[int, ...] = ()

    @property
    def table(self) -> Table | None:
        """What is shown."""
        return self._table

    def show_table(self, table: Table) -> None:
        """Show this."""
        if table != self._table:
            self.beginResetModel()
            self._table = table
            self._columns = tuple(at for at, column in enumerate(table.columns) if column.align != "tick")
            self.endResetModel()

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() or self._table is None else len(self._table.rows)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if self._table is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(self._table.rows[index.row()][self._columns[index.column()]])
        return self._aligned(index.column(), role)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if self._table is None or orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self._table.columns[self._columns[section]].heading
        return self._aligned(section, role)

    def _aligned(self, column: int, role: int) -> int | None:
        if role != Qt.ItemDataRole.TextAlignmentRole or self._table is None:
            return None
        right = self._table.columns[self._columns[column]].align == "right"
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        return int(side | Qt.AlignmentFlag.AlignVCenter)


def table_view(name: str, title: str, model: QAbstractTableModel, parent: QWidget) -> QTableView:
    """A view of whole rows, dressed as all tables are. name: its object name."""
    view = QTableView(parent)
    view.setObjectName(name)
    view.setAccessibleName(title)
    view.setModel(model)
    view.setFont(font(BODY))
    view.setShowGrid(False)
    view.setWordWrap(False)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setTabKeyNavigation(False)
    view.verticalHeader().hide()
    view.verticalHeader().setDefaultSectionSize(28)
    header = view.horizontalHeader()
    header.setHighlightSections(False)
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    return view


class TableBoard(Board):
    """One table. A row selects what it is about. `close_asked` brings the sheet back.

    `menu_asked` carries what a row is about, its texts, and where on the screen a menu for it is wanted.
    """

    waits = True
    close_asked = Signal()
    menu_asked = Signal(str, tuple, QPoint)

    def __init__(self, key: str, title: str, make: Callable[[Plan], Table], store: Store, theme: Theme) -> None:
        super().__init__(key, title, store, theme)
        self._make = make
        self._model = TableModel()
        self._view = table_view(f"{key}_table", title, self._model, self)
        self._view.selectionModel().currentRowChanged.connect(self._picked)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        self.set_content(self._view)

    def _picked(self, now: QModelIndex, before: QModelIndex) -> None:
        table = self._model.table
        if now.isValid() and table is not None and (about := table.abouts[now.row()]):
            self.store.select(about)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        view, table = self._view, self._model.table
        index = view.currentIndex()
        at = view.viewport().mapToGlobal(view.visualRect(index).center())
        if event.reason() is not QContextMenuEvent.Reason.Keyboard:
            at = event.globalPos()
            index = view.indexAt(view.viewport().mapFromGlobal(at))
            view.setCurrentIndex(index)
        if table is not None and index.isValid():
            self.menu_asked.emit(table.abouts[index.row()], table.rows[index.row()], at)

    def refresh_plan(self) -> None:
        table = self._make(self.store.plan)
        if table != self._model.table:
            self._model.show_table(table)
            self._stretch(table)
        said = table.notes[0] if table.notes else ""
        self.subtitle.set_words(said if table.rows else tr("nothing to cut yet"))

    def _stretch(self, table: Table) -> None:
        """The column with the longest words takes what room is left."""
        header = self._view.horizontalHeader()
        shown = [at for at, column in enumerate(table.columns) if column.align != "tick"]
        longest = [max((len(row[at]) for row in table.rows), default=0) for at in shown]
        for section, size in enumerate(longest):
            wide = size == max(longest)
            header.setSectionResizeMode(
                section, QHeaderView.ResizeMode.Stretch if wide else QHeaderView.ResizeMode.ResizeToContents
            )
