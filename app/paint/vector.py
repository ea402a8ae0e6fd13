"""Painting a drawing black on white with nothing but lines and letters, for paper."""

from __future__ import annotations

from collections.abc import Iterable

from app.paint.ink import Ink
from core.drawing.fit import View
from core.drawing.flatten import flatten
from core.drawing.hatch import hatch_lines
from core.drawing.model import Area, Drawing, Layer, Line, Point
from core.drawing.style import LAYERS, STYLES, LayerStyle

CLEAR = 0.6  # points kept clear round words
OPAQUE = ("bench", "work", "kept", "fallen", "packer", "saw", "guide")  # hide what they lie on: the bench at a step


def paint_on_paper(ink: Ink, drawing: Drawing, view: View) -> None:
    """Paint a drawing; hatches are lines and words are text that can be searched and copied.

    view: in the ink's units.
    """
    _Painted(ink, drawing, view).paint()


class _Painted:
    """One drawing at one scale, going onto paper."""

    def __init__(self, ink: Ink, drawing: Drawing, view: View) -> None:
        self._ink, self._view = ink, view
        self._flat = flatten(drawing, view.point, plain=view.plain)
        self._areas: dict[Layer, list[Area]] = {}
        for area in self._flat.areas:
            self._areas.setdefault(area.layer, []).append(area)
        self._lines: dict[Layer, list[Line]] = {}
        for line in self._flat.lines:
            self._lines.setdefault(line.layer, []).append(line)

    def paint(self) -> None:
        """All of it, layer by layer, then the words."""
        used = [layer for layer in LAYERS if layer in self._areas or layer in self._lines]
        for layer in used:
            if layer not in OPAQUE:
                self._hatch(layer)
        for layer in used:
            if layer in OPAQUE:
                self._ink.white(self._shapes(layer))
                self._hatch(layer)
            self._outline(layer, STYLES[layer])
        self._words()

    def _placed(self, points: Iterable[Point]) -> list[Point]:
        x0, y0, scale = self._view.x, self._view.y, self._view.scale
        return [(x0 + scale * x, y0 - scale * y) for x, y in points]

    def _shapes(self, layer: Layer) -> list[list[Point]]:
        return [self._placed(area.points) for area in self._areas.get(layer, ())]

    def _hatch(self, layer: Layer) -> None:
        hatch, view = STYLES[layer].hatch, self._view
        if hatch is None or layer not in self._areas:
            return
        x, y, scale = view.x, view.y, view.scale
        lines = [
            (x + scale * x0, y - scale * y0, x + scale * x1, y - scale * y1)
            for area in self._areas[layer]
            for (x0, y0), (x1, y1) in hatch_lines(area.points, hatch, view.point)
        ]
        if lines:
            self._ink.lines(lines, hatch.width * view.points)

    def _outline(self, layer: Layer, style: LayerStyle) -> None:
        shapes, points = self._shapes(layer), self._view.points
        if style.ink is None:
            self._ink.white(shapes)
            return
        runs = [self._placed(line.points) for line in self._lines.get(layer, ())]
        if shapes or runs:
            self._ink.outlines(shapes, runs, style.width * points, tuple(length * points for length in style.dash))

    def _words(self) -> None:
        words, points = self._flat.words, self._view.points
        cleared = [self._placed(one.corners(self._flat.point, CLEAR)) for one in words if one.clear]
        if cleared:
            self._ink.white(cleared)
        for one in words:
            (place,) = self._placed((one.at,))
            self._ink.text(place, one.text, one.size * points, one.strong, one.align, one.angle)
