"""The pages with drawings: sheets scaled to the page, seams at true scale with the saw's numbers and the cautions."""

from __future__ import annotations

from math import ceil
from typing import Final

import msgspec

from app.paper.canvas import BODY, LARGER, LEAD, PIXELS, RESOLUTION, Canvas, wrapped
from app.paper.frame import Frame
from app.paper.legend import draw_legend, legend_height, meanings_of
from core.drawing.fit import View, fit
from core.drawing.flatten import extent
from core.drawing.measure import shorten
from core.drawing.model import Drawing
from core.language import tr

TRUE: Final = RESOLUTION / 25.4  # device pixels in a mm
LINE: Final = 13.0  # points
BOX_LINES: Final = 8  # of trouble on the first page; the rest stands in the list of findings

DATUM: Final = tr(
    "Every number runs from the trued edge (upper) or the trued end (left), an arrowhead on each, on the show face, "
    "to a toe or a back edge. "
)
CLOSE: Final = {
    "in": tr("+ and − after a number: a 64th more or less."),
    "mm": tr("Numbers are to 0.1 mm."),
}


class SheetPage(msgspec.Struct, frozen=True):
    """One sheet's drawing, as large as the page lets it, with trouble boxed over it on the first page."""

    drawing: Drawing
    units: str
    trouble: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """What the page is called."""
        return self.drawing.title

    def scale_text(self, frame: Frame) -> str:
        """Like 'Scale 1 : 10.5'."""
        return tr("Scale 1 : {ratio:g}", ratio=self._ratio(frame))

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw heading, trouble, drawing and legend."""
        canvas.text(frame.left, frame.top + LEAD, _heading(self.drawing.title, frame), LEAD, strong=True)
        if self.trouble:
            _draw_trouble(canvas, frame, self._trouble_lines(frame))
        canvas.drawing(self.drawing, self._view(frame))
        draw_legend(canvas, frame, DATUM + CLOSE[self.units], meanings_of(self.drawing))

    def _trouble_lines(self, frame: Frame) -> list[str]:
        width = frame.right - frame.left - 20.0
        lines = [line for message in self.trouble for line in wrapped(message, BODY, width)]
        if len(lines) > BOX_LINES:
            lines = [*lines[: BOX_LINES - 1], tr("More stands in the list of findings, on the last pages.")]
        return lines

    def _room(self, frame: Frame) -> tuple[float, float, float, float]:
        """left, top, width, height of the room for the drawing. [points]"""
        top = frame.top + LEAD + 6.0
        if self.trouble:
            top += _trouble_height(self._trouble_lines(frame)) + 8.0
        bottom = frame.bottom - legend_height(frame, DATUM + CLOSE[self.units], meanings_of(self.drawing))
        return frame.left, top, frame.right - frame.left, max(bottom - top, 60.0)

    def _ratio(self, frame: Frame) -> float:
        """So many times smaller than true, in halves."""
        _, _, wide, high = self._room(frame)
        view = fit(self.drawing, wide * PIXELS, high * PIXELS, pad=0.0, points=PIXELS * LARGER)
        return max(1.0, ceil(2.0 * TRUE / view.scale - 1e-9) / 2.0)

    def _view(self, frame: Frame) -> View:
        left, top, wide, high = self._room(frame)
        return _placed(self.drawing, TRUE / self._ratio(frame), left + wide / 2.0, top + high / 2.0)


class SeamPage(msgspec.Struct, frozen=True):
    """A seam at true scale, the saw's numbers under it, and the cautions beside them."""

    drawing: Drawing
    numbers: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]

    @property
    def title(self) -> str:
        """What the page is called."""
        return tr("Saw set-up. {title}", title=self.drawing.title)

    def scale_text(self, frame: Frame) -> str:
        """'Scale 1 : 1', or smaller where the sheet is too thick for the page."""
        return tr("Section scale 1 : {ratio:g}", ratio=self._ratio(frame))

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw the section, the numbers and the cautions."""
        canvas.text(frame.left, frame.top + LEAD, _heading(self.title, frame), LEAD, strong=True)
        scale = TRUE / self._ratio(frame)
        x0, y0, x1, y1 = extent(self.drawing, PIXELS * LARGER / scale)
        wide, high = (x1 - x0) * scale / PIXELS, (y1 - y0) * scale / PIXELS
        top = frame.top + LEAD + 14.0
        canvas.drawing(self.drawing, _placed(self.drawing, scale, frame.left + wide / 2.0, top + high / 2.0))
        top += high + 22.0
        column = frame.left + 0.36 * (frame.right - frame.left)
        self._draw_numbers(canvas, frame.left, column - 24.0, top)
        self._draw_cautions(canvas, column, frame.right, top)

    def _ratio(self, frame: Frame) -> float:
        for ratio in (1.0, 2.0, 5.0, 10.0):
            scale = TRUE / ratio
            x0, y0, x1, y1 = extent(self.drawing, PIXELS * LARGER / scale)
            high = (y1 - y0) * scale / PIXELS
            fits = (x1 - x0) * scale / PIXELS <= frame.right - frame.left
            if fits and high + LEAD + 36.0 + self._words_height(frame) <= frame.bottom - frame.top:
                break
        return ratio

    def _words_height(self, frame: Frame) -> float:
        width = 0.64 * (frame.right - frame.left)
        lines = sum(len(wrapped(text, BODY, width - 12.0)) for text in self.cautions)
        return LINE * (1.0 + max(lines + 0.25 * len(self.cautions), len(self.numbers) * 1.15))

    def _draw_numbers(self, canvas: Canvas, left: float, right: float, y: float) -> None:
        canvas.text(left, y, tr("These numbers hold for"), BODY, strong=True)
        for name, number in self.numbers:
            y += LINE * 1.15
            canvas.text(left, y, name, BODY)
            canvas.text(right, y, number, BODY, strong=True, align="right")
            canvas.line(left, y + 3.5, right, y + 3.5)

    def _draw_cautions(self, canvas: Canvas, left: float, right: float, y: float) -> None:
        if not self.cautions:
            return
        canvas.text(left, y, tr("Before you cut"), BODY, strong=True)
        for caution in self.cautions:
            y += 0.25 * LINE
            for number, line in enumerate(wrapped(caution, BODY, right - left - 12.0)):
                y += LINE
                if number == 0:
                    canvas.box(left, y - 7.0, 6.5, 6.5, 0.6)
                canvas.text(left + 12.0, y, line, BODY)


def _heading(title: str, frame: Frame) -> str:
    return shorten(title, LEAD, frame.right - frame.left, strong=True)


def _placed(drawing: Drawing, scale: float, middle_x: float, middle_y: float) -> View:
    """The view at a scale [device pixels/mm] with the middle of everything at a place of the page. [points]"""
    points = PIXELS * LARGER
    x0, y0, x1, y1 = extent(drawing, points / scale)
    x = middle_x * PIXELS - scale * (x0 + x1) / 2.0
    y = middle_y * PIXELS + scale * (y0 + y1) / 2.0
    return View(scale, x, y, 1.0, points)


def _trouble_height(lines: list[str]) -> float:
    return LEAD + 12.0 + LINE * len(lines)


def _draw_trouble(canvas: Canvas, frame: Frame, lines: list[str]) -> None:
    top = frame.top + LEAD + 8.0
    canvas.box(frame.left, top, frame.right - frame.left, _trouble_height(lines), 2.2)
    y = top + LEAD + 2.0
    canvas.text(frame.left + 10.0, y, tr("Do not cut"), LEAD, strong=True)
    for line in lines:
        y += LINE
        canvas.text(frame.left + 10.0, y, line, BODY)
