"""A slider drawn as the boards are: a pencil line, and a round handle with a chalk edge."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSlider, QWidget

from app.theme import Theme

STEPS = 1000
HANDLE = 8.0  # its radius [px]
TALL = 28  # so much can be hit [px]


class Slide(QSlider):
    """From 0 to 1 as `share`; `valueChanged` is sent for hand and program alike, `sliderMoved` for the hand only."""

    def __init__(self, name: str, words: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setObjectName(name)
        self.setAccessibleName(words)
        self.setToolTip(words)
        self.setRange(0, STEPS)
        self.setSingleStep(STEPS // 50)
        self.setPageStep(STEPS // 10)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._theme = theme
        theme.changed.connect(self.update)

    @property
    def share(self) -> float:
        """Where it stands, 0..1."""
        return self.value() / STEPS

    def set_share(self, share: float) -> None:
        """Stand there, without telling anybody."""
        value = round(share * STEPS)
        if value != self.value():
            self.blockSignals(True)
            self.setValue(value)
            self.blockSignals(False)
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(150, TALL)

    def minimumSizeHint(self) -> QSize:
        return QSize(64, TALL)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self.setSliderDown(True)
            self._follow(event.position().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self.isSliderDown():
            self._follow(event.position().x())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.setSliderDown(False)
        self.update()

    def _follow(self, x: float) -> None:
        left, right = self._ends()
        self.setValue(round(STEPS * min(1.0, max(0.0, (x - left) / max(1.0, right - left)))))

    def _ends(self) -> tuple[float, float]:
        return HANDLE + 3.0, self.width() - HANDLE - 3.0

    def paintEvent(self, event: QPaintEvent) -> None:
        palette = self._theme.palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        left, right = self._ends()
        middle = self.height() / 2.0
        at = left + (right - left) * self.share
        for colour, end in ((palette.hairline, right), (palette.chalk if self.isEnabled() else palette.soft, at)):
            painter.setPen(QPen(QColor(colour), 3.0, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            painter.drawLine(QPointF(left, middle), QPointF(end, middle))
        painter.setPen(QPen(QColor(palette.chalk if self.isEnabled() else palette.soft), 2.0))
        painter.setBrush(QColor(palette.card))
        painter.drawEllipse(QPointF(at, middle), HANDLE, HANDLE)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(palette.chalk), 1.4))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 5.0, 5.0)
        painter.end()
