"""Sections filled with rows that are bound to one part of the project, field by field."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

import msgspec
from PySide6.QtWidgets import QHBoxLayout, QPushButton

from app.rule.choices import Segments
from app.rule.fields import NumberField
from app.rule.reading import Reading
from app.rule.section import Row, Section
from app.rule.subject import Subject
from app.theme import Theme

V = TypeVar("V", bound=msgspec.Struct)


class BoundSection(Section):
    """A section about one subject. Each row knows how to show the document; `refresh` asks them all."""

    def __init__(self, key: str, theme: Theme, subject: Subject[V]) -> None:
        super().__init__(key, theme)
        self.subject = subject
        self._rows: list[Callable[[bool], None]] = []
        self._shown = ""
        self._last: object = None  # what was last shown

    def number(self, name: str, label: str, reading: Reading, tip: str = "", empty: str = "") -> NumberField:
        """A number; `name` is the field of the file. empty: placeholder where it may be left out."""
        field = NumberField(f"{self.key}_{name}", reading, lambda value: self.subject.change(label, {name: value}))
        field.setPlaceholderText(empty)
        field.settled.connect(self.subject.store.end_run)

        def show(fresh: bool) -> None:
            value = getattr(self.subject.value, name)
            field.show_value(value, self.subject.store.unit, fresh)

        self._rows.append(show)
        self.add(label, field, tip)
        return field

    def segments(self, name: str, label: str, options: Sequence[tuple[str, str]], tip: str = "") -> Segments:
        """One of a few words; `name` is the field of the file."""
        control = Segments(f"{self.key}_{name}", options)
        control.set_name(label)

        def pick(key: str) -> None:
            self.subject.store.end_run()
            self.subject.change(label, {name: key})

        control.chosen.connect(pick)
        self._rows.append(lambda _fresh: control.show_value(getattr(self.subject.value, name)))
        self.add(label, control, tip)
        return control

    def listen(self, show: Callable[[bool], None]) -> None:
        """Call `show(fresh)` at each refresh; fresh: the subject is another one."""
        self._rows.append(show)

    def buttons(self, *words: tuple[str, str, Callable[[], None], str]) -> list[QPushButton]:
        """A row of quiet buttons: (name, word, what it does, tip)."""
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        row.addStretch(1)
        made = []
        for name, word, action, tip in words:
            button = QPushButton(word, self.body)
            button.setObjectName(f"{self.key}_{name}")
            button.setProperty("look", "quiet")
            button.setToolTip(tip)
            button.clicked.connect(action)
            row.addWidget(button)
            made.append(button)
        self.rows.addLayout(row)
        return made

    def refresh(self) -> None:
        """Show the document. Where the subject is another one, what was typed and not used is dropped."""
        value, seen = self.subject.value, self.subject.shown
        if self.subject.store.held is not None and (seen is self._last or seen == self._last):
            return  # a hand drags something else
        self._last = seen
        self.heading.set_words(self.title(), self.summary())
        if value is None:
            return
        identity = str(getattr(value, "id", ""))
        fresh, self._shown = identity != self._shown, identity
        for show in self._rows:
            show(fresh)

    def title(self) -> str:
        """The heading."""
        return ""

    def summary(self) -> str:
        """What the heading says beside it when the section is shut."""
        return ""


def row_of(control: NumberField | Segments) -> Row:
    """The row a control stands in."""
    row = control.parentWidget()
    assert isinstance(row, Row)
    return row
