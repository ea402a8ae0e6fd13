"""The photograph with the sheet's outline on it: corners and edges are pulled by the hand, beside a magnifier."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from app.hand.grip import Handle
from app.hand.hand import Hand
from app.hand.reach import name_of
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, font
from core.language import tr

PAD: Final = 18.0  # pixels round the picture
LENS: Final = 62.0  # radius of the magnifier
LARGER: Final = 6.0  # how much it magnifies what is seen
AWAY: Final = 96.0  # from the corner to the magnifier's middle
CASING: Final = "#FAF7F1"

Line = Sequence[tuple[float, float]]


class PhotoCanvas(QWidget):
    """Places of the board are pixels of the picture, y up. `handles` and `outline` say what lies on it."""

    wanted = Signal()  # a click where there is no picture

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("photo_canvas")
        self.setAccessibleName(tr("The photograph"))
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._theme = theme
        self.words = ""
        self.handles: Callable[[], Sequence[Handle]] = lambda: ()
        self.outline: Callable[[], Sequence[Line]] = lambda: ()
        self._image = QImage()
        self._levels: tuple[QImage, ...] = ()
        self._shown: QPixmap | None = None
        self._scale, self._at = 1.0, QPointF()
        self.hand = Hand(self, store, theme, self)
        self.hand.reach.handles = lambda: self.handles()
        self.hand.keep_off = self._keep_off
        theme.changed.connect(self.update)
        store.plan_changed.connect(self.update)

    # What is shown

    @property
    def size_shown(self) -> tuple[int, int]:
        """Pixels of the picture; (0, 0) for none."""
        return self._image.width(), self._image.height()

    def show_image(self, levels: Sequence[QImage]) -> None:
        """Show a picture, given with its halvings; none for no picture."""
        self._levels = tuple(levels)
        self._image = self._levels[0] if levels else QImage()
        self.fit()

    def fit(self) -> None:
        """All of the picture."""
        self._shown = None
        if not self._image.isNull() and min(self.width(), self.height()) > 4 * PAD:
            room = QRectF(self.rect()).adjusted(PAD, PAD, -PAD, -PAD)
            self._scale = min(room.width() / self._image.width(), room.height() / self._image.height())
            wide, high = self._scale * self._image.width(), self._scale * self._image.height()
            self._at = QPointF(room.center().x() - wide / 2.0, room.center().y() - high / 2.0)
        self.update()

    # Where the hand's board lies

    def to_board(self, pixel: QPointF) -> tuple[float, float]:
        """Place of the picture at a pixel of the widget."""
        at = (pixel - self._at) / self._scale
        return (at.x(), -at.y())

    def to_pixel(self, place: tuple[float, float]) -> QPointF:
        """Pixel of the widget at a place."""
        return self._at + QPointF(place[0], -place[1]) * self._scale

    def pixel(self) -> float:
        """Pixels of the picture in one of the widget."""
        return 1.0 / self._scale

    # The hand

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self._image.isNull():
            self.wanted.emit()
        else:
            self.hand.press(event)
        self._point(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.hand.move(event)
        self._point(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.hand.release(event)
        self._point(event)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.hand.leave()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.hand.key(event):
            super().keyPressEvent(event)

    def _point(self, event: QMouseEvent) -> None:
        shape = self.hand.cursor_at(event.position())
        ground = Qt.CursorShape.PointingHandCursor if self._image.isNull() else Qt.CursorShape.ArrowCursor
        self.setCursor(ground if shape is None else shape)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    # The picture

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        palette = self._theme.palette
        painter.fillRect(self.rect(), QColor(palette.paper))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._image.isNull():
            self._paint_words(painter)
        else:
            painter.drawPixmap(self._at, self._scaled())
            self._paint_outline(painter, self._scale, self._at, 1.4)
            self.hand.paint(painter)
            self._paint_magnifier(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(palette.chalk), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_words(self, painter: QPainter) -> None:
        painter.setFont(font(BODY))
        painter.setPen(QColor(self._theme.palette.soft))
        room = QRectF(self.rect()).adjusted(24, 24, -24, -24)
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.words)

    def _scaled(self) -> QPixmap:
        """The picture at the size it is shown, made once for each size."""
        if self._shown is None:
            ratio = self.devicePixelRatioF()
            wide = max(1, round(self._image.width() * self._scale * ratio))
            high = max(1, round(self._image.height() * self._scale * ratio))
            mode = Qt.TransformationMode.SmoothTransformation
            level = next((one for one in reversed(self._levels) if one.width() >= wide), self._image)
            self._shown = QPixmap.fromImage(level.scaled(wide, high, mode=mode))
            self._shown.setDevicePixelRatio(ratio)
        return self._shown

    def _paint_outline(self, painter: QPainter, scale: float, at: QPointF, width: float) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for number, line in enumerate(self.outline()):
            run = QPolygonF([at + QPointF(x, y) * scale for x, y in line])
            wide = width + (1.2 if number == 0 else 0.0)  # the lower edge is told from the others
            for colour, pen in ((CASING, wide + 2.4), (self._theme.palette.wood_chalk, wide)):
                painter.setPen(QPen(QColor(colour), pen))
                painter.drawPolyline(run)

    # The magnifier

    def _magnified(self) -> Handle | None:
        """The handle that is held, or that keys move."""
        held = self.hand.grip
        if isinstance(held, Handle):
            return next((h for h in self.handles() if name_of(h) == name_of(held)), held)
        return self.hand.reach.find(self.hand.reach.chosen)

    def _glass(self) -> tuple[QPointF, QPointF] | None:
        """The handle's pixel and the magnifier's middle, which stays off it, towards the middle of the board."""
        handle = self._magnified()
        if handle is None or self._image.isNull():
            return None
        at = self.to_pixel(handle.at)
        middle = QRectF(self.rect()).center()
        away = QPointF(AWAY if at.x() < middle.x() else -AWAY, AWAY if at.y() < middle.y() else -AWAY)
        return at, at + away

    def _keep_off(self) -> tuple[QRectF, ...]:
        glass = self._glass()
        if glass is None:
            return ()
        return (QRectF(glass[1].x() - LENS, glass[1].y() - LENS, 2 * LENS, 2 * LENS),)

    def _paint_magnifier(self, painter: QPainter) -> None:
        handle, glass = self._magnified(), self._glass()
        if handle is None or glass is None:
            return
        middle = glass[1]
        scale = self._scale * LARGER
        round_ = QPainterPath()
        round_.addEllipse(middle, LENS, LENS)
        painter.save()
        painter.setClipPath(round_)
        painter.fillPath(round_, QColor(self._theme.palette.card))
        corner = middle - QPointF(handle.at[0], -handle.at[1]) * scale
        reach = LENS / scale
        x, y = handle.at[0], -handle.at[1]
        source = QRectF(x - reach, y - reach, 2 * reach, 2 * reach).intersected(QRectF(self._image.rect()))
        if not source.isEmpty():
            target = QRectF(corner + source.topLeft() * scale, corner + source.bottomRight() * scale)
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, scale < 4.0)
            painter.drawImage(target, self._image, source)
        self._paint_outline(painter, scale, corner, 1.0)
        painter.restore()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for colour, width in ((CASING, 4.0), (self._theme.palette.wood_chalk, 1.6)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawEllipse(middle, LENS, LENS)
            for way in (QPointF(1, 0), QPointF(0, 1)):
                for side in (-1.0, 1.0):
                    painter.drawLine(middle + way * side * 5.0, middle + way * side * 13.0)
