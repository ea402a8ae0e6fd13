"""The frame of every page: its edge, the title block and the bar that shows whether it was printed true."""

from __future__ import annotations

from typing import Final, Literal

import msgspec

from app.paper.canvas import BODY, MM, SMALL, Canvas
from core.drawing.measure import clean, shorten, text_width
from core.language import tr

MARGIN: Final = 12.0 * MM  # no printer reaches much further out
STRIP: Final = 54.0  # height of the title block [points]
ROOM: Final = 14.0  # between what is drawn and the frame
BAR_MM: Final = 100
BAR_INCHES: Final = 4
BAR_ROOM: Final = 312.0  # width of the check bar's field: 4 in and some air
NO_SCALE: Final = tr("Not to scale")
SIDE: Final = 122.0  # width of the fields at the right

Paper = Literal["letter", "a4", "tabloid", "a3"]
PAPERS: Final[dict[Paper, tuple[float, float]]] = {  # landscape
    "letter": (11.0 * 72.0, 8.5 * 72.0),
    "a4": (297.0 * MM, 210.0 * MM),
    "tabloid": (17.0 * 72.0, 11.0 * 72.0),
    "a3": (420.0 * MM, 297.0 * MM),
}


def usual_paper(units: str) -> Paper:
    """The paper that goes with the units of a project."""
    return "letter" if units == "in" else "a4"


class Frame(msgspec.Struct, frozen=True):
    """One page's size and what its title block says; all places in points from the upper left corner."""

    width: float
    height: float
    project: str
    day: str
    unit: str
    revision: str = tr("none yet")

    @property
    def left(self) -> float:
        """Left end of the room to draw in."""
        return MARGIN + ROOM

    @property
    def right(self) -> float:
        """Right end of the room to draw in."""
        return self.width - MARGIN - ROOM

    @property
    def top(self) -> float:
        """Upper end of the room to draw in."""
        return MARGIN + ROOM

    @property
    def bottom(self) -> float:
        """Lower end of the room to draw in."""
        return self.height - MARGIN - STRIP - ROOM

    def draw(self, canvas: Canvas, title: str, scale: str, page: int, pages: int) -> None:
        """Draw the edge, the title block and the check bar."""
        canvas.again(self, self._draw_same)
        start, side, base = self._block
        canvas.text(start, base + STRIP / 3.0, shorten(clean(title), BODY, side - start - 12.0), BODY)
        canvas.text(side, base, tr("Page {page} of {pages}", page=page, pages=pages), BODY, strong=True)
        canvas.text(side, base + STRIP / 3.0, scale, SMALL)

    @property
    def _block(self) -> tuple[float, float, float]:
        """Where the texts of the title block's two columns start, and the first line of both stands."""
        base = self.height - MARGIN - STRIP + STRIP / 3.0 - 5.5
        return MARGIN + BAR_ROOM + 6.0, self.width - MARGIN - SIDE + 6.0, base

    def _draw_same(self, canvas: Canvas) -> None:
        """What all pages have."""
        wide, high = self.width - 2.0 * MARGIN, self.height - 2.0 * MARGIN
        canvas.box(MARGIN, MARGIN, wide, high, 0.8)
        top = self.height - MARGIN - STRIP
        canvas.line(MARGIN, top, MARGIN + wide, top, 0.8)
        self._check_bar(canvas, top)
        start, side = MARGIN + BAR_ROOM, MARGIN + wide - SIDE
        canvas.line(start, top, start, top + STRIP, 0.8)
        canvas.line(side, top, side, top + STRIP)
        for row in (1, 2):
            canvas.line(start, top + row * STRIP / 3.0, MARGIN + wide, top + row * STRIP / 3.0)
        left, right, base = self._block
        room = side - start - 12.0
        project = shorten(clean(self.project) or tr("No name"), BODY, room, strong=True)
        fine = tr("Lengths in {unit}. Revision: {clean}", unit=self.unit, clean=clean(self.revision))
        canvas.text(left, base, project, BODY, strong=True)
        canvas.text(left, base + 2.0 * STRIP / 3.0, shorten(fine, SMALL, room), SMALL)
        canvas.text(right, base + 2.0 * STRIP / 3.0, self.day, SMALL)

    def _check_bar(self, canvas: Canvas, top: float) -> None:
        x = MARGIN + 10.0
        words = tr("Print at 100 %; check this bar:")
        canvas.text(x, top + 14.0, words, SMALL)
        after = x + text_width(words, SMALL) + 8.0
        canvas.text(after, top + 14.0, tr("100 mm over, 4 in under the line"), SMALL)
        draw_check_bar(canvas, x, top + 34.0)


def draw_check_bar(canvas: Canvas, x: float, y: float) -> None:
    """A bar of 100 mm over the line at y, and of 4 in under it, from x on."""
    canvas.line(x, y - 1.5, x + BAR_MM * MM, y - 1.5, 0.8)
    canvas.line(x, y + 1.5, x + BAR_INCHES * 72.0, y + 1.5, 0.8)
    for step in range(0, BAR_MM + 1, 10):
        canvas.line(x + step * MM, y - 1.5, x + step * MM, y - (10.0 if step % 50 == 0 else 6.5))
    for step in range(BAR_INCHES * 4 + 1):
        canvas.line(x + step * 18.0, y + 1.5, x + step * 18.0, y + (10.0 if step % 4 == 0 else 6.5))
