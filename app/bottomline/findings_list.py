"""All findings, right above the bottom line."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.bottomline.pill import pill
from app.bottomline.sentence import Sentence
from app.theme import Theme
from app.theme.marks import Mark
from app.theme.type import BODY, font
from core.plan.model import Finding

MOST_FIXES = 3  # beside a finding
MOST_HEIGHT = 280  # pixels
ROW_HEIGHT = 36
PLACE_WIDTH = 92
MOST_ROWS = 40  # more than anybody reads at once


Said = Sequence[tuple[Finding, str]]  # each with what it is about, in words


class FindingRow(QWidget):
    """One finding: its mark, what it is about, its words, its ways out."""

    def __init__(self, at: int, finding: Finding, place: str, owner: FindingsList) -> None:
        super().__init__()
        self.setFixedHeight(ROW_HEIGHT)
        row = QHBoxLayout(self)
        row.setContentsMargins(20, 0, 14, 0)
        row.setSpacing(8)
        row.addWidget(Mark(owner.theme, finding.severity, 16, self))
        where = QLabel(place, self)
        where.setProperty("role", "strong")
        where.setFixedWidth(PLACE_WIDTH)
        row.addWidget(where)
        words = Sentence(f"finding_{at}", font(BODY), owner.theme, self)
        words.set_text(finding.message, leads=bool(finding.about))
        words.clicked.connect(partial(owner.about_asked.emit, finding.about))
        row.addWidget(words, 1)
        for number, fix in enumerate(finding.fixes[:MOST_FIXES]):
            row.addWidget(pill(f"finding_{at}_fix_{number}", fix.text, partial(owner.fix_asked.emit, fix), self))


class FindingsList(QWidget):
    """`fix_asked` carries a Fix, `about_asked` the id of what a finding is about."""

    fix_asked = Signal(object)
    about_asked = Signal(str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("findings_list")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.theme = theme
        self._said: Said = ()
        self._built: Said | None = None
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

    def setVisible(self, visible: bool) -> None:
        if visible:
            self._build()
        super().setVisible(visible)

    def _build(self) -> None:
        if self._said == self._built:
            return
        self._built = self._said
        while (item := self._rows.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        for at, (finding, place) in enumerate(self._said[:MOST_ROWS]):
            self._rows.addWidget(FindingRow(at, finding, place, self))
        if len(self._said) > MOST_ROWS:
            rest = QLabel(f"and {len(self._said) - MOST_ROWS} more, once these are dealt with")
            rest.setContentsMargins(20, 6, 0, 6)
            self._rows.addWidget(rest)
        self._rows.addStretch(1)
        self.setFixedHeight(min(MOST_HEIGHT, 14 + ROW_HEIGHT * max(1, len(self._said))))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self.theme.palette.hairline), 1))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()
