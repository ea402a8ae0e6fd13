"""The rack as a board in the sheet's place: the kept offcuts, the largest first, and what each can still give."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from app.boards.board import Board
from app.boards.table import table_view
from app.rack.giving import Giving
from app.rack.model import FACE, HEADINGS, RackModel
from app.rack.rack import Rack
from app.store import Store
from app.theme import Theme
from core.drawing.names import letter
from core.language import tr
from core.lengths import show_length

Trigger = QAbstractItemView.EditTrigger
TABLE = "rack_table"
MEASURED = 40  # rows whose words the columns are fitted to
LEAST = '00-00/00"'  # an answer that is still to come has its room
PAD = 24  # pixels beside the words of a column
EMPTY = tr("No offcuts kept yet")
HOW = tr(
    "When a job is sawn, keep what is left of it here. Later jobs can then take it as a "
    "sheet, and you see how long a shelf each piece still gives."
)
HERE = tr("A piece that lies before you needs no keeping: it is a sheet of its own length and width.")


class RackBoard(Board):
    """A row is taken with Enter or a double click. `close_asked` brings the sheet back, `sizes_asked` its numbers."""

    waits = True
    close_asked = Signal()
    sizes_asked = Signal()

    def __init__(self, rack: Rack, store: Store, theme: Theme) -> None:
        super().__init__("rack", tr("Kept offcuts"), store, theme)
        self.rack = rack
        self.giving = Giving(store, self)
        self._model = RackModel(self.giving.answer, rack.in_project, rack.describe)
        self._view = table_view(TABLE, tr("Kept offcuts"), self._model, self)
        self._view.setEditTriggers(Trigger.EditKeyPressed | Trigger.SelectedClicked)
        header = self._view.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        header.setSectionResizeMode(FACE, QHeaderView.ResizeMode.Stretch)
        self._view.installEventFilter(self)
        self._view.activated.connect(self._take)
        self._view.selectionModel().currentRowChanged.connect(self._chosen)
        self._stack = QStackedWidget(self)
        self._stack.addWidget(self._view)
        self._stack.addWidget(self._make_empty())
        self._use = self.tool("use", tr("Use this one"), tr("Make it a sheet of this project (Enter)."), self._take)
        self._remove = self.tool(
            "take_out", tr("Take out"), tr("Out of the rack (Delete). It can be put back."), self._take_out
        )
        for button in (self._use, self._remove):
            self.add_tool(button)
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        self.set_content(self._stack)
        rack.changed.connect(self._show_offcuts)
        self.giving.answered.connect(self._model.refresh)

    def _make_empty(self) -> QWidget:
        empty = QWidget(self)
        column = QVBoxLayout(empty)
        column.setContentsMargins(24, 12, 24, 24)
        column.setSpacing(8)
        lead = QLabel(EMPTY, empty)
        lead.setObjectName("rack_empty")
        lead.setProperty("role", "lead")
        how, here = (self._told(words, empty) for words in (HOW, HERE))
        self._keep = self._button("keep", tr("Keep the offcuts of this plan"), empty)
        self._keep.clicked.connect(self.rack.keep)
        sizes = self._button("sizes", tr("Type its length and width"), empty)
        sizes.clicked.connect(self.sizes_asked)
        column.addStretch(1)
        column.addWidget(lead)
        for words, button in ((how, self._keep), (here, sizes)):
            column.addWidget(words)  # not aligned: that would cut its lines off
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(2)
        return empty

    def _told(self, words: str, parent: QWidget) -> QLabel:
        label = QLabel(words, parent)
        label.setProperty("role", "soft")
        label.setWordWrap(True)
        label.setFixedWidth(460)
        return label

    def _button(self, name: str, words: str, parent: QWidget) -> QPushButton:
        button = QPushButton(words, parent)
        button.setObjectName(f"rack_{name}")
        button.setProperty("look", "line")
        return button

    # What is chosen

    @property
    def chosen(self) -> str:
        """Id of the offcut in the chosen row, '' for none."""
        offcut = self._model.offcut(self._view.currentIndex().row())
        return offcut.id if offcut else ""

    def _chosen(self) -> None:
        for button in (self._use, self._remove):
            button.setEnabled(bool(self.chosen))

    def _take(self) -> None:
        if self.rack.use(self.chosen):
            self.close_asked.emit()

    def _take_out(self) -> None:
        self.rack.remove(self.chosen)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        delete = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Delete
        if delete and event.type() == QEvent.Type.KeyPress and watched.objectName() == TABLE:
            self._take_out()
            return True
        return super().eventFilter(watched, event)

    # Keeping up

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._show_offcuts()
        self.rack.read()
        if not event.spontaneous() and not self.small:
            self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isVisible() and self.isActiveWindow():
            self.rack.read()  # another window may have changed it meanwhile

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.giving.stop()

    def refresh_plan(self) -> None:
        self._show_offcuts()

    def refresh_selection(self) -> None:
        self._show_offcuts()

    def _show_offcuts(self) -> None:
        if not self.isVisible():
            return
        offcuts = self.rack.listing
        row = max(0, self._view.currentIndex().row())
        chosen = self.chosen
        self._model.show_offcuts(offcuts or (), self.store.unit)
        self._fit_columns()
        at = self._model.row(chosen)
        last = self._model.rowCount() - 1
        if self._view.currentIndex().row() != at or at < 0:
            now = self._model.index(at if at >= 0 else min(row, last), 0)
            self._view.setCurrentIndex(now if last >= 0 else QModelIndex())
        self._stack.setCurrentIndex(1 if offcuts == () else 0)
        self._keep.setVisible(bool(self.store.plan.offcuts))
        self._chosen()
        self._say()
        if self.store.held is None:
            self.giving.ask(offcuts or ())

    def _fit_columns(self) -> None:
        """As wide as the first rows need: measuring all of a long list would be felt."""
        measure = self._view.fontMetrics().horizontalAdvance
        rows = [self._model.words(row) for row in range(min(self._model.rowCount(), MEASURED))]
        for column, heading in enumerate(HEADINGS):
            if column != FACE:
                widest = max((measure(words[column]) for words in rows), default=0)
                self._view.setColumnWidth(column, max(widest, measure(heading), measure(LEAST)) + PAD)

    def _say(self) -> None:
        shelf, unit = self.store.shelf, self.store.unit
        if not self.rack.listing:
            words = "" if self.rack.listing is None else tr("what other jobs left")
        elif shelf is None:
            words = tr("what other jobs left")
        else:
            depth, height = (show_length(size, unit) for size in (shelf.depth, shelf.height))
            name = letter(self.store.shelf_index)
            words = tr(
                "the longest shelf each gives is {depth} deep and {height} high, as shelf {name}",
                depth=depth,
                height=height,
                name=name,
            )
        self.subtitle.set_words(words)
