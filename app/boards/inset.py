"""The section of one seam at true scale: a card beside the sheet, and a board that takes the sheet's place."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QEnterEvent,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.boards.board import Board
from app.boards.canvas import Canvas, plain
from app.hand.grip import Handle
from app.hand.hand import Hand
from app.hand.section import section_handles
from app.paint.painter import DrawingPainter
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, SMALL, font
from core.drawing.fit import View, fit
from core.drawing.model import Drawing
from core.drawing.names import letter
from core.drawing.section import draw_seam
from core.language import tr
from core.lengths import Unit, show_thickness
from core.plan.model import Plan, Seam

WANTED = "top-front"


def seam_shown(store: Store) -> Seam | None:
    """The selected seam; else the selected shelf's top–front, or its first; None without a shelf."""
    shelf = store.shelf
    seams = {seam.id: seam for seam in store.plan.seams if shelf is not None and seam.shelf == shelf.id}
    if store.selected in seams:
        return seams[store.selected]
    wanted = seams.get(f"{shelf.id}/{WANTED}") if shelf else None
    return wanted or next(iter(seams.values()), None)


def seam_title(plan: Plan, seam: Seam) -> str:
    """Like 'Shelf A, seam B–B, top to front'."""
    first, second = (panel.partition("/")[2] for panel in seam.between)
    at = next((i for i, shelf in enumerate(plan.project.shelves) if shelf.id == seam.shelf), 0)
    return tr(
        "Shelf {letter}, seam {letter2}–{letter2}, {first} to {second}",
        letter=letter(at),
        letter2=seam.letter,
        first=first,
        second=second,
    )


def seam_caption(seam: Seam, unit: Unit) -> str:
    """What is lost and what stays open, in a line."""
    turned = tr("the figure is broken here") if seam.broken else tr("the grain turns here")
    said = [
        tr("lost {show_loss}", show_loss=show_thickness(seam.show_loss, unit)) if seam.show_loss is not None else turned
    ]
    if seam.outside_gap > 0.0:
        said.append(tr("open outside {outside_gap}", outside_gap=show_thickness(seam.outside_gap, unit)))
    elif seam.inside_gap > 0.0:
        said.append(tr("open inside {inside_gap}", inside_gap=show_thickness(seam.inside_gap, unit)))
    else:
        said.append(tr("closes flush"))
    return ", ".join(said)


