"""The hand on one board: press, move, release, keys and typing, the same everywhere.

A board's widget gives its mouse and key events to its `Hand` first; what the hand does not want is the board's own.
The hand asks the board what can be taken hold of, and paints the handles and the card beside the pointer over the
board's picture.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, QSizeF, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QWidget

from app.hand.drag import Drag, Readout, select_for
from app.hand.field import FIRST
from app.hand.grid import Aim
from app.hand.grip import Grip, Handle, Point
from app.hand.look import Card, Square, beside, paint_handles
from app.hand.reach import NONE, Reach, Space, name_of, pointer_shape
from app.hand.steps import nudge
from app.hand.typed import Typed
from app.store import Store
from app.theme import Theme
from core.language import tr

STILL: Final = 4.0  # pixels: a press that moves less is a click
STILL_HANDLE: Final = 2.0
SHOWN_MS: Final = 2500  # how long the card of an arrow key stays
HINT: Final = tr("drag, type, or arrow keys")
SHIFT: Final = Qt.KeyboardModifier.ShiftModifier
OTHERS: Final = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
WAYS: Final[dict[int, Point]] = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}


class Hand(QObject):
    """One board's hand. `ended` is sent when a drag is over, whichever way.

    reach.handles: what is shown now to be pulled. grip_at: what a drag from a place of the board would hold, None for
    nothing. steady: what arrow keys move while no handle is chosen. keep_off: where the card must not be; card_at:
    where it is, on a board too small to have it beside the pointer.
    """

    ended = Signal()

    def __init__(self, widget: QWidget, store: Store, theme: Theme, space: Space) -> None:
        super().__init__(widget)
        self._widget = widget
        self._store = store
        self._theme = theme
        self._space = space
        self.reach = Reach(space)
        self.grip_at: Callable[[Point], Grip | None] = lambda _place: None
        self.steady: Callable[[], Grip | None] = lambda: None
        self.keep_off: Callable[[], Sequence[QRectF]] = lambda: ()
        self.card_at: Callable[[QSizeF], QPointF] | None = None
        self.on_wood = True
        self._drag: Drag | None = None
        self._pending: Grip | None = None  # pressed, and perhaps held
        self._spent = False  # the drag is over although the button is still down
        self._pressed = self._last = self._pointer = QPointF()
        self._shown: tuple[Readout, QPointF] | None = None  # what an arrow key did
        self.typed = Typed(widget, store)
        self.typed.taken.connect(self._end)
        self.typed.put_back.connect(self._put_back)
        self.typed.changed.connect(self._place_field)
        self._wait = QTimer(self, singleShot=True, interval=SHOWN_MS)
        self._wait.timeout.connect(self._forget)
        self._here = False  # the pointer is over the widget
        store.add_hand(self._ready)
        store.state_changed.connect(self._look_alive)
        widget.installEventFilter(self)

    # What is going on

    @property
    def busy(self) -> bool:
        """Is something being dragged or typed?"""
        return self._drag is not None

    def _ready(self) -> bool:
        """Is the pointer on a handle, or something pressed?"""
        return self._pending is not None or (self._here and self.reach.at(self._pointer) is not None)

    @property
    def grip(self) -> Grip | None:
        """What is held, None for nothing."""
        return self._drag.grip if self._drag is not None else None

    @property
    def readout(self) -> Readout | None:
        """What stands beside the pointer, None for nothing."""
        if self._drag is not None:
            said = self._drag.readout()
            return Readout(said.numbers, said.caught, self.typed.trouble or said.trouble)
        if self._shown is not None:
            return self._shown[0]
        handle = self.reach.find(self.reach.over)
        if handle is None:
            return None
        number = handle.number
        return Readout(((tr(number.words), number.show(number.value, self._store.unit)),))

    def choose(self, handle: Handle | None) -> None:
        """The handle that arrow keys and digits change."""
        self.reach.chosen = name_of(handle)
        self._widget.update()

    # The mouse; each returns whether it was the hand's

    def press(self, event: QMouseEvent) -> bool:
        """The button goes down."""
        if event.button() is not Qt.MouseButton.LeftButton:
            return self.busy
        self.typed.take()
        self._forget()
        self._store.end_run()
        self._store.planner.catch_up()
        at = event.position()
        handle = self.reach.at(at)
        self._pending = handle or self.grip_at(self._space.to_board(at))
        self._here = True
        self._pressed = self._last = self._pointer = at
        self._spent = False
        self.choose(handle)
        return self._pending is not None

    def move(self, event: QMouseEvent) -> bool:
        """The pointer moves."""
        at = event.position()
        self._here = True
        if self.typed.going_on:
            return True
        self._pointer = at
        if self._drag is None and self._pending is not None and event.buttons() & Qt.MouseButton.LeftButton:
            still = STILL_HANDLE if isinstance(self._pending, Handle) else STILL
            if (at - self._pressed).manhattanLength() > still:
                self._begin(self._pending)
        if self._drag is not None:
            self._follow(event)
            return True
        if self._spent or self._pending is not None:
            return True
        if event.buttons() == Qt.MouseButton.NoButton:
            self._hover(at)
        return self.reach.over != NONE

    def _hover(self, at: QPointF) -> None:
        over = name_of(self.reach.at(at))
        if over != self.reach.over or over != NONE or self._shown:
            self._shown = None
            self.reach.over = over
            self._widget.update()

    def _follow(self, event: QMouseEvent) -> None:
        assert self._drag is not None
        here, before = self._space.to_board(event.position()), self._space.to_board(self._last)
        self._last = event.position()
        aim = Aim(self._space.pixel(), self._store.unit, bool(event.modifiers() & SHIFT))
        self._drag.move((here[0] - before[0], here[1] - before[1]), aim)
        self._widget.update()

    def release(self, event: QMouseEvent) -> bool:
        """The button goes up. False for a click that is the board's own."""
        if event.button() is not Qt.MouseButton.LeftButton:
            return self.busy
        pending, self._pending = self._pending, None
        if self._spent:
            self._spent = False
            return True
        if self._drag is not None:
            if not self.typed.going_on:
                self._end()
            return True
        if isinstance(pending, Handle) and (about := select_for(self._store, pending.about)):
            self._store.select(about)
        return isinstance(pending, Handle)

    def leave(self) -> None:
        """The pointer has left the widget."""
        self._here = False
        if self.reach.over != NONE:
            self.reach.over = NONE
            self._widget.update()

    def cursor_at(self, pixel: QPointF) -> Qt.CursorShape | None:
        """The pointer's shape, which says what a drag there does or is doing; None where it would do nothing."""
        if self._drag is not None:
            return pointer_shape(self._drag.grip, held=True)
        grip = self.reach.at(pixel) or self.grip_at(self._space.to_board(pixel))
        return pointer_shape(grip, held=self._pending is not None) if grip else None

    # Keys

    def key(self, event: QKeyEvent) -> bool:
        """A key goes down. Returns whether it was the hand's."""
        if event.key() == Qt.Key.Key_Escape:
            return self._escape()
        if event.modifiers() & OTHERS:
            return False
        if event.key() in WAYS:
            return self._step(WAYS[event.key()], bool(event.modifiers() & SHIFT))
        text = event.text()
        if text and text in FIRST:
            return self._type(text)
        handle = self.reach.by_letter(text.upper(), self._store.selected.partition("/")[0]) if text else None
        if handle is None or self.busy:
            return False
        self._forget()
        self.choose(handle)
        return True

    def _escape(self) -> bool:
        if self._drag is not None:
            self._put_back()
        elif self._pending is not None:
            self._pending, self._spent = None, True
        elif self.reach.chosen != NONE:
            self.choose(None)
        else:
            return False
        return True

    def _step(self, way: Point, fine: bool) -> bool:
        if self._drag is not None:
            self._drag.step(way, self._store.unit, fine)
            self._widget.update()
            return True
        self._store.planner.catch_up()
        grip = self.reach.find(self.reach.chosen) or self.steady()
        if grip is None:
            return False
        self._shown = (nudge(self._store, grip, way, fine), self._place_of(grip))
        self._wait.start()
        self._widget.update()
        return True

    def _place_of(self, grip: Grip) -> QPointF:
        """Where the card of what is moved by keys goes."""
        handle = self.reach.find(name_of(grip)) if isinstance(grip, Handle) else None
        if handle is not None:
            return self.reach.square(handle)
        inside = self._widget.rect().contains(self._pointer.toPoint()) and not self._pointer.isNull()
        return self._pointer if inside else QPointF(self._widget.rect().center())

    def _type(self, text: str) -> bool:
        """A digit: the value opens for typing."""
        if self._drag is None:
            self._store.planner.catch_up()
            grip = self._pending or self.reach.find(self.reach.chosen) or self.reach.find(self.reach.over)
            if grip is None:
                return False
            if isinstance(grip, Handle):
                self._pointer = self.reach.square(grip)
            self._begin(grip)
        assert self._drag is not None
        self.typed.begin(self._drag, 0, text)
        return True

    def _place_field(self) -> None:
        """The field stands in its line of the card."""
        if self.typed.going_on and (placed := self._card()) is not None:
            card, box = placed
            self.typed.move_to(card.field_box(box).topLeft())
        self._widget.update()

    def _forget(self) -> None:
        if self._shown is not None:
            self._shown = None
            self._widget.update()

    # Beginning and ending

    def _begin(self, grip: Grip) -> None:
        self._forget()
        self._last = self._pressed
        self._drag = Drag(self._store, grip)

    def _close(self) -> Drag | None:
        """Nothing is held any more; returns what was."""
        drag, self._drag = self._drag, None
        self._spent = self._pending is not None
        self._pending = None
        self.typed.shut()
        self._widget.update()
        return drag

    def _end(self) -> None:
        if (drag := self._close()) is not None:
            drag.release()
            self.ended.emit()

    def _put_back(self) -> None:
        if (drag := self._close()) is not None:
            drag.cancel()
            self.ended.emit()

    def _look_alive(self) -> None:
        """Undo, or another document, takes a drag out of the hand."""
        if self._drag is not None and not self._drag.alive:
            self._end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind == QEvent.Type.Hide and self._drag is not None:
            self._end()  # nobody would tell of the release
        elif kind == QEvent.Type.FocusOut and self._drag is None:
            self._store.end_run()
        return kind == QEvent.Type.ToolTip and (self.busy or self.reach.over != NONE)  # the card says more

    # The picture

    def paint(self, painter: QPainter) -> None:
        """Handles, and the card beside the pointer; nothing while another board's hand is dragging."""
        held = self.grip
        if held is None and self._store.held is not None:
            return
        names = {self.reach.over, self.reach.chosen}
        shown: Sequence[Handle] = ()
        if held is None:
            shown = self.reach.handles()
        elif isinstance(held, Handle):
            names = {name_of(held)}
            shown = [handle for handle in self.reach.handles() if name_of(handle) in names]
        if shown:
            squares = [Square(self.reach.square(h), name_of(h) in names, self.on_wood, h.is_still) for h in shown]
            paint_handles(painter, squares, self._theme.palette)
        if (placed := self._card()) is not None:
            placed[0].paint(painter, placed[1], self._theme.palette)

    def _card(self) -> tuple[Card, QRectF] | None:
        readout = self.readout
        if readout is None:
            return None
        card = Card(readout, "" if self.busy or self._shown else HINT, self.typed.at, self.typed.size)
        if self.card_at is not None:
            return card, QRectF(self.card_at(card.size), card.size)
        at = self._shown[1] if self._shown and not self.busy else self._pointer
        return card, beside(at, card.size, QRectF(self._widget.rect()), self.keep_off())
