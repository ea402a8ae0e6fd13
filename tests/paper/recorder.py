"""A page's words as they are drawn, with the room each takes, without a PDF: every demo on every paper in no time."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import cache
from itertools import combinations
from pathlib import Path

import msgspec
from PySide6.QtGui import QImage, QPainter

from app.paint.ink import QtInk
from app.paper.canvas import PIXELS, Canvas
from app.paper.frame import Frame
from app.paper.page import Page
from app.paper.pdf import draw_page
from core.document.load import load_project
from core.document.model import Units
from core.drawing.fit import View
from core.drawing.flatten import flatten
from core.drawing.measure import text_width
from core.drawing.model import Align, Drawing
from core.plan.make import make_plan
from core.plan.model import Plan

DEMOS = Path(__file__).parents[2] / "demo_projects"
CAPITALS = 0.66  # of the size: height of letters without tails, of the bundled font
OVER = 0.6  # points that boxes may share: side bearings and kerning that the estimate leaves out


class Written(msgspec.Struct, frozen=True):
    """One text: its box in points from the upper left corner, and its size."""

    text: str
    box: tuple[float, float, float, float]
    size: float
    level: bool


class Recorder(Canvas):
    """Writes down all words and the ends of all lines."""

    def __init__(self) -> None:
        self._image = QImage(2, 2, QImage.Format.Format_RGB32)
        self._painter = QPainter(self._image)
        super().__init__(QtInk(self._painter, 1.0))
        self.words: list[Written] = []
        self.ends: list[tuple[float, float]] = []
        self.plain: list[str] = []  # names of drawings without what stands beside them

    def close(self) -> None:
        """The painter goes before its image."""
        self._painter.end()

    def text(
        self, x: float, y: float, text: str, size: float = 10.5, *, strong: bool = False, align: Align = "left"
    ) -> None:
        wide = text_width(text, size, strong)
        left = x - {"left": 0.0, "middle": wide / 2.0, "right": wide}[align]
        if text.strip():
            self.words.append(Written(text, (left, y - CAPITALS * size, left + wide, y), size, True))

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float = 0.4) -> None:
        self.ends += [(x0, y0), (x1, y1)]

    def box(self, x: float, y: float, wide: float, high: float, width: float = 0.4) -> None:
        self.ends += [(x, y), (x + wide, y + high)]

    def again(self, key: Hashable, draw: Callable[[Canvas], None]) -> None:
        draw(self)

    def drawing(self, drawing: Drawing, view: View, *, often: bool = False) -> None:
        flat = flatten(drawing, view.point, plain=view.plain)
        self.plain += [drawing.name] * view.plain
        for words in flat.words:
            size = words.size * view.points / PIXELS
            corners = [view.to_surface(corner) for corner in words.corners(flat.point)]
            xs, ys = [x / PIXELS for x, _ in corners], [y / PIXELS for _, y in corners]
            box = (min(xs), min(ys), max(xs), max(ys))
            slack = (0.74 - CAPITALS) * size  # ascenders over capitals
            if words.angle == 0.0:
                box = (box[0], box[1] + slack, box[2], box[3])
            elif words.angle == 90.0:
                box = (box[0] + slack, box[1], box[2], box[3])
            self.words.append(Written(words.text, box, size, words.angle == 0.0))
        for line in (*flat.lines, *flat.areas):
            for place in line.points:
                x, y = view.to_surface(place)
                self.ends.append((x / PIXELS, y / PIXELS))


def recorded(page: Page, frame: Frame, number: int = 1, count: int = 1) -> Recorder:
    """What a page draws, its edge and title block too."""
    recorder = Recorder()
    draw_page(recorder, page, frame, number, count)
    recorder.close()
    return recorder


def overlapping(words: list[Written]) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes meet."""
    cells: dict[tuple[int, int], list[Written]] = {}
    for one in words:
        x0, y0, x1, y1 = one.box
        for i in range(int(x0 // 60), int(x1 // 60) + 1):
            for j in range(int(y0 // 60), int(y1 // 60) + 1):
                cells.setdefault((i, j), []).append(one)
    found = set()
    for near in cells.values():
        for one, other in combinations(near, 2):
            a, b = one.box, other.box
            across = min(a[2], b[2]) - max(a[0], b[0])
            up = min(a[3], b[3]) - max(a[1], b[1])
            if across > OVER and up > OVER:
                found.add((one.text, other.text))
    return sorted(found)


def demo_names() -> list[str]:
    """Every demo by its file's name."""
    return sorted(path.stem for path in DEMOS.glob("*.grainfold"))


@cache
def demo(name: str, units: Units | None = None) -> Plan:
    """The plan of a demo, by default in its own unit."""
    project = load_project(DEMOS / f"{name}.grainfold")
    if units is not None:
        project = msgspec.structs.replace(project, units=units)
    return make_plan(project)
