"""The largest that fits, beside length, depth and height: worked out while the hand rests, set with one click."""

from __future__ import annotations

from collections import deque
from functools import partial
from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton

from app.rule.rows import BoundSection
from app.slices import Slices
from app.store import Store
from core.document.errors import ProjectError
from core.document.model import Project
from core.document.patch import apply_pointers
from core.language import tr
from core.layout.largest import Dimension, Largest, largest
from core.lengths import show_length
from core.packing.clock import Stop

REST_MS: Final = 300  # the hand rests
MOST_SHELVES: Final = 24  # with more, one plan takes longer than the window may wait for
WORDS: Final[dict[str, str]] = {"length": tr("Longest"), "depth": tr("Deepest"), "height": tr("Highest")}
ALL: Final = "all"


class MostHint(QPushButton):
    """A quiet word inside an entry field, at its left: `up to 75-1/4`."""

    def __init__(self, field: QLineEdit) -> None:
        super().__init__(field)
        self._field = field
        self.setObjectName(f"{field.objectName()}_most")
        self.setProperty("look", "hint")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._told = ("", "")
        self.hide()
        field.installEventFilter(self)

    def tell(self, text: str, tip: str = "") -> None:
        """Say this; '' says nothing."""
        if (text, tip) == self._told:
            return
        self._told = (text, tip)
        if text != self.text():
            self.setText(text)
            self._place()
        self.setToolTip(tip)
        self.setVisible(bool(text))
        self._field.setTextMargins(self.width() if text else 0, 0, 0, 0)

    def _place(self) -> None:
        self.adjustSize()
        self.move(4, (self._field.height() - self.height()) // 2)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._place()
        elif event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
            if control and event.key() == Qt.Key.Key_Up and self.isVisible():
                self.click()
                return True
        return False


class Most(QObject):
    """Asks for the largest sizes of the selected shelf, one after the other, and of the depth of all together."""

    def __init__(self, section: BoundSection, fields: dict[Dimension, QLineEdit]) -> None:
        super().__init__(section)
        self._store: Store = section.subject.store
        self._slices = Slices(self)
        self._due: deque[str] = deque()
        self._asked: tuple[Project, int] | None = None
        self._found: dict[str, Largest] = {}
        self._hints = {what: MostHint(field) for what, field in fields.items()}
        for what, hint in self._hints.items():
            hint.setAccessibleName(tr("{WORDS} that fits", WORDS=WORDS[what]))
            hint.clicked.connect(partial(self._take, what))
        tip = tr("The same depth for every shelf, the largest for which all have their room.")
        (self._all,) = section.buttons(("all_deep", tr("Deepest that fits for all"), partial(self._take, ALL), tip))
        self._all.hide()
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._begin)
        self._store.changed.connect(self._edited)
        self._store.selection_changed.connect(self._edited)
        self._edited()

    @property
    def settled(self) -> bool:
        """Is everything known that is to be known?"""
        return not (self._rest.isActive() or self._slices.busy or self._due)

    def _edited(self) -> None:
        """What was asked is no longer asked."""
        now = (self._store.project, self._store.shelf_index)
        if self._asked is not None and now[0] is self._asked[0] and now[1] == self._asked[1]:
            return
        self._slices.drop()
        self._due.clear()
        self._found.clear()
        self._asked = None
        self._show()
        self._rest.start()

    def _begin(self) -> None:
        store = self._store
        if store.held is not None or not store.planner.settled:
            self._rest.start()
            return
        if store.shelf is None or len(store.project.shelves) > MOST_SHELVES:
            return
        self._asked = (store.project, store.shelf_index)
        self._due.extend([*WORDS, *([ALL] if len(store.project.shelves) > 1 else [])])
        self._next()

    def _next(self) -> None:
        if self._asked is None or not self._due:
            return
        project, index = self._asked
        what = self._due.popleft()
        self._slices.ask(partial(_work, project, what, index), partial(self._came, what))

    def _came(self, what: str, answer: object) -> None:
        if isinstance(answer, Largest):
            self._found[what] = answer
            self._show()
        self._next()

    def _show(self) -> None:
        unit = self._store.unit
        for what, hint in self._hints.items():
            answer = self._useful(what)
            if answer is None or answer.size is None:
                hint.tell("")
                continue
            size = show_length(answer.size, unit, rounding="down").removesuffix('"').removesuffix(" mm")
            tip = tr(
                "{WORDS} that fits: {text}. {limit_reason} Click, or Ctrl+Up in the field.",
                WORDS=WORDS[what],
                text=answer.text,
                limit_reason=answer.limit_reason,
            )
            hint.tell(tr("up to {size}", size=size), tip)
        together = self._useful(ALL)  # the verb keeps its place while its number is worked out
        self._all.setVisible(len(self._store.project.shelves) > 1)
        self._all.setEnabled(together is not None)
        self._all.setText(
            tr("Deepest that fits for all: {text}", text=together.text) if together else tr("Deepest that fits for all")
        )

    def _useful(self, what: str) -> Largest | None:
        """What was found, where there is a size and it is not there already."""
        answer = self._found.get(what)
        if answer is None or answer.size is None:
            return None
        try:
            changed = apply_pointers(self._store.project, answer.pointers)
        except ProjectError:
            return None
        return answer if changed != self._store.project else None

    def _take(self, what: str) -> None:
        answer, shelf = self._found.get(what), self._store.shelf
        if answer is None or shelf is None:
            return
        label = (
            tr("Deepest that fits for all")
            if what == ALL
            else tr("{WORDS} {id} that fits", WORDS=WORDS[what], id=shelf.id)
        )
        self._store.end_run()
        self._store.apply(label, lambda project: apply_pointers(project, answer.pointers))


def _work(project: Project, what: str, index: int, stop: Stop) -> Largest | None:
    if what == ALL:
        return largest(project, "depth", None, stop=stop)
    size: Dimension = "length" if what == "length" else "depth" if what == "depth" else "height"
    return largest(project, size, index, stop=stop)
