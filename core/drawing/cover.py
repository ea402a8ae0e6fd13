"""The picture on the cover: the shelves on their wall as one sees them, each with its depth, drawn slantwise.

Shelves under the eye show their top, those over it their underside. No numbers: they stand beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from core.document.model import Project, Shelf
from core.drawing.model import Area, Box, Drawing, Item, Line, Point, Text
from core.drawing.names import letter
from core.drawing.panels import rectangle
from core.language import tr
from core.wall.eye import EYE

SLANT: Final = (0.34, 0.24)  # how far a depth of 1 reaches to the right, and up or down
GRAIN: Final = (0.14, 0.31, 0.52, 0.69, 0.88)  # of the face: where its grain lines run
APART: Final = 260.0  # mm between shelves that hang nowhere yet
PAD: Final = 160.0  # mm round the shelves


def draw_cover(project: Project) -> Drawing:
    """The shelves where they hang; those that hang nowhere yet stand in a row under each other."""
    hanging = [(n, s, s.mount.x, s.mount.top) for n, s in enumerate(project.shelves) if s.mount is not None]
    waiting = [(n, s) for n, s in enumerate(project.shelves) if s.mount is None]
    items: list[Item] = []
    box: Box = (0.0, 0.0, 1000.0, 600.0)
    if hanging:
        wall = project.wall
        box = (0.0, 0.0, wall.width, wall.height)
        items.append(Area("wall", rectangle(box)))
        items.append(Line("datum", ((-60.0, 0.0), (wall.width + 60.0, 0.0))))
    elif waiting:
        high = sum(s.height + s.depth * SLANT[1] + APART for _, s in waiting)
        box = (0.0, 0.0, max(s.length + s.depth * SLANT[0] for _, s in waiting) + 2.0 * PAD, high + PAD)
    for n, shelf, x, top in sorted(hanging, key=lambda one: one[3] <= EYE):
        items += _shelf(n, shelf, x, top, top <= EYE)
    if not hanging:
        top = box[3] - PAD
        for n, shelf in waiting:
            items += _shelf(n, shelf, PAD, top - shelf.depth * SLANT[1], True)
            top -= shelf.height + shelf.depth * SLANT[1] + APART
    elif waiting:
        words = tr("Not on the wall yet: {join}", join=", ".join((letter(n) for n, _ in waiting[:40])))
        items.append(Text("note", (0.0, 0.0), words, 9.0, shift=(0.0, -9.0)))
    return Drawing("cover", project.name or tr("Shelves"), box, tuple(items))


def _shelf(number: int, shelf: Shelf, x: float, top: float, from_above: bool) -> Iterator[Item]:
    """Front, the face one sees of top or bottom, and the right end; the front stands out to the lower left."""
    right, low = x + shelf.length, top - shelf.height
    dx, dy = shelf.depth * SLANT[0], shelf.depth * SLANT[1]
    rise = -dy if from_above else dy  # the front lies before the wall: below the back edge when seen from above
    front = (x - dx, low + rise, right - dx, top + rise)
    edge, back = (front[3], top) if from_above else (front[1], low)
    face = ((front[0], edge), (front[2], edge), (right, back), (x, back))
    end = ((front[2], front[1]), (right, low), (right, top), (front[2], front[3]))
    for outline in (face, end, rectangle(front)):
        yield Area("work", outline, shelf.id)  # it hides the wall's edge behind it
    yield from _grain(rectangle(front), shelf.id)
    yield from _grain(face, shelf.id)
    if shelf.right == "mitred":
        yield from _grain(end, shelf.id)
    at = ((front[0] + front[2]) / 2.0, max(front[3], top))
    yield Text("label", at, letter(number), 11.0, "middle", shift=(0.0, 9.0), about=shelf.id, clear=True)


def _grain(corners: tuple[Point, ...], about: str) -> Iterator[Line]:
    """Lines along the grain, from the first side to the one opposite it."""
    low_left, low_right, high_right, high_left = corners
    for share in GRAIN:
        start, end = (
            (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            for a, b in ((low_left, high_left), (low_right, high_right))
        )
        yield Line("ply", (start, end), about)
