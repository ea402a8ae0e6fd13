"""Making a drawing plain for one scale.

Ordinates are spread with dogleg leaders, dimensions get their lines and ticks, texts with little room are shortened,
turned or left out. What comes out holds for one scale only: at another, flatten again.
"""

from __future__ import annotations

from itertools import product

from core.drawing.crowd import Crowd
from core.drawing.dimensions import flat_dimension
from core.drawing.flat import Flat, Words, bounds, united, written
from core.drawing.measure import INK, text_width
from core.drawing.model import Area, Box, Dimension, Drawing, Line, Ordinates, Sign, Text
from core.drawing.ordinates import flat_ordinates
from core.drawing.sliding import Lines
from core.drawing.style import STYLES
from core.language import tr

MARGIN = 2.0  # points of room kept free at each end of a text


def flatten(drawing: Drawing, point: float, *, plain: bool = False) -> Flat:
    """The drawing as lines, areas and words.

    point: mm of the drawing for one point of the surface, > 0.
    plain: without all that stands beside the drawing: ordinates, dimensions and texts with no room to keep to.
    """
    areas: list[Area] = []
    lines: list[Line] = []
    roomed: list[tuple[Words, str]] = []
    broken: set[str] = set()  # groups with a text that found no room
    crowd, edges = Crowd(40.0 * point), None
    beside, free = ([], []) if plain else _beside(drawing, point)
    for word in free:
        crowd.admits(word.box(point))
    marks = [] if plain else [line for sign in drawing.marks for line in _flat_sign(sign, point)]
    for line in beside + marks:
        if line.layer == "datum":  # the marks of the trued edge and end lie among the parts
            crowd.admits(bounds(line.points))
    for item in drawing.items:
        if isinstance(item, Area):
            areas.append(item)
        elif isinstance(item, Line):
            lines.append(item)
        elif isinstance(item, Text) and item.room is not None:
            if item.slide and edges is None:
                edges = Lines(drawing, point)
            placed = None if item.group in broken else _roomed_text(item, item.room, point, crowd, edges)
            if placed is not None:
                roomed.append((placed, item.group))
            elif item.group:
                broken.add(item.group)
        elif isinstance(item, Sign) and item.room is not None:
            lines += _roomed_sign(item, item.room, point)
    words = [placed for placed, group in roomed if group not in broken]
    box = _extent(drawing, beside, free, point)
    return Flat(point, tuple(areas), tuple(lines + beside), tuple(words + free), box)


def extent(drawing: Drawing, point: float) -> Box:
    """The box of the drawing with all that stands beside it, as `flatten` gives it, only quicker. [mm]"""
    return Outline(drawing).at(point)


class Outline:
    """The box of a drawing with all that stands beside it, at any scale."""

    def __init__(self, drawing: Drawing) -> None:
        self._box = drawing.box
        self._reaches: list[tuple[float, ...]] = []  # of each text or sign: its place [mm], its box about it [points]
        self._numbers: list[Ordinates | Dimension] = []  # they move as the scale changes
        for item in drawing.items:
            if isinstance(item, (Ordinates, Dimension)):
                self._numbers.append(item)
            elif isinstance(item, (Text, Sign)) and item.room is None:
                self._reaches.append((*item.at, *_about(item)))

    def at(self, point: float) -> Box:
        """The box at one scale. point: mm of the drawing for a point of the surface, > 0. [mm]"""
        boxes = [
            (x + left * point, y + low * point, x + right * point, y + high * point)
            for x, y, left, low, right, high in self._reaches
        ]
        for item in self._numbers:
            lines, words = _flat_numbers(item, point)
            boxes += [bounds(line.points) for line in lines]
            boxes += [word.box(point) for word in words]
        return united([self._box, *boxes])


def _about(item: Text | Sign) -> Box:
    """The box of something with a size of its own, about its place. [points]"""
    if isinstance(item, Sign):
        return bounds([place for line in item.lines for place in line])
    x, y = item.at
    left, low, right, high = written(item, 1.0, tr(item.text), item.angle).box(1.0)
    return (left - x, low - y, right - x, high - y)


def _flat_numbers(item: Ordinates | Dimension, point: float) -> tuple[list[Line], list[Words]]:
    return flat_ordinates(item, point) if isinstance(item, Ordinates) else flat_dimension(item, point)


def _extent(drawing: Drawing, lines: list[Line], words: list[Words], point: float) -> Box:
    return united([drawing.box, *(w.box(point) for w in words), *(bounds(line.points) for line in lines)])


def _beside(drawing: Drawing, point: float) -> tuple[list[Line], list[Words]]:
    """Lines and words of everything with a size of its own and no room to keep to: it may stand out of the box."""
    lines: list[Line] = []
    words: list[Words] = []
    for item in drawing.items:
        if isinstance(item, (Text, Sign)):
            if item.room is not None:
                continue
            if isinstance(item, Text):
                words.append(written(item, point, tr(item.text), item.angle))
            else:
                lines += _flat_sign(item, point)
        elif isinstance(item, (Ordinates, Dimension)):
            more, numbers = _flat_numbers(item, point)
            lines += more
            words += numbers
    return lines, words


def _roomed_text(text: Text, room: Box, point: float, crowd: Crowd, edges: Lines | None) -> Words | None:
    """The words of a text; None where there is no room for them."""
    sides = ((room[2] - room[0]) / point, (room[3] - room[1]) / point)
    strong, size = STYLES[text.layer].strong, text.size
    for turn, wide, high in ((0.0, *sides), (90.0, *reversed(sides))):
        if size * INK > high or (turn and text.shift != (0.0, 0.0)):
            continue
        slides = (text.slide,) if text.slide < 1.0 or text.layer != "setting" else (0.0, text.slide)
        for slide, wording in product(slides, (text.text, text.short)):  # a number is shortened rather than moved far
            if not wording or text_width(wording, size, strong) > wide - 2.0 * MARGIN:
                continue
            words = written(text, point, tr(wording), text.angle + turn)
            if text.slide and edges is not None:
                placed = edges.place(words, slide, room, crowd, tidy=text.tidy)
                if placed is not None:
                    return placed
                continue
            box = words.box(point)
            if _within(box, room) and crowd.admits(box):
                return words
    return None


def _within(box: Box, room: Box) -> bool:
    return room[0] <= box[0] and room[1] <= box[1] and box[2] <= room[2] and box[3] <= room[3]


def _roomed_sign(sign: Sign, room: Box, point: float) -> list[Line]:
    lines = _flat_sign(sign, point)
    return lines if all(_within(bounds(line.points), room) for line in lines) else []


def _flat_sign(sign: Sign, point: float) -> list[Line]:
    x, y = sign.at
    return [Line(sign.layer, tuple((x + u * point, y + v * point) for u, v in line), sign.about) for line in sign.lines]
