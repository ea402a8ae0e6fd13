"""Which seams the eye sees, on the wall's picture: bold edges, whole where the grain runs on, dashed where it turns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from app.theme.palette import Palette
from app.theme.type import SMALL, font
from core.document.model import Project
from core.language import tr
from core.plan.model import Seam
from core.wall.eye import faces_in_sight

BOLD: Final = 2.6  # pixels
FRONT: Final = (("top", "top-front"), ("bottom", "front-bottom"), ("left", "front-left"), ("right", "front-right"))
OUTSET: Final = BOLD / 2.0
SAMPLE: Final = 24.0  # pixels: a line of the key
GAP: Final = 6.0


class Sight:
    """The figure of every seam, looked up again only when the plan has others."""

    def __init__(self) -> None:
        self._seams: tuple[Seam, ...] = ()
        self._figures: Mapping[str, str] = {}

    def lines(
        self, project: Project, seams: tuple[Seam, ...], boxes: Sequence[QRectF | None]
    ) -> tuple[list[QLineF], list[QLineF]]:
        """Edges of the hanging shelves that are seams in sight: those whose figure runs on, those where it turns."""
        if seams is not self._seams:
            self._seams, self._figures = seams, {seam.id: seam.figure for seam in seams}
        whole: list[QLineF] = []
        turned: list[QLineF] = []
        for shelf, box in zip(project.shelves, boxes, strict=True):
            if box is None:
                continue
            faces = faces_in_sight(shelf)
            for face, seam in FRONT:
                figure = self._figures.get(f"{shelf.id}/{seam}")
                if figure is not None and face in faces:
                    (whole if figure == "wraps" else turned).append(_edge(box, face))
        return whole, turned


def _edge(wood: QRectF, face: str) -> QLineF:
    """An edge, drawn round the wood, which may be hardly higher than the line."""
    box = wood.adjusted(-OUTSET, -OUTSET, OUTSET, OUTSET)
    ends = {
        "top": (box.topLeft(), box.topRight()),
        "bottom": (box.bottomLeft(), box.bottomRight()),
        "left": (box.topLeft(), box.bottomLeft()),
        "right": (box.topRight(), box.bottomRight()),
    }
    return QLineF(*ends[face])


def paint_sight(painter: QPainter, lines: tuple[list[QLineF], list[QLineF]], palette: Palette) -> None:
    """The edges, bold."""
    for some, style in zip(lines, (Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine), strict=True):
        if some:
            painter.setPen(QPen(QColor(palette.ink), BOLD, style, Qt.PenCapStyle.FlatCap))
            painter.drawLines(some)


def paint_key(painter: QPainter, room: QRectF, palette: Palette) -> None:
    """What the bold edges mean, at the right of the room; nothing where it is too narrow."""
    painter.setFont(font(SMALL))
    metrics = QFontMetricsF(painter.font())
    parts = ((Qt.PenStyle.SolidLine, tr("seam in sight, the grain runs on")), (Qt.PenStyle.DashLine, tr("it turns")))
    wide = sum(SAMPLE + GAP + metrics.horizontalAdvance(words) for _, words in parts) + 2.0 * GAP
    if wide > room.width():
        return
    x, y = room.right() - wide, room.center().y()
    for style, words in parts:
        painter.setPen(QPen(QColor(palette.ink), BOLD, style, Qt.PenCapStyle.FlatCap))
        painter.drawLine(QPointF(x, y), QPointF(x + SAMPLE, y))
        painter.setPen(QColor(palette.soft))
        painter.drawText(QPointF(x + SAMPLE + GAP, y + 4.0), words)
        x += SAMPLE + 3.0 * GAP + metrics.horizontalAdvance(words)
