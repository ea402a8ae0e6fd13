"""Labels for the parts, on common sheets of labels: 3 by 10 on letter, 3 by 8 on A4. These pages stand upright."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import msgspec

from app.paper.canvas import BODY, MM, PIXELS, SMALL, Canvas, wrapped
from app.paper.frame import BAR_INCHES, NO_SCALE, Frame, draw_check_bar
from app.paper.page import Page
from core.drawing.fit import View
from core.drawing.label import Label, draw_label, labels_of
from core.drawing.measure import clean, shorten
from core.language import tr
from core.plan.model import Plan

TRUE: Final = PIXELS * MM  # device pixels in a mm
INSET: Final = 1.6 * MM  # points from a label's edge to what is drawn
PRINTABLE: Final = 5.0 * MM  # points from the paper's edge that no printer reaches

MEANS: Final = tr("Thick: a square edge. Letters: seams. One arrow: up. Double arrow: the grain.")


class Grid(msgspec.Struct, frozen=True):
    """A sheet of labels, in points: paper, count, size of a label, first one's corner, from one to the next."""

    name: str
    paper: tuple[float, float]
    count: tuple[int, int]
    size: tuple[float, float]
    start: tuple[float, float]
    step: tuple[float, float]


# Common sheets of labels, sizes from memory: check yours against the words on the page.
LETTER: Final = Grid(
    tr("3 × 10 on letter, 2-5/8 × 1 in each"), (612.0, 792.0), (3, 10), (189.0, 72.0), (13.5, 36.0), (198.0, 72.0)
)
A4: Final = Grid(
    tr("3 × 8 on A4, 70 × 37 mm each"),
    (210.0 * MM, 297.0 * MM),
    (3, 8),
    (70.0 * MM, 37.0 * MM),
    (0.0, 0.5 * MM),
    (70.0 * MM, 37.0 * MM),
)


class LabelPage(msgspec.Struct, frozen=True):
    """One sheet of labels. The first row says what it is and has a bar to check."""

    grid: Grid
    project: str
    labels: tuple[Label, ...]
    part: str

    @property
    def title(self) -> str:
        """What the page is called."""
        return tr("Labels, part {part}", part=self.part) if self.part else tr("Labels")

    @property
    def size(self) -> tuple[float, float]:
        """Of its own paper, which stands upright. [points]"""
        return self.grid.paper

    def scale_text(self, frame: Frame) -> str:
        """Labels have no scale."""
        return NO_SCALE

    def draw(self, canvas: Canvas, frame: Frame) -> None:
        """Draw the first row and the labels; neither edge nor title block goes round them."""
        self._draw_first(canvas)
        for number, label in enumerate(self.labels, self.grid.count[0]):
            x, y, wide, high = self._field(number)
            drawing = draw_label(label, wide / MM, high / MM)
            canvas.drawing(drawing, View(TRUE, x * PIXELS, (y + high) * PIXELS, 1.0, PIXELS))

    def _field(self, number: int) -> tuple[float, float, float, float]:
        """left, top, width, height of the room on the label of that number, from 0. [points]"""
        grid = self.grid
        row, column = divmod(number, grid.count[0])
        x, y = grid.start[0] + column * grid.step[0], grid.start[1] + row * grid.step[1]
        left, right = max(x + INSET, PRINTABLE), min(x + grid.size[0] - INSET, grid.paper[0] - PRINTABLE)
        top, bottom = max(y + INSET, PRINTABLE), min(y + grid.size[1] - INSET, grid.paper[1] - PRINTABLE)
        return left, top, right - left, bottom - top

    def _draw_first(self, canvas: Canvas) -> None:
        """The first row: no labels, but what the sheet is and a bar to check."""
        x, y = self._field(0)[:2]
        x, room = x + 3.0, self.grid.paper[0] - 2.0 * (x + 3.0)
        canvas.text(
            x, y + 12.0, shorten(clean(self.project) or tr("No name"), BODY, room, strong=True), BODY, strong=True
        )
        words = tr(
            "{title}, {name}. Print at 100 %; check this bar: 100 mm over, 4 in under the line.",
            title=self.title,
            name=self.grid.name,
        )
        canvas.text(x, y + 26.0, shorten(words, SMALL, room), SMALL)
        draw_check_bar(canvas, x, y + 48.0)
        start = x + BAR_INCHES * 72.0 + 12.0
        for number, line in enumerate(wrapped(MEANS, SMALL, self.grid.paper[0] - start - INSET - PRINTABLE)):
            canvas.text(start, y + 42.0 + 1.2 * SMALL * number, line, SMALL)


def label_pages(plan: Plan, frame: Frame) -> Iterator[Page]:
    """Sheets of labels: on A4 where the pages are of that family, else on letter."""
    grid = A4 if abs(frame.width / frame.height - 2.0**0.5) < 0.01 else LETTER
    labels = labels_of(plan)
    room = grid.count[0] * (grid.count[1] - 1)
    parts = [labels[at : at + room] for at in range(0, len(labels), room)]
    for number, part in enumerate(parts, 1):
        yield LabelPage(
            grid,
            plan.project.name,
            part,
            tr("{number} of {parts}", number=number, parts=len(parts)) if len(parts) > 1 else "",
        )
