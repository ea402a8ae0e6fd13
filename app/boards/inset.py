"""The section of one seam at true scale: a card beside the sheet, and a board that takes the sheet's place."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QEnterEvent, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.boards.board import Board
from app.boards.canvas import Canvas, plain
from app.paint.painter import DrawingPainter
from app.store import Store
from app.theme import Theme
from app.theme.type import BODY, SMALL, font
from core.drawing.fit import View, fit
from core.drawing.model import Drawing
from core.drawing.names import letter
from core.drawing.section import draw_seam
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
    return f"Shelf {letter(at)}, seam {seam.letter}–{seam.letter}, {first} to {second}"


def seam_caption(seam: Seam, unit: Unit) -> str:
    """What is lost and what stays open, in a line."""
    said = [f"lost {show_thickness(seam.show_loss, unit)}" if seam.show_loss is not None else "the grain turns here"]
    if seam.outside_gap > 0.0:
        said.append(f"open outside {show_thickness(seam.outside_gap, unit)}")
    elif seam.inside_gap > 0.0:
        said.append(f"open inside {show_thickness(seam.inside_gap, unit)}")
    else:
        said.append("closes flush")
    return ", ".join(said)


class SeamInset(QAbstractButton):
    """The section as a card; `open_asked` asks for it in the board's place."""

    open_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("seam_inset")
        self._store = store
        self._theme = theme
        self._painter = DrawingPainter("light")
        self._drawing: Drawing | None = None
        self._view: tuple[tuple[float, float, float], View] | None = None  # with the room it was made for
        self._key: tuple[object, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip("The seam's section at true scale. A click opens it in this place.")
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
        self._view = None
        if seam is None:
            self._drawing = None
            self.setText("Seam")
            self.setAccessibleDescription("")
        else:
            self._drawing = plain(draw_seam(plan, seam.id))
            self.setText(seam_title(plan, seam))
            self.setAccessibleDescription(seam_caption(seam, self._store.unit))
        self.setAccessibleName(self.text())
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        palette = self._theme.palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        marked = self.hasFocus() or self.underMouse()
        painter.setPen(QPen(QColor(palette.chalk if marked else palette.hairline), 2 if self.hasFocus() else 1))
        painter.setBrush(QColor(palette.card))
        painter.drawRoundedRect(box, 6, 6)
        self._paint_words(painter, box)
        if self._drawing is not None:
            self._paint_drawing(painter, box.adjusted(12, 32, -12, -28))
        painter.end()

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

    def _paint_drawing(self, painter: QPainter, room: QRectF) -> None:
        assert self._drawing is not None
        self._painter.theme = "dark" if self._theme.palette.name == "dark" else "light"
        size = (room.width(), room.height(), self.devicePixelRatioF())
        if self._view is None or self._view[0] != size:
            self._view = (size, fit(self._drawing, size[0], size[1], pad=2.0, ratio=size[2]))
        view = self._view[1]
        painter.save()
        painter.translate(room.topLeft())
        painter.setClipRect(QRectF(0, 0, room.width(), room.height()))
        self._painter.paint(painter, self._drawing, view)
        painter.restore()


class SectionBoard(Board):
    """The seam's section, large, in the place of the sheet. `close_asked` brings the sheet back."""

    close_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("section", "Section", store, theme, parent)
        self.canvas = Canvas("section_canvas", theme, self)
        self.canvas.setAccessibleName("Section of the seam")
        self.canvas.most_scale = 16.0
        self.canvas.over = self.paint_small_title
        self.add_tool(self.tool("close", "Close", "Back to the sheet.", self.close_asked.emit))
        self.set_content(self.canvas)

    def refresh_plan(self) -> None:
        seam, plan = seam_shown(self.store), self.store.plan
        self.canvas.show_drawing(draw_seam(plan, seam.id) if seam else None)
        if seam is None:
            self.title.setText("Section")
            self.subtitle.set_words("there is no seam yet")
        else:
            self.title.setText(seam_title(plan, seam))
            self.subtitle.set_words(seam_caption(seam, self.store.unit))

    def refresh_selection(self) -> None:
        self.refresh_plan()
