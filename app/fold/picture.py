"""The fold board's picture, with the hand on it: orbit, zoom, named sides, folding, picking."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent, QPainter, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.fold.mover import Mover, Turn
from app.fold.pane import FoldPane
from app.fold.pose import SIDES, Side
from app.fold.sizes import Sizes
from app.store import Store
from app.theme import Theme

CLICK_PX = 4.0  # a press that moves less is a click
ORBIT_DEG = 0.35  # for a pixel
KEY_DEG = 7.5  # for an arrow key
ZOOM_STEP = 1.2  # for a notch of the wheel or a key
SIDE_KEYS = {getattr(Qt.Key, f"Key_{side.key}"): side for side in SIDES}
ORBIT_KEYS = {
    Qt.Key.Key_Left: (KEY_DEG, 0.0),
    Qt.Key.Key_Right: (-KEY_DEG, 0.0),
    Qt.Key.Key_Up: (0.0, KEY_DEG),
    Qt.Key.Key_Down: (0.0, -KEY_DEG),
}
ZOOM_KEYS = {Qt.Key.Key_Plus: ZOOM_STEP, Qt.Key.Key_Equal: ZOOM_STEP, Qt.Key.Key_Minus: 1.0 / ZOOM_STEP}


class FoldPicture(FoldPane):
    """`picked` carries the id of what was clicked, '' for bare ground. Sizes are pulled by `sizes.hand`; a drag from
    anywhere else turns what is seen. `menu_asked`: the id of what a menu is wanted for, where on the screen, None.
    The other button moves the picture where it is dragged, so its menu waits until it is let go.
    """

    picked = Signal(str)
    menu_asked = Signal(str, QPoint, object)

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(store, theme, parent)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._pressed: QPointF | None = None
        self._on_handle: QPointF | None = None  # where one was pressed and not dragged yet
        self._is_dragging = False
        self._mover, self._folder = Mover(self), Mover(self)
        self._turn = Turn(self, self._turn_by)
        self.sizes = Sizes(self)
        self.hand = self.sizes.hand
        self.lost.connect(self.touch)

    def _take_stage(self) -> None:
        super()._take_stage()
        self._turn.begin()

    def refresh(self) -> None:
        self.sizes.keep_still()
        super().refresh()

    # Where the hand's board lies: it is the picture itself, in pixels, y up

    def to_board(self, pixel: QPointF) -> tuple[float, float]:
        """The hand's place at a pixel."""
        return (pixel.x(), -pixel.y())

    def to_pixel(self, place: tuple[float, float]) -> QPointF:
        """The pixel of a place."""
        return QPointF(place[0], -place[1])

    def pixel(self) -> float:
        """A pixel is a pixel."""
        return 1.0

    def _is_in_hand(self) -> bool:
        return self.sizes.is_in_hand

    def _hint(self) -> str:
        return self.sizes.words

    def _note(self) -> str:
        return self.sizes.note

    def _paint_hand(self, painter: QPainter) -> None:
        self.sizes.paint(painter)

    # Motion

    @property
    def is_turning(self) -> bool:
        """Is it still turning by itself?"""
        return self._turn.is_running

    def touch(self) -> None:
        """A hand has touched the board: nothing moves by itself any more."""
        self.hover = ""
        self._turn.end()
        self._mover.halt()
        self._folder.halt()

    def fold_to(self, fold: float) -> None:
        """Fold or unfold, as a motion."""
        start = self.pose.fold
        self.touch()
        self._folder.go(lambda share: self.set_pose(self.pose._replace(fold=start + share * (fold - start))))

    def look_from(self, side: Side | None) -> None:
        """Look from a named side, or from where the board starts (None)."""
        self.touch()
        stage = self.stage
        if stage is None:
            return
        start = stage.eye.camera
        aim, fit = stage.eye.side(side, stage.scene.points, stage.size)

        def step(share: float) -> None:
            stage.eye.on_the_way(start, aim, fit, share)
            stage.redraw()

        self._mover.go(step)

    def _turn_by(self, degrees: float) -> None:
        if self.isVisible():
            self._orbit(degrees, 0.0)

    def _orbit(self, right: float, up: float) -> None:
        if self.stage is not None:
            self.stage.eye.orbit(right, up)
            self.stage.redraw()

    def _zoom(self, factor: float, at: QPointF) -> None:
        self.touch()
        if self.stage is not None:
            self.stage.eye.zoom(factor, (at.x(), at.y()), self.stage.size, self.stage.far(at.x(), at.y()))
            self.stage.redraw()

    # The hand

    def mousePressEvent(self, event: QMouseEvent) -> None:
        is_held = self.hand.press(event)
        self.touch()
        self._pressed, self._on_handle = (None, event.position()) if is_held else (event.position(), None)
        self._is_dragging = False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.pointer = event.position()
        if self._pressed is None and self.hand.move(event):
            if self.hand.busy:
                self._on_handle = None
            self._point_at(self.hover)
            return
        if self._pressed is None or not event.buttons():
            self._point_at(self.thing_at(self.pointer))
            return
        moved = self.pointer - self._pressed
        if self._is_dragging or moved.manhattanLength() > CLICK_PX:
            self._is_dragging = True
            self._pressed = self.pointer
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self._drag(moved, event)

    def _drag(self, moved: QPointF, event: QMouseEvent) -> None:
        """The left button orbits; another, or Shift with it, moves the picture."""
        is_shifted = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if event.buttons() & Qt.MouseButton.LeftButton and not is_shifted:
            self._orbit(-ORBIT_DEG * moved.x(), ORBIT_DEG * moved.y())
        elif self.stage is not None:
            self.stage.eye.pan(moved.x(), moved.y(), self.stage.size)
            self.stage.redraw()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        is_click = self._pressed is not None and not self._is_dragging
        self._pressed, self._is_dragging = None, False
        if self.hand.release(event):
            is_click = self._on_handle is not None  # it chooses the handle, and the panel it lies on
            self._on_handle = None
        about = self.thing_at(event.position())
        if is_click and event.button() is Qt.MouseButton.LeftButton:
            self.picked.emit(about)
        elif is_click and event.button() is Qt.MouseButton.RightButton:
            self.menu_asked.emit(about, event.globalPosition().toPoint(), None)
        self._point_at(about)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            self.menu_asked.emit(self.store.selected, self.mapToGlobal(self.rect().center()), None)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if self.hand.reach.at(event.position()) is None and not self.thing_at(event.position()):
            self.look_from(None)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if turned := event.angleDelta().y():
            self._zoom(ZOOM_STEP ** (turned / 120.0), event.position())
        event.accept()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.hand.leave()
        self._point_at("")

    def _point_at(self, about: str) -> None:
        if about or about != self.hover:
            self.update()  # its reading goes with the pointer
        self.hover = about
        shape = self.hand.cursor_at(self.pointer)
        if shape is None:
            shape = Qt.CursorShape.PointingHandCursor if about else Qt.CursorShape.ArrowCursor
        if shape != self.cursor().shape():
            self.setCursor(shape)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.hand.key(event):
            return
        key = Qt.Key(event.key())
        plain = Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier
        if event.modifiers() & ~plain or not self._obey(key):
            super().keyPressEvent(event)

    def _obey(self, key: Qt.Key) -> bool:
        """Do what a key says; whether it says anything."""
        if key in SIDE_KEYS:
            self.look_from(SIDE_KEYS[key])
        elif key in (Qt.Key.Key_0, Qt.Key.Key_Home):
            self.look_from(None)
        elif key in ZOOM_KEYS:
            self._zoom(ZOOM_KEYS[key], QPointF(self.width() / 2.0, self.height() / 2.0))
        elif key == Qt.Key.Key_Space:
            self.fold_to(0.0 if self.pose.fold > 0.5 else 1.0)
        elif key in ORBIT_KEYS:
            self.touch()
            self._orbit(*ORBIT_KEYS[key])
        else:
            return False
        return True
