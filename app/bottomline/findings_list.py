"""All findings, right above the bottom line."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QColor, QContextMenuEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app.bottomline.flow import Flow
from app.bottomline.pill import pill
from app.bottomline.sentence import Sentence
from app.theme import Theme
from app.theme.marks import Mark
from app.theme.type import BODY, font
from core.language import tr
from core.plan.model import Finding, Fix

MOST_FIXES = 3  # beside a finding; more stand below it
MOST_HEIGHT = 280  # pixels
ROW_HEIGHT = 36
PLACE_WIDTH = 92
BELOW = 20 + 16 + 8 + PLACE_WIDTH + 8  # pixels: where the words begin, and the ways out below them
AROUND = 3  # pixels over and under words of several lines
MOST_ROWS = 40  # more than anybody reads at once


Said = Sequence[tuple[Finding, str]]  # each with what it is about, in words


class FindingRow(QWidget):
    """One finding: its mark, what it is about, its words, its ways out: beside it where they are few, else below."""

    def __init__(self, at: int, finding: Finding, place: str, owner: FindingsList) -> None:
        super().__init__(owner)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        row = QHBoxLayout()
        row.setContentsMargins(20, 0, 14, 0)
        row.setSpacing(8)
        column.addLayout(row)
        row.addWidget(Mark(owner.theme, finding.severity, 16, self))
        where = QLabel(place, self)
        where.setProperty("role", "strong")
        where.setFixedSize(PLACE_WIDTH, ROW_HEIGHT)
        row.addWidget(where)
        words = Sentence(f"finding_{at}", font(BODY), owner.theme, self)
        words.set_text(finding.message, leads=bool(finding.about))
        words.clicked.connect(partial(owner.about_asked.emit, finding.about))
        row.addWidget(words, 1)
        pills = [self._pill(f"finding_{at}_fix_{n}", fix, owner) for n, fix in enumerate(finding.fixes)]
        room = owner.room()
        if len(pills) <= MOST_FIXES:
            for made in pills:
                row.addWidget(made)
                room -= made.sizeHint().width() + 8
        words.setMinimumHeight(words.tall(room))  # never cut: a warning may stand at its end
        height = max(ROW_HEIGHT, words.tall(room) + AROUND)
        if len(pills) > MOST_FIXES:
            flow = Flow(pills, owner.room(), self)
            below = QHBoxLayout()
            below.setContentsMargins(BELOW, 0, 14, 0)
            below.addWidget(flow)
            column.addLayout(below)
            height += flow.height()
        self.setFixedHeight(height)
        self._told, self._owner = (finding, place), owner

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self._owner.menu_asked.emit(*self._told, event.globalPos())

    def _pill(self, name: str, fix: Fix, owner: FindingsList) -> QPushButton:
        return pill(name, fix.text, partial(owner.fix_asked.emit, fix), self, partial(owner.look_at, fix))


class FindingsList(QWidget):
    """`fix_asked` carries a Fix, `about_asked` the id of what a finding is about.

    `fix_looked` carries the Fix that is looked at, None when that is over. `menu_asked`: a finding, what it is about in
    words, and where on the screen a menu for it is wanted.
    """

    fix_asked = Signal(object)
    fix_looked = Signal(object)
    about_asked = Signal(str)
    menu_asked = Signal(object, str, QPoint)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("findings_list")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.theme = theme
        self._said: Said = ()
        self._built: tuple[Said, int] | None = None
        body = QWidget()
        body.setObjectName("findings_body")
        body.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._rows = QVBoxLayout(body)
        self._rows.setContentsMargins(0, 6, 0, 6)
        self._rows.setSpacing(0)
        scroll = QScrollArea(self)
        scroll.setObjectName("findings_scroll")
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(body)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 1, 0, 0)
        outer.addWidget(scroll)
        self.hide()

    def show_findings(self, said: Said) -> None:
        """These, worst first; built only while the list is open."""
        self._said = said
        if self.isVisible():
            self._build()

    def look_at(self, fix: Fix, looks: bool) -> None:
        """Somebody looks at a way out, or no more."""
        self.fix_looked.emit(fix if looks else None)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self.isHidden():
            self._build()  # what is below its finding wraps anew

    def room(self) -> int:
        """Width for ways out below their finding: the list is as wide as what it stands in. [pixels]"""
        parent = self.parentWidget()
        return (parent.width() if parent else self.width()) - BELOW - 30

    def setVisible(self, visible: bool) -> None:
        if visible:
            self._build()
        super().setVisible(visible)

    def _build(self) -> None:
        if (self._said, self.room()) == self._built:
            return
        self._built = self._said, self.room()
        while (item := self._rows.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        height = 14
        for at, (finding, place) in enumerate(self._said[:MOST_ROWS]):
            made = FindingRow(at, finding, place, self)
            height += made.height()
            self._rows.addWidget(made)
        if len(self._said) > MOST_ROWS:
            rest = QLabel(tr("and {said} more, once these are dealt with", said=len(self._said) - MOST_ROWS))
            rest.setContentsMargins(20, 6, 0, 6)
            self._rows.addWidget(rest)
        self._rows.addStretch(1)
        self.setFixedHeight(min(MOST_HEIGHT, max(height, 14 + ROW_HEIGHT)))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self.theme.palette.hairline), 1))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()
