"""The words beside the bench: what changes, the one number, what to do, what falls, what to mind, what comes next."""

from __future__ import annotations

from typing import Final

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.theme import Theme
from app.theme.marks import Mark, Tone
from core.language import tr

HEAD_MOST: Final = 0.75  # of the height: what stays in sight leaves so much for the rest


class Said(msgspec.Struct, frozen=True, gc=False):
    """Everything said of one step.

    where: which step of how many. setup: what is set up now. moves: what changes before it. title: what it makes.
    number, number_is: the one it is set by. do, falls, dangers, care: in order. after: what changes next.
    """

    where: str
    setup: str
    moves: tuple[str, ...]
    title: str
    number: str
    number_is: str
    do: tuple[str, ...]
    falls: tuple[str, ...]
    dangers: tuple[str, ...]
    care: tuple[str, ...]
    after: str


class _Line:
    """A mark and words in a row of their own; a plain layout, so that what wraps is measured at once."""

    def __init__(self, theme: Theme, tone: Tone, role: str, parent: QWidget) -> None:
        self.row = QHBoxLayout()
        self.row.setSpacing(7)
        self.words = QLabel(parent)
        self.words.setWordWrap(True)
        if role:
            self.words.setProperty("role", role)
        self._mark = Mark(theme, tone, 14, parent)
        self.row.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        self.row.addWidget(self.words, 1)

    def say(self, words: str) -> None:
        """Say this; '' is not there at all."""
        self.words.setText(words)
        for widget in (self._mark, self.words):
            widget.setVisible(bool(words))


class StepWords(QWidget):
    """Big plain words in a column: the number and the dangers stay in sight, what there is more of scrolls below."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("steps_words")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._theme = theme
        self._lists: dict[str, list[_Line]] = {"dangers": [], "do": [], "care": [], "falls": []}
        self._places = {name: self._column(4) for name in self._lists}
        self._homes: dict[str, QWidget] = {}
        self._head = QWidget(self)
        self._head.setObjectName("steps_words_head")
        head = self._fill_head()
        self._scroll = self._scrolled()
        self._outer = self._column(0)
        self._outer.addWidget(self._head)
        self._outer.addWidget(self._scroll, 1)
        self.setLayout(self._outer)
        self._top = head

    def _column(self, spacing: int) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(spacing)
        column.setContentsMargins(0, 0, 0, 0)
        return column

    def _fill_head(self) -> QVBoxLayout:
        """What stays in sight: title, what changes, the number, dangers."""
        column = QVBoxLayout(self._head)
        column.setContentsMargins(12, 6, 12, 4)
        column.setSpacing(5)
        self._title = self._label("lead", "steps_title", self._head)
        self._moves = self._label("moves", "steps_moves", self._head)
        self._number = self._label("huge", "steps_number", self._head)
        self._number.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        self._number.setWordWrap(False)
        self._number_is = self._label("strong", "steps_number_is", self._head)
        beside = QHBoxLayout()
        beside.setSpacing(10)
        beside.addWidget(self._number)
        beside.addWidget(self._number_is, 1)
        column.addWidget(self._title)
        column.addWidget(self._moves)
        column.addLayout(beside)
        column.addLayout(self._places["dangers"])
        self._homes["dangers"] = self._head
        return column

    def _scrolled(self) -> QScrollArea:
        """What may scroll: what to do, what to mind, what falls, what comes next."""
        scroll = QScrollArea(self)
        scroll.setObjectName("steps_words_scroll")
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._body = QWidget(scroll)
        self._body.setObjectName("steps_words_body")
        self._below = QVBoxLayout(self._body)
        self._below.setContentsMargins(12, 2, 12, 10)
        self._below.setSpacing(4)
        for name in ("do", "care", "falls"):
            self._below.addLayout(self._places[name])
            self._homes[name] = self._body
        self._after = self._label("soft", "steps_after", self._body)
        self._below.addWidget(self._after)
        self._below.addStretch(1)
        scroll.setWidget(self._body)
        return scroll

    def _label(self, role: str, name: str, home: QWidget) -> QLabel:
        label = QLabel(home)
        label.setObjectName(name)
        label.setProperty("role", role)
        label.setWordWrap(True)
        return label

    def show_words(self, said: Said) -> None:
        """Say this."""
        self._title.setText(said.title)
        self._moves.setText("\n".join(said.moves) or tr("Nothing changes on the saw."))
        self._number.setText(said.number)
        self._number_is.setText(said.number_is)
        self._fill("dangers", said.dangers, "error", "reason")
        self._fill("do", said.do, "note", "")
        self._fill("care", said.care, "warning", "")
        self._fill("falls", said.falls, "note", "")
        self._after.setText(said.after)
        self._scroll.verticalScrollBar().setValue(0)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Both parts as high as their lines are when wrapped: a layout alone would squeeze them."""
        for column in (self._top, self._below):
            column.invalidate()  # with all that is in it: what was hidden or said anew is measured anew
            column.activate()
        wanted, most = self._top.totalHeightForWidth(self.width()), round(HEAD_MOST * self.height())
        self._head.setFixedHeight(max(0, min(wanted, most)))
        self._outer.activate()
        self._body.setMinimumHeight(max(0, self._below.totalHeightForWidth(self._scroll.viewport().width())))

    def _fill(self, name: str, words: tuple[str, ...], tone: Tone, role: str) -> None:
        lines = self._lists[name]
        while len(lines) < len(words):
            line = _Line(self._theme, tone, role, self._homes[name])
            self._places[name].addLayout(line.row)
            lines.append(line)
        for at, line in enumerate(lines):
            line.say(words[at] if at < len(words) else "")
