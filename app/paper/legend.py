"""The rows under a sheet drawing: what its hatches, lines and letters mean."""

from __future__ import annotations

from typing import Final

from app.paper.canvas import LARGER, SMALL, Canvas, wrapped
from app.paper.frame import Frame
from core.drawing.hatch import hatch_lines
from core.drawing.measure import text_width
from core.drawing.model import Area, Drawing, Layer, Line
from core.drawing.style import STYLES
from core.language import tr

LINE: Final = 13.0  # points
AIR: Final = 7.0  # over the rows
MEANING: Final = 62.0  # from a hatch to the next
LETTERS: Final = tr(
    "Same letters of a shelf meet at a seam. Short lines over it: its ticks. Triangles point to the top."
)
SWATCH: Final = (26.0, 10.0)
DOT: Final = (0.8, 3.3)  # length and step of dots
DASH: Final = (4.4, 7.0)
Meanings = tuple[tuple[Layer, str], ...]
MEANINGS: Final[Meanings] = (
    ("waste", tr("waste")),
    ("frame", tr("frame part")),
    ("offcut", tr("left over")),
    ("heel", tr("inside edge")),
    ("clear", tr("keep clear")),
    ("ghost", tr("has no room")),
    ("trouble", tr("too much")),
)


def meanings_of(drawing: Drawing) -> Meanings:
    """Those of what is drawn."""
    layers = {item.layer for item in drawing.items if isinstance(item, Area | Line)}
    return tuple(one for one in MEANINGS if one[0] in layers)


def legend_height(frame: Frame, words: str, meanings: Meanings) -> float:
    """Height of the rows and the air over them. [points]"""
    return AIR + LINE * (1 + len(_under(frame, words, meanings)))


def draw_legend(canvas: Canvas, frame: Frame, words: str, meanings: Meanings) -> None:
    """Draw its rows at the bottom of the page's room; `words` say how the numbers run."""
    under = _under(frame, words, meanings)
    x, y = frame.left, frame.bottom - LINE * len(under)
    for layer, meaning in meanings:
        _draw_swatch(canvas, x, y - SWATCH[1] + 1.0, layer)
        canvas.text(x + SWATCH[0] + 5.0, y, meaning, SMALL)
        x += SWATCH[0] + MEANING
    if _is_beside(frame, meanings) and _has_letters(meanings):
        canvas.text(x, y, LETTERS, SMALL)
    for line in under:
        y += LINE
        canvas.text(frame.left, y, line, SMALL)


def _has_letters(meanings: Meanings) -> bool:
    """Are panels drawn, with their seams' letters and triangles, and not only what has no room?"""
    return any(layer == "heel" for layer, _ in meanings)


def _is_beside(frame: Frame, meanings: Meanings) -> bool:
    """Is there room for the words on letters beside the hatches?"""
    taken = len(meanings) * (SWATCH[0] + MEANING)
    return text_width(LETTERS, SMALL) <= frame.right - frame.left - taken


def _under(frame: Frame, words: str, meanings: Meanings) -> tuple[str, ...]:
    """The lines under the hatches."""
    told = words if _is_beside(frame, meanings) or not _has_letters(meanings) else f"{LETTERS} {words}"
    return wrapped(told, SMALL, frame.right - frame.left)


def _draw_swatch(canvas: Canvas, x: float, y: float, layer: Layer) -> None:
    wide, high = SWATCH
    hatch = STYLES[layer].hatch
    if layer == "ghost":
        for side in (y, y + high):
            _broken(canvas, (x, side), (x + wide, side), DASH)
        for side in (x, x + wide):
            _broken(canvas, (side, y), (side, y + high), DASH)
    elif layer == "heel":
        _broken(canvas, (x, y + high / 2.0), (x + wide, y + high / 2.0), DASH)
    elif hatch:
        corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
        for (x0, y0), (x1, y1) in hatch_lines(corners, hatch, LARGER):
            canvas.line(x + x0, y + high - y0, x + x1, y + high - y1)
        canvas.box(x, y, wide, high)
    else:
        for side in (y, y + high):
            _broken(canvas, (x, side), (x + wide, side), DOT)
        for side in (x, x + wide):
            _broken(canvas, (side, y), (side, y + high), DOT)


def _broken(canvas: Canvas, start: tuple[float, float], end: tuple[float, float], dash: tuple[float, float]) -> None:
    """A level or upright line in dashes of (length, step)."""
    level = start[1] == end[1]
    along, stop = (start[0], end[0]) if level else (start[1], end[1])
    while along < stop:
        last = min(along + dash[0], stop)
        if level:
            canvas.line(along, start[1], last, start[1], 0.7)
        else:
            canvas.line(start[0], along, start[0], last, 0.7)
        along += dash[1]
