"""The project file as frozen values: one struct for each object of the file, one field for each key.

All lengths are millimetres, all angles degrees, whatever `Project.units` says: it only chooses how numbers are shown.
Field names are the file's keys; defaults are the file's defaults. Ranges are checked by `core.document.check`.
"""

from __future__ import annotations

from typing import Final, Literal

import msgspec

Units = Literal["in", "mm"]
SawKind = Literal["guided", "table"]
Lean = Literal["under", "away"]
End = Literal["mitred", "open"]
EndsFrom = Literal["front", "top", "bottom"]
Apart = Literal["top", "bottom", "left", "right"]
Use = Literal["any", "shell", "frame"]
Face = Literal["up", "down"]
Flaw = Literal["leaf joint", "sapwood", "patch", "bruise"]
Rules = Literal["imperial", "european"]
WallKind = Literal["timber stud", "metal stud", "masonry", "unknown"]
Obstacle = Literal["socket", "switch", "pipe", "tile edge"]
Stand = Literal["middle", "upper third"]
KeptOut = Literal["net", "faces", "front"]
Cut = Literal["plain", "rift", "quartered", "rotary"]
Wood = Literal["oak", "birch", "walnut", "maple", "cherry"]
LeafMatch = Literal["book", "slip"]
Mirror = Literal["none", "along", "across"]
Measurable = Literal["thickness", "size", "grain", "kerf", "bevel", "studs", "cavity"]

APART: Final[tuple[Apart, ...]] = ("top", "bottom", "left", "right")

FORMAT = "grainfold project"
VERSION = 1


class Value(msgspec.Struct, frozen=True, forbid_unknown_fields=True, gc=False):
    """A frozen part of the document; `msgspec.structs.replace` makes a changed copy."""


class Saw(Value, frozen=True):
    """The saw as it was measured."""

    kind: SawKind = "guided"
    lean: Lean = "under"  # where the tilted blade's foot goes: under the guide rail or fence, or away from it
    kerf: float = 2.2  # width of the cut, square to the blade [mm]
    overcut: float = 0.5  # tilt past half the corner [deg]
    bevel_sd: float = 0.2  # standard deviation of a bevel as cut [deg]
    allowance: float = 0.0  # what the second cut of a V takes to clean the arris [mm]
    tilt_max: float = 47.0  # [deg]
    depth_at_bevel: float = 40.0  # longest bevel face the blade reaches through [mm]
    guide_length: float = 2800.0  # of the guide rail, or of the fence [mm]
    guide_width: float = 190.0  # [mm]
    fence_travel: float = 800.0  # how far from the blade a table saw's fence goes [mm]
    guide_offset: float = 0.0  # from the guide's edge to the toe of a bevel cut; positive: the toe lies beyond it [mm]
    face: Face = "up"  # how the show face lies while bevels are cut
    name: str = ""  # of the profile it was taken from, if any


class KeepClear(Value, frozen=True):
    """An area of a sheet that something must not lie on, seen from the show face.

    of: what keeps out of it: the whole `net` (its panels and the strips the V's take; the corners beside them are
    waste and may lie there), the show `faces` of panels, or the `front` alone. Frame parts are hidden: they may lie
    anywhere.
    """

    corners: tuple[tuple[float, float], ...]  # one after the other round it, x and y on the sheet [mm]
    kind: Flaw = "bruise"
    of: KeptOut = "net"


class Figure(Value, frozen=True):
    """The look of a sheet's face where there is no photograph of it."""

    cut: Cut = "plain"  # how the veneer was cut from the log
    wood: Wood = "oak"
    match: LeafMatch = "book"  # of one leaf to the next
    seed: int | None = None  # which log; null: one for each sheet, from its name


class Photo(Value, frozen=True):
    """A photograph of a sheet, or of part of it; the picture's file lies beside the project's.

    corners: shares of the picture's width and height from its upper left corner, its own turn undone: where it shows
    the lower left, lower right, upper right and upper left corner of the sheet, or of the part.
    """

    file: str  # name of the picture's file
    sum: str  # SHA-256 of its bytes, in hexadecimal
    corners: tuple[tuple[float, float], ...]
    part: tuple[float, float, float, float] | None = None  # what it shows: x0, y0, x1, y1; null: all [sheet mm]
    lens: float = 0.0  # radial term: 0 is a perfect lens; see `core.photo.lens`
    even: float = 1.0  # how much of the light's unevenness is taken out, 0..1
    mirror: Mirror = "none"  # turned over as a leaf of a book match is: its ends change places, or its edges


class Sheet(Value, frozen=True):
    """One kind of panel stock; the grain runs along `length`."""

    id: str
    length: float  # along the grain, so perhaps the shorter side [mm]
    width: float  # [mm]
    thickness: float = 18.2  # as measured [mm]
    veneer: float = 0.6  # face veneer [mm]
    trim: float = 5.0  # taken off all four edges before anything is placed [mm]
    quantity: int = 1
    use: Use = "any"
    price: float | None = None  # of one sheet, in whatever money; null: not known
    keep_clear: tuple[KeepClear, ...] = ()  # on the first copy alone: it is that real sheet
    photos: tuple[Photo, ...] = ()  # of the first copy; a later one lies over those before it
    figure: Figure = Figure()


