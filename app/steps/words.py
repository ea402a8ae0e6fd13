"""The words beside the bench: what changes, the one number, what to do, what falls, what to mind, what comes next."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.theme import Theme
from app.theme.marks import Mark, Tone


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


class StepWords(QScrollArea):
    """Big plain words in a column; what there is more than room for scrolls."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("steps_words")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._theme = theme
        body = QWidget(self)
        body.setObjectName("steps_words_body")
        self._column = QVBoxLayout(body)
        self._column.setContentsMargins(12, 6, 12, 12)
        self._column.setSpacing(5)
        self._body = body
        self._title = self._label("lead", "steps_title")
        self._moves = self._label("moves", "steps_moves")
        self._number = self._label("huge", "steps_number")
        self._number.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        self._number.setWordWrap(False)
        self._number_is = self._label("strong", "steps_number_is")
        self._beside = QHBoxLayout()
        self._beside.setSpacing(10)
        self._beside.addWidget(self._number)
        self._beside.addWidget(self._number_is, 1)
        self._column.addLayout(self._beside)
        self._lists: dict[str, list[_Line]] = {"dangers": [], "do": [], "falls": [], "care": []}
        self._places: dict[str, QVBoxLayout] = {}
        for name in ("dangers", "do", "falls", "care"):
            place = QVBoxLayout()
            place.setSpacing(4)
            self._places[name] = place
            self._column.addLayout(place)
        self._after = self._label("soft", "steps_after")
        self._column.addStretch(1)
        self.setWidget(body)

    def _label(self, role: str, name: str) -> QLabel:
        label = QLabel(self._body)
        label.setObjectName(name)
        label.setProperty("role", role)
        label.setWordWrap(True)
        self._column.addWidget(label)
        return label

    def show_words(self, said: Said) -> None:
        """Say this."""
        self._title.setText(said.title)
        self._moves.setText("\n".join(said.moves) or "Nothing changes on the saw.")
        self._number.setText(said.number)
        self._number_is.setText(said.number_is)
        self._fill("dangers", said.dangers, "error", "reason")
        self._fill("do", said.do, "note", "")
        self._fill("falls", said.falls, "note", "")
        self._fill("care", said.care, "warning", "")
        self._after.setText(said.after)
        self.verticalScrollBar().setValue(0)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """As high as its lines are when wrapped: a scroll area alone would squeeze them."""
        self._body.setMinimumHeight(max(0, self._column.totalHeightForWidth(self.viewport().width())))

    def _fill(self, name: str, words: tuple[str, ...], tone: Tone, role: str) -> None:
        lines = self._lists[name]
        while len(lines) < len(words):
            line = _Line(self._theme, tone, role, self._body)
            self._places[name].addLayout(line.row)
            lines.append(line)
        for at, line in enumerate(lines):
            line.say(words[at] if at < len(words) else "")
