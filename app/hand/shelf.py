"""Handles for a shelf's outer sizes, wherever a board shows them. No Qt here."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final, Literal

from app.hand.grid import LIGHT, Catch
from app.hand.grip import Handle, Number, Point
from app.rule.reading import LENGTH
from core.document.model import Project, Shelf
from core.document.ranges import RANGES
from core.drawing.names import letter
from core.language import tr
from core.layout.pin import index_of, with_shelf

Size = Literal["length", "depth", "height"]
SIZES: Final[tuple[Size, ...]] = ("length", "depth", "height")

Along = Callable[[Project, float], Project]  # what else changes when the size has grown by so much


def size_handle(
    project: Project,
    shelf: str,
    size: Size,
    at: Point,
    axis: Point,
    per: float = 1.0,
    *,
    key: str = "",
    offset: Point = (0.0, 0.0),
    along: Along | None = None,
) -> Handle:
    """A handle for one outer size of a shelf.

    at: where it is on the board; axis: direction on the board, of length 1 and y up, that makes the size larger by
    `per` for each board millimetre; key: its name where a board has several for one size.
    along: what else is to change with the size, given by how much it has grown, as its place does when it is
    pulled at the left.
    Raises KeyError where there is no such shelf.
    """
    where = index_of(project, shelf)
    if where < 0:
        raise KeyError(f"no shelf {shelf}")
    value = float(getattr(project.shelves[where], size))

    def change(new: float) -> Project:
        changed = with_shelf(project, where, **{size: new})
        return along(changed, new - value) if along else changed

    number = Number(size, size, LENGTH, value, axis, per, RANGES[Shelf][size])
    label = tr("{size} of {shelf}", size=size.capitalize(), shelf=shelf)
    catches = partial(same_sizes, project, where, size)
    return Handle(key or size, label, shelf, at, number, change, size[0].upper(), catches, offset)


def same_sizes(project: Project, at: int, size: Size) -> tuple[Catch, ...]:
    """The same size of the other shelves: shelves of one depth and height share a strip of the sheet."""
    word = {"length": tr("as long as"), "depth": tr("as deep as"), "height": tr("as high as")}[size]
    found: dict[float, str] = {}
    for other, shelf in enumerate(project.shelves):
        if other != at:
            found.setdefault(getattr(shelf, size), f"{word} {letter(other)}")
    return tuple(Catch(value, words, LIGHT) for value, words in found.items())
