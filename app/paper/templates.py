"""Full-size templates: strips of the same kind one under the other, as many as a page has room for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import msgspec

from app.paper.canvas import BODY, LEAD, MM, PIXELS, Canvas, wrapped
from app.paper.frame import Frame
from app.paper.page import Page
from core.drawing.fit import View
from core.drawing.flatten import extent
from core.drawing.model import Drawing
from core.drawing.template import cut_up
from core.language import tr
from core.leaves.templates import HOW, strips_of
from core.lengths import INCH_MM
from core.plan.model import Plan

TRUE: Final = PIXELS * MM  # device pixels in a mm
POINTS: Final = PIXELS  # texts of their own size
GAP: Final = 12.0  # points between strips
LINE: Final = 13.0
STEPS: Final = {"in": INCH_MM / 2.0, "mm": 5.0}  # joins lie at multiples of it [mm]


class Row(msgspec.Struct, frozen=True):
    """One length of a strip on its page; top: of all that is drawn. [points]"""

    drawing: Drawing
    top: float


class TemplatePage(msgspec.Struct, frozen=True):
    """Lengths of strips at true size."""

    rows: tuple[Row, ...]
    part: str

    @property
    def title(self) -> str:
        """What the page is called."""
        return tr("Templates, full size, part {part}", part=self.part) if self.part else tr("Templates, full size")

    def scale_text(self, frame: Frame) -> str:
        """They are true."""
        return tr("Scale 1 : 1")

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw title, what to do, and the strips."""
        canvas.text(frame.left, frame.top + LEAD, self.title, LEAD, strong=True)
        y = frame.top + LEAD + 4.0
        for line in _how(frame):
            y += LINE
            canvas.text(frame.left, y, line, BODY)
        for row in self.rows:
            canvas.drawing(row.drawing, _view(row, frame))


def template_pages(plan: Plan, frame: Frame) -> Iterator[Page]:
    """All templates of a plan."""
    room = (frame.right - frame.left) / MM
    drawings = [piece for strip in strips_of(plan) for piece in cut_up(strip, room, STEPS[plan.project.units])]
    start = frame.top + LEAD + 4.0 + LINE * len(_how(frame)) + GAP
    pages: list[list[Row]] = []
    y = frame.bottom + 1.0
    for drawing in drawings:
        high = _height(drawing)
        if y + high > frame.bottom or not pages:
            pages.append([])
            y = start
        pages[-1].append(Row(drawing, y))
        y += high + GAP
    for number, rows in enumerate(pages, 1):
        yield TemplatePage(
            tuple(rows), tr("{number} of {pages}", number=number, pages=len(pages)) if len(pages) > 1 else ""
        )


def _how(frame: Frame) -> tuple[str, ...]:
    return wrapped(HOW, BODY, frame.right - frame.left)


def _box(drawing: Drawing) -> tuple[float, float, float, float]:
    return extent(drawing, POINTS / TRUE)


def _height(drawing: Drawing) -> float:
    _, y0, _, y1 = _box(drawing)
    return (y1 - y0) * MM


def _view(row: Row, frame: Frame) -> View:
    top = _box(row.drawing)[3]
    x = frame.left * PIXELS - TRUE * row.drawing.box[0]
    return View(TRUE, x, row.top * PIXELS + TRUE * top, 1.0, POINTS)