class SeamInset(QAbstractButton):
    """The section as a card, pulled by hand like the large one; `open_asked` asks for that in the board's place.

    `menu_asked` carries where on the screen a menu for the seam is wanted.
    """

    open_asked = Signal()
    menu_asked = Signal(QPoint)

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("seam_inset")
        self._store = store
        self._theme = theme
        self._painter = DrawingPainter("light")
        self._drawing: Drawing | None = None
        self._view: View | None = None
        self._key: tuple[object, ...] = ()
        self._made: tuple[tuple[object, ...], tuple[Handle, ...]] = ((), ())
        self._picture: tuple[tuple[object, ...], QPixmap] | None = None
        self.hand = Hand(self, store, theme, self)
        self.hand.reach.handles = self._handles
        self.hand.on_wood = False
        self.hand.card_at = lambda size: QPointF(8.0, self.height() - size.height() - 8.0)
        self.hand.ended.connect(self._fit)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip(tr("The seam's section at true scale. A click opens it in this place."))
        self.clicked.connect(self.open_asked)
        theme.changed.connect(self.update)

    @property
    def shows(self) -> bool:
        """Is there a seam to show?"""
        return self._drawing is not None

    def refresh(self) -> None:
        """Show the seam that is selected."""
        seam, plan = seam_shown(self._store), self._store.plan
        key = (seam and msgspec.structs.replace(seam, length=0.0), plan.project.units, plan.project.sheets)
        if key == self._key:
            return
        self._key = key
        if seam is None:
            self._drawing = None
            self.setText(tr("Seam"))
            self.setAccessibleDescription("")
        else:
            self._drawing = plain(draw_seam(plan, seam.id))
            self.setText(seam_title(plan, seam))
            self.setAccessibleDescription(seam_caption(seam, self._store.unit))
        self.setAccessibleName(self.text())
        if not self.hand.busy:
            self._fit()
        self.update()

    # Where things are

    def _room(self) -> QRectF:
        return QRectF(self.rect()).adjusted(13, 33, -13, -29)

    def _fit(self) -> None:
        """True scale, as large as there is room; under a dragging hand it stays as it is."""
        room = self._room()
        if self._drawing is None or room.width() < 10 or room.height() < 10:
            self._view = None
            return
        view = fit(self._drawing, room.width(), room.height(), pad=2.0, ratio=self.devicePixelRatioF())
        self._view = msgspec.structs.replace(view, x=view.x + room.left(), y=view.y + room.top())
        self.update()

    def to_board(self, pixel: QPointF) -> tuple[float, float]:
        """Place of the section at a pixel. [mm]"""
        return self._view.to_drawing((pixel.x(), pixel.y())) if self._view is not None else (0.0, 0.0)

    def to_pixel(self, place: tuple[float, float]) -> QPointF:
        """Pixel of a place of the section."""
        return QPointF(*self._view.to_surface(place)) if self._view is not None else QPointF()

    def pixel(self) -> float:
        """Millimetres of the section in a pixel."""
        return 1.0 / self._view.scale if self._view is not None else 1.0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    # The hand

    def _handles(self) -> tuple[Handle, ...]:
        seam = seam_shown(self._store)
        if seam is None or self._drawing is None or self._view is None:
            return ()
        key = (self._drawing, self._view.scale, seam.id, self._store.project.saw)
        if self._made[0] != key:
            self._made = key, section_handles(self._store.plan, seam, self._drawing, self.pixel())
        return self._made[1]

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if not self.hand.press(event):
            super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self.hand.move(event):
            super().mouseMoveEvent(event)
        shape = self.hand.cursor_at(event.position())
        self.setCursor(Qt.CursorShape.PointingHandCursor if shape is None else shape)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if not self.hand.release(event):
            super().mouseReleaseEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self.hand.leave()
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.hand.key(event):
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if not self.hand.busy:
            self.menu_asked.emit(event.globalPos())

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self.update()

    # The picture

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._painted())
        self.hand.paint(painter)
        painter.end()

    def _painted(self) -> QPixmap:
        """The card without what the hand shows; it is painted again with every picture of the sheet under it."""
        marked, ratio = self.hasFocus() or self.underMouse(), self.devicePixelRatioF()
        key = (self._drawing, self._view, self.size(), ratio, marked, self.hasFocus(), self._theme.palette)
        if self._picture is None or any(a is not b and a != b for a, b in zip(self._picture[0], key, strict=True)):
            pixmap = QPixmap(self.size() * ratio)
            pixmap.setDevicePixelRatio(ratio)
            pixmap.fill(Qt.GlobalColor.transparent)
            painter = QPainter(pixmap)
            self._paint_card(painter, marked)
            painter.end()
            self._picture = key, pixmap
        return self._picture[1]

    def _paint_card(self, painter: QPainter, marked: bool) -> None:
        palette = self._theme.palette
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.setPen(QPen(QColor(palette.chalk if marked else palette.hairline), 2 if self.hasFocus() else 1))
        painter.setBrush(QColor(palette.card))
        painter.drawRoundedRect(box, 6, 6)
        self._paint_words(painter, box)
        if self._drawing is not None and self._view is not None:
            self._painter.theme = "dark" if palette.name == "dark" else "light"
            painter.setClipRect(self._room())
            self._painter.paint(painter, self._drawing, self._view)

    def _paint_words(self, painter: QPainter, box: QRectF) -> None:
        palette = self._theme.palette
        for text, face, colour, where in (
            (self.text(), font(BODY, strong=True), palette.ink, box.adjusted(12, 8, -10, 0)),
            (self.accessibleDescription(), font(SMALL), palette.soft, box.adjusted(12, 0, -10, -8)),
        ):
            painter.setFont(face)
            painter.setPen(QColor(colour))
            side = Qt.AlignmentFlag.AlignTop if face.pixelSize() == BODY else Qt.AlignmentFlag.AlignBottom
            words = QFontMetrics(face).elidedText(text, Qt.TextElideMode.ElideRight, int(where.width()))
            painter.drawText(where, side | Qt.AlignmentFlag.AlignLeft, words)


class SectionBoard(Board):
    """The seam's section, large, in the place of the sheet. `close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("section", tr("Section"), store, theme, parent)
        self.canvas = Canvas("section_canvas", store, theme, self)
        self.canvas.setAccessibleName(tr("Section of the seam"))
        self.canvas.most_scale = 16.0
        self.canvas.over = self.paint_small_title
        self.canvas.hand.reach.handles = self._handles
        self.add_tool(self.tool("close", tr("Close"), tr("Back to the sheet."), self.close_asked.emit))
        self.set_content(self.canvas)

    def refresh_plan(self) -> None:
        seam, plan = seam_shown(self.store), self.store.plan
        self.canvas.show_drawing(draw_seam(plan, seam.id) if seam else None)
        if seam is None:
            self.title.setText(tr("Section"))
            self.subtitle.set_words(tr("there is no seam yet"))
        else:
            self.title.setText(seam_title(plan, seam))
            self.subtitle.set_words(seam_caption(seam, self.store.unit))

    def _handles(self) -> tuple[Handle, ...]:
        seam, drawing = seam_shown(self.store), self.canvas.drawing
        if seam is None or drawing is None or self.small:
            return ()
        return section_handles(self.store.plan, seam, drawing, self.canvas.pixel())

    def refresh_selection(self) -> None:
        self.refresh_plan()
