"""A section of the rule: a heading that folds it up, and rows of label, control and the reason why not."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.rule.fields import EntryField
from app.theme import Theme
from app.theme.marks import Mark
from app.theme.type import BODY, SMALL, font

LABEL_WIDTH = 100
CONTROL_WIDTH = 142


class Heading(QAbstractButton):
    """The section's name over a hairline; folded up it sums the section up beside the name."""

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._theme = theme
        self._summary = ""
        self.setCheckable(True)
        self.setChecked(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFixedHeight(28)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        theme.changed.connect(self.update)

    def set_words(self, title: str, summary: str) -> None:
        """Name and summary."""
        if title != self.text():
            self.setText(title)
        if summary != self._summary:
            self._summary = summary
            self.setAccessibleDescription(summary)
            if not self.isChecked():
                self.update()

    def sizeHint(self) -> QSize:
        return QSize(200, 28)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        palette = self._theme.palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect())
        if self.hasFocus():
            painter.setPen(QPen(QColor(palette.chalk), 2))
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -2), 4, 4)
        painter.setPen(QPen(QColor(palette.soft), 1.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        at = QPointF(9, box.center().y())
        arrow = ((-3, -2), (0, 2), (3, -2)) if self.isChecked() else ((-2, -3), (2, 0), (-2, 3))
        painter.drawPolyline(QPolygonF([at + QPointF(x, y) for x, y in arrow]))
        painter.setFont(font(BODY, strong=True))
        painter.setPen(QColor(palette.ink))
        title = box.adjusted(20, 0, -4, -1)
        painter.drawText(title, Qt.AlignmentFlag.AlignVCenter, self.text())
        if not self.isChecked() and self._summary:
            used = QFontMetrics(painter.font()).horizontalAdvance(self.text()) + 12
            small = font(SMALL)
            rest = title.adjusted(used, 0, 0, 0)
            painter.setFont(small)
            painter.setPen(QColor(palette.soft))
            words = QFontMetrics(small).elidedText(self._summary, Qt.TextElideMode.ElideRight, int(rest.width()))
            painter.drawText(rest, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, words)
        if not self.hasFocus():
            painter.setPen(QPen(QColor(palette.hairline), 1))
            painter.drawLine(box.bottomLeft() + QPointF(0, -0.5), box.bottomRight() + QPointF(0, -0.5))
        painter.end()


class Row(QWidget):
    """Label and control; below them the reason why what was typed cannot be used."""

    def __init__(
        self, label: str, control: QWidget, theme: Theme, tip: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.control = control
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(4)
        grid.setVerticalSpacing(3)
        self._words = words = QLabel(label, self)
        words.setProperty("role", "soft")
        words.setBuddy(control)
        words.setFixedWidth(LABEL_WIDTH)
        control.setMinimumWidth(CONTROL_WIDTH)
        for widget in (words, control):
            widget.setToolTip(tip)
        grid.addWidget(words, 0, 0)
        grid.addWidget(control, 0, 1)
        grid.setColumnStretch(1, 1)
        self._grid = grid
        self._theme = theme
        self._note: QWidget | None = None
        self._reason: QLabel | None = None
        if isinstance(control, EntryField):
            control.setAccessibleName(label)
            control.refused.connect(self.show_reason)

    def set_label(self, label: str) -> None:
        """Call what stands in it something else."""
        if label != self._words.text():
            self._words.setText(label)
            self.control.setAccessibleName(label)

    def show_reason(self, reason: str) -> None:
        """Say why not; '' says nothing."""
        if self._note is None or self._reason is None:
            if not reason:
                return
            self._note, self._reason = self._make_note()
        self._reason.setText(reason)
        self._note.setVisible(bool(reason))

    def _make_note(self) -> tuple[QWidget, QLabel]:
        note = QWidget(self)
        row = QHBoxLayout(note)
        row.setContentsMargins(0, 0, 0, 4)
        row.setSpacing(6)
        reason = QLabel(note)
        reason.setObjectName(f"{self.control.objectName()}_reason")
        reason.setProperty("role", "reason")
        reason.setWordWrap(True)
        row.addWidget(Mark(self._theme, "error", 14, note), 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(reason, 1)
        self._grid.addWidget(note, 1, 0, 1, 2)
        return note, reason


class Section(QWidget):
    """A heading and what it folds up. `folded` is sent when it is opened or shut by hand."""

    folded = Signal()

    def __init__(self, key: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = key
        self.setObjectName(f"section_{key}")
        self.theme = theme
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(7)
        self.heading = Heading(f"heading_{key}", theme, self)
        self.body = QWidget(self)
        self.rows = QVBoxLayout(self.body)
        self.rows.setContentsMargins(0, 0, 0, 6)
        self.rows.setSpacing(5)
        outer.addWidget(self.heading)
        outer.addWidget(self.body)
        self.heading.toggled.connect(self._toggled)

    @property
    def open(self) -> bool:
        """Is it open?"""
        return self.heading.isChecked()

    def set_open(self, is_open: bool) -> None:
        """Open or shut it."""
        self.heading.setChecked(is_open)

    def _toggled(self, is_open: bool) -> None:
        self.body.setVisible(is_open)
        self.folded.emit()

    def add(self, label: str, control: QWidget, tip: str = "") -> Row:
        """A row at the end."""
        row = Row(label, control, self.theme, tip, self.body)
        self.rows.addWidget(row)
        return row

    def refresh(self) -> None:
        """Show the document."""
