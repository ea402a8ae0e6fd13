"""The history as a board: the named steps back and forth, the revisions kept, and what differs from any of them."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget

from app.boards.board import Board
from app.rule.fields import NameField
from app.safe import words
from app.store import Store
from app.theme import Theme
from core.document.differences import differences
from core.document.errors import ProjectError
from core.document.model import Project
from core.document.revisions import (
    current_revision,
    keep_revision,
    name_complaint,
    remove_revision,
    restore_revision,
)


class HistoryBoard(Board):
    """Three columns: steps, revisions, differences. `close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("history", words.HISTORY, store, theme)
        self._other: tuple[Project, str] | None = None  # what is compared with, that is no revision
        self._steps = self._list("history_steps", words.STEPS)
        self._steps.itemActivated.connect(self._walk)
        self._steps.itemClicked.connect(self._walk)
        self._revisions = self._list("history_revisions", words.REVISIONS)
        self._revisions.currentRowChanged.connect(self._chosen)
        self._revisions.itemActivated.connect(self._restore)
        self._differs = self._list("history_differences", words.DIFFERENCES)
        self._differs_head = self._head(words.DIFFERENCES)
        self._name = NameField("revision_name", lambda name: "", live=True)
        self._name.setPlaceholderText(words.REVISION_NAME)
        self._name.setAccessibleName(words.REVISION_NAME)
        self._name.returnPressed.connect(self._keep)
        self._keep_button = self._button("revision_keep", words.KEEP_REVISION, words.KEEP_REVISION_TIP, self._keep)
        self._restore_button = self._button("revision_restore", words.RESTORE, words.RESTORE_TIP, self._restore)
        self._remove_button = self._button("revision_remove", words.REMOVE, words.REMOVE_TIP, self._remove)
        self._reason = QLabel(self)
        self._reason.setObjectName("revision_reason")
        self._reason.setProperty("role", "reason")
        self._reason.setWordWrap(True)
        self._reason.hide()
        self.add_tool(self.tool("close", words.CLOSE, words.CLOSE_TIP, self.close_asked.emit))
        self.set_content(self._columns())
        store.state_changed.connect(self._changed)
        store.changed.connect(self._changed)

    def _list(self, name: str, title: str) -> QListWidget:
        made = QListWidget(self)
        made.setObjectName(name)
        made.setAccessibleName(title)
        made.setWordWrap(True)
        made.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        return made

    def _head(self, title: str) -> QLabel:
        head = QLabel(title, self)
        head.setProperty("role", "strong")
        head.setContentsMargins(10, 0, 0, 0)
        return head

    def _button(self, name: str, word: str, tip: str, action: object) -> QPushButton:
        made = QPushButton(word, self)
        made.setObjectName(name)
        made.setProperty("look", "line")
        made.setToolTip(tip)
        made.clicked.connect(action)
        return made

    def _columns(self) -> QWidget:
        content = QWidget(self)
        row = QHBoxLayout(content)
        row.setContentsMargins(4, 0, 10, 8)
        row.setSpacing(14)
        keep = QHBoxLayout()
        keep.setSpacing(6)
        keep.addWidget(self._name, 1)
        keep.addWidget(self._keep_button)
        below = QHBoxLayout()
        below.setSpacing(6)
        below.addStretch(1)
        below.addWidget(self._restore_button)
        below.addWidget(self._remove_button)
        middle = (self._head(words.REVISIONS), keep, self._reason, self._revisions, below)
        for share, parts in (
            (3, (self._head(words.STEPS), self._steps)),
            (4, middle),
            (4, (self._differs_head, self._differs)),
        ):
            column = QVBoxLayout()
            column.setSpacing(6)
            for part in parts:
                column.addWidget(part) if isinstance(part, QWidget) else column.addLayout(part)
            row.addLayout(column, share)
        return content

    # Keeping up

    def _changed(self) -> None:
        if self.isVisible():
            self.refresh_plan()

    def refresh_plan(self) -> None:
        self._show_steps()
        self._show_revisions()
        self._show_differences()
        at = current_revision(self.store.document)
        count = len(self.store.document.revisions)
        self.subtitle.set_words(words.history_summary(count, at))

    def _show_steps(self) -> None:
        back, forth = self.store.undo_labels, self.store.redo_labels
        first = words.OPENED if self.store.path else words.BEGUN
        shown = [first, *back, *(words.undone(label) for label in forth)]
        with QSignalBlocker(self._steps):
            if [self._steps.item(n).text() for n in range(self._steps.count())] != shown:
                self._steps.clear()
                self._steps.addItems(shown)
            self._steps.setCurrentRow(len(back))
        self._steps.scrollToItem(self._steps.item(len(back)))

    def _show_revisions(self) -> None:
        revisions = self.store.document.revisions
        now = current_revision(self.store.document)
        shown = [words.revision_line(n, r.name, r.day, n == now) for n, r in enumerate(revisions)][::-1]
        with QSignalBlocker(self._revisions):
            if [self._revisions.item(n).text() for n in range(self._revisions.count())] != shown:
                row = self._revisions.currentRow()
                self._revisions.clear()
                self._revisions.addItems(shown)
                self._revisions.setCurrentRow(min(max(row, 0), len(shown) - 1) if self._other is None else -1)
        for button in (self._restore_button, self._remove_button):
            button.setEnabled(self._at() >= 0)

    def _show_differences(self) -> None:
        at = self._at()
        with QSignalBlocker(self._differs):
            self._differs.clear()
            if at >= 0:
                revision = self.store.document.revisions[at]
                before, called = revision.project, words.revision_called(at, revision.name)
            elif self._other is not None:
                before, called = self._other
            elif self.store.saved is not None:
                before, called = self.store.saved, words.AS_SAVED_LOWER if self.store.path else words.AS_BEGUN_LOWER
            else:
                before, called = self.store.document, words.AS_BEGUN_LOWER
            phrases = differences(before, self.store.document, self.store.unit)
            self._differs_head.setText(words.differs_from(called))
            self._differs.addItems(phrases or (words.NOTHING_DIFFERS,))

    # What is done

    def compare_with(self, before: Project, called: str) -> None:
        """Show what differs from this project, called so."""
        self._other = (before, called)
        with QSignalBlocker(self._revisions):
            self._revisions.setCurrentRow(-1)
        self.refresh_plan()

    def _at(self) -> int:
        """The revision that is chosen, -1 for none."""
        row = self._revisions.currentRow()
        return len(self.store.document.revisions) - 1 - row if row >= 0 else -1

    def _chosen(self) -> None:
        self._other = None
        self.refresh_plan()

    def _walk(self) -> None:
        self.store.walk(len(self.store.undo_labels) - self._steps.currentRow())

    def _say(self, why: str) -> None:
        self._reason.setText(why[:1].upper() + why[1:] + "." if why else "")
        self._reason.setVisible(bool(why))

    def _keep(self) -> None:
        revisions = self.store.document.revisions
        name = self._name.text().strip() or words.unnamed(len(revisions) + 1)
        if complaint := name_complaint(name):
            self._say(complaint)
            return
        try:
            self.store.apply(
                words.keep_step(name), lambda project: keep_revision(project, name, date.today().isoformat())
            )
        except ProjectError as error:
            self._say(error.why)
            return
        self._say("")
        self._name.show_value("", fresh=True)
        self._revisions.setCurrentRow(0)

    def _restore(self) -> None:
        at = self._at()
        if at >= 0:
            name = self.store.document.revisions[at].name
            self.store.apply(words.restore_step(name), lambda project: restore_revision(project, at))

    def _remove(self) -> None:
        at = self._at()
        if at >= 0:
            name = self.store.document.revisions[at].name
            self.store.apply(words.remove_step(name), lambda project: remove_revision(project, at))
