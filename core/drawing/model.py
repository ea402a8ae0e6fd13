"""What a drawing is made of. Every surface (screen, print, PDF, SVG, DXF) paints the same list.

Places are millimetres of the thing drawn, y up. Text sizes are points on the surface, so that text stays readable at
any scale; `core.drawing.flatten` turns ordinates and dimensions into plain lines and texts for one scale.
"""

from __future__ import annotations

from typing import Literal

import msgspec

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # x0, y0, x1, y1
Align = Literal["left", "middle", "right"]
VAlign = Literal["top", "middle", "bottom"]

# Layer names: what a thing is, never how it looks. A surface maps each to pen, fill and hatch of its theme.
Layer = Literal[
    "sheet",  # the sheet's outline
    "trim",  # the trimmed area
    "net",  # bounding box of a net
    "panel",  # show face of a panel (areas: wood; lines: outline)
    "ghost",  # a panel that has no place yet
    "heel",  # inside edges, dashed
    "void",  # the V between panels
    "waste",  # single hatch at 45 degrees
    "offcut",  # kept offcut, dotted outline
    "frame",  # frame part, double hatch at 30 degrees
    "clear",  # an area to keep clear, crossed hatch
    "kept",  # kept part on a cut card, fine hatch parallel to the grain
    "bench",  # a piece put by while another is sawn
    "work",  # a piece that is sawn on
    "fallen",  # what falls: pale, waste's hatch
    "tape",  # tape along a line where the show face chips
    "packer",  # wood that carries the guide
    "guide",  # guide rail, fence or stop
    "under",  # edges hidden by the guide
    "now",  # the cut just being made
    "setting",  # the number a cut is set by
    "wood",  # wood seen in section
    "ply",  # lines between plies
    "blade",  # where the blade runs
    "saw",  # the blade itself, in section
    "glue",  # glue band
    "gap",  # an opening that is left
    "cut",  # cut lines
    "wall",  # outline of a wall, its floor
    "stud",  # posts behind the board
    "level",  # a line on the wall to hang by
    "keepout",  # what no screw may meet
    "datum",  # the trued edge and end the ordinates run from
    "grain",  # grain arrow
    "mark",  # maker's triangle and seam letters
    "dimension",  # ordinates and dimension lines
    "label",  # names of parts
    "title",
    "note",  # soft text
    "trouble",  # overrun
    "chosen",  # what is selected
]


class Item(msgspec.Struct, frozen=True, gc=False):
    """Base of a drawing's items. `about` is the id of what is drawn ('' for none): shelf, panel, part, piece, seam."""


class Line(Item, frozen=True, gc=False):
    """An open run of straight lines."""

    layer: Layer
    points: tuple[Point, ...]
    about: str = ""


class Area(Item, frozen=True, gc=False):
    """A closed polygon, filled and hatched as its layer says."""

    layer: Layer
    points: tuple[Point, ...]
    about: str = ""


class Text(Item, frozen=True, gc=False):
    """A text at a place.

    `room` is the box in mm that it must stay in: where it does not, it is written as `short`, turned upright, or left
    out. Of two texts with a room that would overlap, the one that comes later in the drawing gives way. Texts with
    the same `group` are written all or none. `clear` keeps hatches and lines off it. `shift` moves it by points on
    the surface, x to the right, y up. One with a room may be moved along its line by `slide` times its own width, to be
    clear of other words and, where it can be, of lines; a `tidy` one is left out rather than across a line.
    """

    layer: Layer
    at: Point
    text: str
    size: float = 9.0  # points on the surface
    align: Align = "left"
    valign: VAlign = "middle"
    angle: float = 0.0  # counter-clockwise [deg]
    room: Box | None = None
    about: str = ""
    short: str = ""
    shift: Point = (0.0, 0.0)
    clear: bool = False
    group: str = ""
    slide: float = 0.0
    tidy: bool = False


class Sign(Item, frozen=True, gc=False):
    """A small figure of one size on every surface: `lines` are in points about `at`, x to the right, y up.

    Left out where it does not stay in `room`.
    """

    layer: Layer
    at: Point
    lines: tuple[tuple[Point, ...], ...]
    room: Box | None = None
    about: str = ""


class Ordinates(Item, frozen=True, gc=False):
    """Dimensions from one datum along an axis, written beside the drawing and spread so that no two overlap.

    axis: 'x' measures along x, from an edge at y = base; 'y' measures along y, from an edge at x = base.
    side: 'low' writes below or at the left of the drawing, 'high' above or at the right.
    marks: (place along the axis, text), ascending.
    """

    layer: Layer
    axis: Literal["x", "y"]
    base: float
    side: Literal["low", "high"]
    marks: tuple[tuple[float, str], ...]
    size: float = 9.0


class Dimension(Item, frozen=True, gc=False):
    """A dimension between two points, its line offset to the left of start -> end by `offset` points on the surface."""

    layer: Layer
    start: Point
    end: Point
    text: str
    offset: float = 14.0
    size: float = 9.0


class Drawing(msgspec.Struct, frozen=True):
    """A named list of items. `box` is what must be visible: x0, y0, x1, y1 [mm].

    runs: (name, first, end): those of the items that belong together, such as all of one shelf's net.
    marks: signs that another drawing paints over this one; its words keep off them.
    """

    name: str
    title: str
    box: Box
    items: tuple[Item, ...]
    runs: tuple[tuple[str, int, int], ...] = ()
    marks: tuple[Sign, ...] = ()
