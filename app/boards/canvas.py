"""Shows one drawing, painted as one thing: pan by dragging, zoom at the pointer, fit, pick and hover by place."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QCursor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.boards.pieces import PiecePainter
from app.hand.hand import Hand
from app.paint.wood import WoodFace
from app.store import Store
from app.theme import Theme
from core.drawing.fit import View, fit
from core.drawing.model import Area, Drawing, Layer, Line
from core.language import tr

Box = tuple[float, float, float, float]  # x0, y0, x1, y1 [mm]
ZOOM_STEP = 1.2  # for a notch of the wheel or a key
LEAST_OF_FIT, MOST_SCALE = 0.5, 40.0  # zoom: half of what fits; 40 pixels for a mm
STILL = 4.0  # pixels: a press that moves less is a click
SEAM_REACH = 4.0  # pixels: how near counts as on a seam
PAN_STEP = 40.0  # pixels for an arrow key
PANS = {
    Qt.Key.Key_Left: (PAN_STEP, 0.0),
    Qt.Key.Key_Right: (-PAN_STEP, 0.0),
    Qt.Key.Key_Up: (0.0, PAN_STEP),
    Qt.Key.Key_Down: (0.0, -PAN_STEP),
}


def plain(drawing: Drawing, layers: frozenset[Layer] | None = None) -> Drawing:
    """Areas and lines alone, of these layers or of all: a small picture has no room for words and numbers."""
    items = tuple(
        item for item in drawing.items if isinstance(item, Area | Line) and (layers is None or item.layer in layers)
    )
    return Drawing(drawing.name, drawing.title, drawing.box, items)


class Canvas(QWidget):
    """A drawing on a plain widget. What is drawn is pulled by `hand`; bare ground is moved about, and so is everything
    with the middle button or the space bar.

    `picked` carries the id of what was clicked, '' for bare ground. `menu_asked` carries that of what a menu is wanted
    for, where on the screen, and the place on the drawing (None by the keyboard: it is for what is selected). `finder`
    says what lies at a place of the drawing (x, y, reach, all mm), `lines` where a thing lies that has no area of its
    own, as a seam has none.
    """

    picked = Signal(str)
    menu_asked = Signal(str, QPoint, object)
    resized = Signal()

    def __init__(self, name: str, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._store, self._theme = store, theme
        self.hand = Hand(self, store, theme, self)
        self.hand.ended.connect(self.settle)
        self._drawing: Drawing | None = None
        self._view: View | None = None
        self._fitted = True
        self._pressed: QPointF | None = None
        self._panning = False
        self._space = False  # is the space bar down?
        self._hover = ""
        self.finder: Callable[[float, float, float], str] | None = None
        self.lines: Callable[[str], tuple[Box, ...]] | None = None
        self._chosen = ""
        self._free: tuple[tuple[float, float], ...] = ()
        self.pad = 10.0
        self.most_scale: float | None = None
        self.over: Callable[[QPainter], None] | None = None  # painted last, for a title in a small picture
        self._painter = PiecePainter(theme.palette.name)
        self.setAccessibleDescription(tr("Arrow keys move the drawing, plus and minus enlarge it, 0 shows all of it."))
        self.setMouseTracking(True)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        theme.changed.connect(self._restyle)

    def _restyle(self) -> None:
        self._painter.dress(self._theme.palette.name)
        self.update()

    def lay(self, face: WoodFace | None) -> None:
        """Fill the wood with a face, or with plain wood."""
        self._painter.lay(face)
        self.update()

    # What is shown

    def use_painter(self, painter: PiecePainter) -> None:
        """Paint with this from now on."""
        self._painter = painter

    @property
    def drawing(self) -> Drawing | None:
        """What is shown."""
        return self._drawing

    @property
    def view(self) -> View | None:
        """Where the drawing's millimetres lie on the widget; None while there is no drawing."""
        return self._view

    def show_drawing(self, drawing: Drawing | None) -> None:
        """Show this; another thing, or one of another size, is fitted, the same one stays where it is."""
        old, self._drawing = self._drawing, drawing
        if drawing is None:
            self._view = None
        elif old is None or self._view is None or old.name != drawing.name:
            self.fit()
        elif self._fitted and old.box != drawing.box:
            self.settle()
        self.update()

    def settle(self) -> None:
        """Show all of it again; under a dragging hand nothing may move but what is dragged."""
        if self._fitted and not self.hand.busy:
            self.fit()

    def mark(self, chosen: str) -> None:
        """Mark the thing with this id as selected."""
        if chosen != self._chosen:
            self._chosen = chosen
            self.update()

    def keep_free(self, strips: tuple[tuple[float, float], ...]) -> None:
        """Fit beside what lies over the drawing: each strip is (pixels at the right, pixels below), one is enough."""
        if strips != self._free:
            self._free = strips
            if self._fitted:
                self.fit()

    def fit(self) -> None:
        """Show all of the drawing."""
        drawing = self._drawing
        if drawing is None or self.width() < 20 or self.height() < 20:
            return
        ratio, most = self.devicePixelRatioF(), self.most_scale
        views = [
            fit(drawing, self.width() - right, self.height() - below, pad=self.pad, ratio=ratio, most=most)
            for right, below in self._free or ((0.0, 0.0),)
        ]
        self._view = max(views, key=lambda view: view.scale)
        self._fitted = True
        self.update()

    def zoom(self, factor: float, at: QPointF) -> None:
        """Larger or smaller; the place under `at` stays there."""
        if self._view is None or self._drawing is None:
            return
        x0, y0, x1, y1 = self._drawing.box
        least = LEAST_OF_FIT * min(self.width() / (x1 - x0), self.height() / (y1 - y0))
        scale = min(max(self._view.scale * factor, least), MOST_SCALE)
        u, v = self._view.to_drawing((at.x(), at.y()))
        self._view = msgspec.structs.replace(self._view, scale=scale, x=at.x() - scale * u, y=at.y() + scale * v)
        self._fitted = False
        self.update()

    def pan(self, dx: float, dy: float) -> None:
        """Move the drawing by pixels."""
        if self._view is not None:
            self._view = msgspec.structs.replace(self._view, x=self._view.x + dx, y=self._view.y + dy)
            self._fitted = False
            self.update()

    # Where things are

    def to_board(self, pixel: QPointF) -> tuple[float, float]:
        """Place of the drawing at a pixel. [mm]"""
        return self._view.to_drawing((pixel.x(), pixel.y())) if self._view is not None else (0.0, 0.0)

    def to_pixel(self, place: tuple[float, float]) -> QPointF:
        """Pixel of a place of the drawing."""
        return QPointF(*self._view.to_surface(place)) if self._view is not None else QPointF()

    def pixel(self) -> float:
        """Millimetres of the drawing in a pixel."""
        return 1.0 / self._view.scale if self._view is not None else 1.0

    @property
    def hover(self) -> str:
        """Id of what the pointer is over, '' for bare ground."""
        return self._hover

    def about_at(self, at: QPointF) -> str:
        """Id of what lies at a pixel, '' for bare ground."""
        if self._view is None or self.finder is None:
            return ""
        x, y = self.to_board(at)
        return self.finder(x, y, SEAM_REACH * self.pixel())

    # The hand

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._pressed, self._panning = None, False
        pans = self._space or event.button() is Qt.MouseButton.MiddleButton
        held = not pans and self.hand.press(event)
        if event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._pressed = event.position()
            self._panning = pans and not held
        self._point_at(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if not self._panning and self.hand.move(event):
            self._point_at(at)
            return
        if self._pressed is not None and event.buttons():
            moved = at - self._pressed
            if self._panning or moved.manhattanLength() > STILL:
                self._panning = True
                self.setCursor(Qt.CursorShape.ClosedHandCursor)
                self.pan(moved.x(), moved.y())
                self._pressed = at
            return
        about = self.about_at(at)
        if about != self._hover:
            self._hover = about
            self.update()
        self._point_at(at)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        clicked = self._pressed is not None and not self._panning
        self._pressed, self._panning = None, False
        if self.hand.release(event):
            clicked = False
        self._hover = self.about_at(event.position())
        if clicked and event.button() is Qt.MouseButton.LeftButton:
            self.picked.emit(self._hover)
        self._point_at(event.position())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.fit()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.hand.busy or self._panning:
            return
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            at = self._chosen_at().toPoint()
            self.menu_asked.emit(self._chosen, self.mapToGlobal(at), None)
        else:
            at = event.pos()
            self.menu_asked.emit(self.about_at(QPointF(at)), event.globalPos(), self.to_board(QPointF(at)))

    def _chosen_at(self) -> QPointF:
        """Where the selected thing is seen; the middle where it is not."""
        boxes = self.lines(self._chosen) if self.lines is not None and self._chosen else ()
        corners = [corner for x0, y0, x1, y1 in boxes for corner in ((x0, y0), (x1, y1))]
        for item in self._drawing.items if self._drawing is not None and self._chosen else ():
            if isinstance(item, Area) and (item.about == self._chosen or item.about.startswith(f"{self._chosen}/")):
                corners += item.points
        seen = [at for at in map(self.to_pixel, corners) if self.rect().contains(at.toPoint())]
        return sum(seen, QPointF()) / len(seen) if seen else QRectF(self.rect()).center()

    def _point_at(self, at: QPointF) -> None:
        """The pointer's shape says what a drag does here."""
        if self._space or self._panning:
            shape = Qt.CursorShape.ClosedHandCursor if self._panning else Qt.CursorShape.OpenHandCursor
        else:
            found = self.hand.cursor_at(at)
            ground = Qt.CursorShape.PointingHandCursor if self._hover else Qt.CursorShape.ArrowCursor
            shape = ground if found is None else found
        if shape != self.cursor().shape():
            self.setCursor(shape)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.hand.leave()
        if self._hover:
            self._hover = ""
            self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if turned := event.angleDelta().y():
            self.zoom(ZOOM_STEP ** (turned / 120.0), event.position())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if self.hand.key(event):
            return
        if key == Qt.Key.Key_Space:
            self._hold_space(True)
        elif key in PANS:
            self.pan(*PANS[key])
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom(ZOOM_STEP, QRectF(self.rect()).center())
        elif key == Qt.Key.Key_Minus:
            self.zoom(1.0 / ZOOM_STEP, QRectF(self.rect()).center())
        elif key in (Qt.Key.Key_0, Qt.Key.Key_Home, Qt.Key.Key_F):
            self.fit()
        else:
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._hold_space(False)
            return
        super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._hold_space(False)

    def _hold_space(self, down: bool) -> None:
        if down != self._space:
            self._space = down
            self._point_at(QPointF(self.mapFromGlobal(QCursor.pos())))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()
        if self._fitted or self._view is None:
            self.fit()

    # The picture

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self._theme.palette.paper))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._drawing is not None and self._view is not None:
            chosen = (self._chosen,) if self._chosen else ()
            self._painter.is_held = self._store.held is not None
            hover = "" if self.hand.busy else self._hover
            self._painter.paint(painter, self._drawing, self._view, chosen, hover)
            for about, width in ((hover, 1.2), (self._chosen, 2.0)):
                if about and self.lines is not None:
                    self._outline(painter, self.lines(about), width)
        if self.over is not None:
            self.over(painter)
        self.hand.paint(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(self._theme.palette.chalk), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _outline(self, painter: QPainter, boxes: tuple[Box, ...], width: float) -> None:
        """Chalk lines round the boxes, with a casing that parts them from the wood."""
        if self._view is None:
            return
        painter.setBrush(Qt.BrushStyle.NoBrush)
        palette = self._theme.palette
        for colour, wide in (("#FAF7F1", width + 2.4), (palette.wood_chalk, width)):
            painter.setPen(
                QPen(QColor(colour), wide, Qt.PenStyle.SolidLine, Qt.PenCapStyle.SquareCap, Qt.PenJoinStyle.MiterJoin)
            )
            for x0, y0, x1, y1 in boxes:
                left, top = self._view.to_surface((x0, y1))
                right, low = self._view.to_surface((x1, y0))
                painter.drawRect(QRectF(QPointF(left, top), QPointF(right, low)))
