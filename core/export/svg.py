"""Drawings as one SVG file: true millimetres, a group for each layer, several drawings one under the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from core.drawing.flat import Flat, Words
from core.drawing.hatch import hatch_lines
from core.drawing.measure import clean
from core.drawing.model import Area, Drawing, Layer, Line, Point
from core.drawing.style import COLOURS, LAYERS, STYLES, LayerStyle, Role, Theme
from core.export.page import made_plain

FONTS: Final = "'Source Sans Pro', 'Source Sans 3', 'Noto Sans', 'DejaVu Sans', sans-serif"
TITLE: Final = 16.5  # points
MARGIN: Final = 20.0  # points round each drawing; other fonts run wider than ours
_ANCHOR: Final = {"left": "start", "middle": "middle", "right": "end"}


def svg_bytes(drawings: Iterable[Drawing], theme: Theme = "light") -> bytes:
    """The file, in UTF-8. A millimetre of a drawing is a millimetre of the picture."""
    parts: list[str] = []
    wide = high = 0.0
    for number, (drawing, flat) in enumerate(made_plain(drawings), 1):
        x0, y0, x1, y1 = flat.box
        margin = MARGIN * flat.point
        high += margin + TITLE * flat.point
        sheet = _Sheet(flat, theme, (margin - x0, high + margin + y1), number)
        title = f'font-size="{_n(TITLE * flat.point)}" font-weight="600" fill="{COLOURS[theme]["ink"]}"'
        parts.append(f"<g data-drawing={quoteattr(clean(drawing.name))}>")
        parts.append(f'<text x="{_n(margin)}" y="{_n(high)}" {title}>{escape(clean(drawing.title))}</text>')
        parts += sheet.parts()
        parts.append("</g>")
        high += (y1 - y0) + 2.0 * margin
        wide = max(wide, x1 - x0 + 2.0 * margin)
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(wide)}mm" height="{_n(high)}mm" '
        f'viewBox="0 0 {_n(wide)} {_n(high)}" font-family="{FONTS}">'
    )
    return "\n".join((head, *parts, "</svg>", "")).encode()


class _Sheet:
    """One drawing on the picture; `move` takes its millimetres, y up, to the picture's, y down."""

    def __init__(self, flat: Flat, theme: Theme, move: Point, number: int) -> None:
        self._flat = flat
        self._theme: Theme = theme
        self._move = move
        self._number = number

    def parts(self) -> Iterator[str]:
        """A group for each layer that has something in it."""
        areas, lines, words = self._by_layer()
        for layer in LAYERS:
            here = (areas.get(layer, []), lines.get(layer, []), words.get(layer, []))
            if any(here):
                yield from self._layer(layer, *here)

    def _by_layer(self) -> tuple[dict[Layer, list[Area]], dict[Layer, list[Line]], dict[Layer, list[Words]]]:
        areas: dict[Layer, list[Area]] = {}
        lines: dict[Layer, list[Line]] = {}
        words: dict[Layer, list[Words]] = {}
        for area in self._flat.areas:
            areas.setdefault(area.layer, []).append(area)
        for line in self._flat.lines:
            lines.setdefault(line.layer, []).append(line)
        for word in self._flat.words:
            words.setdefault(word.layer, []).append(word)
        return areas, lines, words

    def _layer(self, layer: Layer, areas: list[Area], lines: list[Line], words: list[Words]) -> Iterator[str]:
        style = STYLES[layer]
        name = layer if self._number == 1 else f"{layer}-{self._number}"
        yield f'<g id="{name}" class="{layer}" {self._pen(style)}>'
        fill = self._colour(style.fill) if style.fill else "none"
        for area in areas:
            yield self._area(area, fill)
        if style.hatch:
            yield from self._hatches(style, areas)
        for line in lines:
            yield f'<polyline points="{self._points(line.points)}" fill="none"{_about(line.about)}/>'
        yield from self._cleared(style, words)
        for word in words:
            yield self._word(word, style)
        yield "</g>"

    def _pen(self, style: LayerStyle) -> str:
        if style.ink is None:
            return 'stroke="none"'
        point = self._flat.point
        pen = f'stroke="{self._colour(style.ink)}" stroke-width="{_n(style.width * point)}"'
        if style.dash:
            pen += f' stroke-dasharray="{" ".join(_n(length * point) for length in style.dash)}"'
        return pen

    def _area(self, area: Area, fill: str) -> str:
        points = area.points
        (x0, y0), (x1, y1) = points[0], points[len(points) // 2]
        if points == ((x0, y0), (x1, y0), (x1, y1), (x0, y1)):
            x, y = self._at((x0, y1))
            size = f'width="{_n(x1 - x0)}" height="{_n(y1 - y0)}"'
            return f'<rect x="{_n(x)}" y="{_n(y)}" {size} fill="{fill}"{_about(area.about)}/>'
        return f'<polygon points="{self._points(points)}" fill="{fill}"{_about(area.about)}/>'

    def _hatches(self, style: LayerStyle, areas: list[Area]) -> Iterator[str]:
        hatch = style.hatch
        assert hatch is not None
        point = self._flat.point
        segments = [s for area in areas for s in hatch_lines(area.points, hatch, point)]
        if segments:
            path = "".join(f"M{self._points((start,))}L{self._points((end,))}" for start, end in segments)
            pen = f'stroke="{self._colour(hatch.ink)}" stroke-width="{_n(hatch.width * point)}"'
            yield f'<path d="{path}" fill="none" {pen} stroke-dasharray="none"/>'

    def _cleared(self, style: LayerStyle, words: list[Words]) -> Iterator[str]:
        for word in words:
            if word.clear:
                corners = self._points(word.corners(self._flat.point))
                yield f'<polygon points="{corners}" fill="{self._colour(style.ground)}" stroke="none"/>'

    def _word(self, word: Words, style: LayerStyle) -> str:
        x, y = self._at(word.at)
        turn = f' transform="rotate({_n(-word.angle)} {_n(x)} {_n(y)})"' if word.angle else ""
        weight = ' font-weight="600"' if style.strong else ""
        anchor = f' text-anchor="{_ANCHOR[word.align]}"' if word.align != "left" else ""
        size = _n(word.size * self._flat.point)
        return (
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{size}" fill="{self._colour(style.words)}" stroke="none"'
            f"{weight}{anchor}{turn}{_about(word.about)}>{escape(clean(word.text))}</text>"
        )

    def _colour(self, role: Role) -> str:
        return COLOURS[self._theme][role]

    def _at(self, place: Point) -> Point:
        return (place[0] + self._move[0], self._move[1] - place[1])

    def _points(self, places: Iterable[Point]) -> str:
        return " ".join(f"{_n(x)},{_n(y)}" for x, y in map(self._at, places))


def _n(value: float) -> str:
    """A number to a tenth of a micrometre, without idle zeros."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _about(about: str) -> str:
    return f" data-about={quoteattr(clean(about))}" if about else ""