class Mount(Value, frozen=True):
    """Where a shelf hangs on the wall."""

    x: float  # outside of the left end from the wall's left edge [mm]
    top: float  # height of the top's show face from the floor [mm]


class Shelf(Value, frozen=True):
    """What is asked for: outside sizes, toe to toe."""

    id: str
    length: float
    depth: float  # wall to front [mm]
    height: float
    left: End = "mitred"
    right: End = "mitred"
    ends_from: EndsFrom = "front"
    scribe: float = 0.0  # extra wood at every back edge [mm]
    sheet: str | None = None  # id of the stock it must come from
    at: tuple[float, float] | None = None  # pins the net's lower left corner [sheet mm]
    mount: Mount | None = None
    turned: bool = False  # the net lies turned end for end on its sheet: its left end at high x, its top at low y
    apart: tuple[Apart, ...] = ()  # panels cut as pieces of their own, wherever there is room; their figure is broken
    ribs: tuple[float, ...] = ()  # put by hand: centre lines from the frame's left end [mm]
    frame_shift: float = 0.0  # of the frame from the middle of its play at the sides, right positive [mm]

    @property
    def mitred_ends(self) -> int:
        """How many ends are mitred: 0, 1 or 2."""
        return (self.left == "mitred") + (self.right == "mitred")


class FrameWish(Value, frozen=True):
    """How the hidden frame is to be built (key `frame` of the file)."""

    thickness: float | None = None  # null: as thick as the shelf's own sheet [mm]
    back_layers: int = 1
    front_layers: int = 1
    end_layers: int = 2
    spacing: float = 228.6  # ribs, centre to centre, at most [mm]
    side_play: float = 25.4
    front_play: float = 3.0
    height_play: float = 1.5


class Studs(Value, frozen=True):
    """Studs at even spacing from the wall's left edge."""

    first: float = 200.0
    spacing: float = 406.4


class KeepOut(Value, frozen=True):
    """A rectangle of the wall with something in it that no screw may meet. [mm]"""

    x: float  # its left side, from the wall's left edge
    y: float  # its lower side, from the floor
    width: float
    height: float
    kind: Obstacle = "socket"


class Alcove(Value, frozen=True):
    """Widths between two side walls at the back, in the middle and at the front, over and under the shelf. [mm]"""

    top: tuple[float, float, float]
    bottom: tuple[float, float, float]


class Wall(Value, frozen=True):
    """The wall: x from its left edge, heights from the floor."""

    width: float = 3000.0
    height: float = 2400.0
    studs: Studs | tuple[float, ...] = Studs()  # even, or a list of centre lines [mm]
    stud_width: float = 38.0
    board: float = 12.7  # what covers the studs [mm]
    gravity: float = 0.42  # specific gravity of the studs
    kind: WallKind = "timber stud"  # fixings are planned for timber studs alone
    tile: float = 0.0  # on the board, where the shelf hangs [mm]
    bow: tuple[tuple[float, float], ...] = ()  # x from the left edge, gap behind a straightedge on the line [mm]
    run_out: float = 0.0  # how far counter, ceiling or tile course rises from the left edge to the right [mm]
    alcove: Alcove | None = None  # all shelves that hang lie in it; null: the wall's sides are free
    keep_outs: tuple[KeepOut, ...] = ()

    @property
    def cover(self) -> float:
        """What a screw passes between the rail and the stud: board and tile. [mm]"""
        return self.board + self.tile


class Screw(Value, frozen=True):
    """The screws into the studs, and the room their driver needs."""

    diameter: float = 4.83
    length: float | None = None  # null: chosen from what is sold [mm]
    per_stud: int = 1
    bite: float = 38.1  # thread in the stud [mm]
    access_hole: float = 25.4
    clear: float = 6.0
    stand: Stand = "middle"  # of one screw to a stud, in the back rail's height


class Measured(Value, frozen=True):
    """What the maker has measured or tried, and found to be as it stands in the project."""

    what: Measurable
    of: str = ""  # id of the sheet, where it is one's
    values: tuple[float, ...] = ()  # the numbers that were found right; others are not measured by that


class Revision(Value, frozen=True):
    """The project as it once was, kept under a name."""

    name: str
    day: str  # when it was kept, 2026-05-17
    project: Project  # without revisions of its own


class Project(Value, frozen=True):
    """The whole document."""

    sheets: tuple[Sheet, ...]
    shelves: tuple[Shelf, ...]
    name: str = ""
    units: Units = "in"
    saw: Saw = Saw()
    glue_line: float = 0.15  # widest glue that still bonds [mm]
    frame: FrameWish = FrameWish()
    wall: Wall = Wall()
    screw: Screw = Screw()
    rules: Rules = "imperial"  # design rules that the load estimate goes by
    measured: tuple[Measured, ...] = ()  # what is no longer nominal: `core.findings.nominal`
    revisions: tuple[Revision, ...] = ()  # the oldest first
