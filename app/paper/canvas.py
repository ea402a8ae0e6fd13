"""A page to write on in points, its origin at the upper left corner, y down."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import lru_cache
from typing import Final

from PySide6.QtGui import QGuiApplication

from app.paint.ink import Ink
from app.paint.vector import paint_on_paper
from core.drawing.fit import View
from core.drawing.measure import text_width, thousandths
from core.drawing.model import Align, Drawing
from core.language import tr

RESOLUTION: Final = 1200  # device pixels in an inch
PIXELS: Final = RESOLUTION / 72.0  # in a point
MM: Final = 72.0 / 25.4  # points
LARGER: Final = 1.1  # texts of drawings on paper for those on a screen: 9 points become 9.9
SMALL: Final = 9.5  # points: the smallest text on paper; never under 9
BODY: Final = 10.5
LEAD: Final = 14.0
HAIRLINE: Final = 0.4
UNITS: Final = frozenset(
    f"{unit}{end}" for unit in ("mm", "in", "ft", "m", "lb", "kg", "min", "+", "−") for end in ("", ",", ".", ":", ";")
)
SPANS: Final = frozenset({"to", "bis"})  # between two numbers, in each language
NUMERIC: Final = '0123456789"+−'  # what a number with or without an inch mark ends on

_application: list[QGuiApplication] = []  # kept alive once started


def start_gui() -> None:
    """Start Qt without a screen where it is not running yet; fonts and pages need it."""
    if QGuiApplication.instance() is None:
        _application.append(QGuiApplication(["grainfold", "-platform", "offscreen"]))


class Canvas:
    """Black marks on one page."""

    def __init__(self, ink: Ink) -> None:
        self._ink = ink
        self._unit = ink.unit

    def text(
        self, x: float, y: float, text: str, size: float = BODY, *, strong: bool = False, align: Align = "left"
    ) -> None:
        """Write one line with its baseline at y."""
        if not text:
            return
        unit = self._unit
        self._ink.text((x * unit, y * unit), tr(text), size * unit, strong, align, 0.0)

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float = HAIRLINE) -> None:
        """Draw a straight line."""
        unit = self._unit
        self._ink.lines([(x0 * unit, y0 * unit, x1 * unit, y1 * unit)], width * unit)

    def box(self, x: float, y: float, wide: float, high: float, width: float = HAIRLINE) -> None:
        """Draw an empty rectangle, its upper left corner at x, y."""
        unit = self._unit
        left, top, right, bottom = x * unit, y * unit, (x + wide) * unit, (y + high) * unit
        corners = ((left, top), (right, top), (right, bottom), (left, bottom))
        self._ink.outlines((corners,), (), width * unit, ())

    def again(self, key: Hashable, draw: Callable[[Canvas], None]) -> None:
        """Draw what many pages have at the same place; what has one key is the same each time."""
        self._ink.again(key, (0.0, 0.0), lambda ink: draw(Canvas(ink)))

    def drawing(self, drawing: Drawing, view: View, *, often: bool = False) -> None:
        """Draw a drawing; the view is in device pixels of the page. often: many pages have the same."""
        by = self._unit / PIXELS
        x, y = view.x * by, view.y * by
        scaled = View(view.scale * by, 0.0 if often else x, 0.0 if often else y, 1.0, view.points * by, view.plain)
        if often:
            self._ink.again((drawing, scaled), (x, y), lambda ink: paint_on_paper(ink, drawing, scaled))
        else:
            paint_on_paper(self._ink, drawing, scaled)


@lru_cache(maxsize=1 << 13)
def wrapped(text: str, size: float, width: float, *, strong: bool = False) -> tuple[str, ...]:
    """A text in lines no wider than `width` points; a word that is wider than a line is broken."""
    if thousandths(text, strong) / 1000.0 * size <= width and " ".join(text.split()) == text:
        return (text,)
    lines: list[str] = []
    current, wide = "", 0  # and how wide it is, in thousandths of the size
    blank = thousandths(" ", strong)
    for word in words_of(text):
        more = thousandths(word, strong)
        if current and (wide + blank + more) / 1000.0 * size <= width:
            current, wide = f"{current} {word}", wide + blank + more
            continue
        if current:
            lines.append(current)
        current, wide = word, more
        while wide / 1000.0 * size > width and len(current) > 1:
            cut = _fitting(current, size, width, strong)
            lines.append(current[:cut])
            current = current[cut:]
            wide = thousandths(current, strong)
    return (*lines, current) if current or not lines else tuple(lines)


def words_of(text: str) -> list[str]:
    """The words of a text; a number keeps its unit and its mark of more or less, a name its number: `rib 2`."""
    words: list[str] = []
    for word in text.split():
        goes_on = word[0].isdigit() or word in UNITS or word in SPANS  # a quick look: most words never do
        if goes_on and words and _goes_on(words[-1], word):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def _goes_on(before: str, word: str) -> bool:
    """Is a word the unit of a number, or does it go on with a name's or a card's numbers: `rib 2`, `3 to 5: 48 mm`?"""
    if word in UNITS and before[-1] in NUMERIC:
        return True
    last = before.rpartition(" ")[2]
    if last.isalpha():
        return word.rstrip(".,;:)").isdigit()
    if last.isdigit():
        return word in SPANS
    return word[0].isdigit() and last.endswith(":") and last[:-1].isdigit()


def _fitting(word: str, size: float, width: float, strong: bool) -> int:
    """How many letters of a word fit in a line, at least one."""
    count = 1
    while count < len(word) and text_width(word[: count + 1], size, strong) <= width:
        count += 1
    return count
