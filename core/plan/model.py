"""The plan as frozen values: everything computed from a project, in millimetres and degrees, unrounded.

The structs that go to the plan file have that file's keys as field names; `core.plan.contract` picks those.
Sheet axes: x along the sheet, y across, origin at its lower left corner, seen from the show face.
"""

from __future__ import annotations

from typing import Any, Literal

import msgspec

from core.document.model import APART, KeepClear, Photo, Project, Sheet
from core.geometry.net import OPPOSITE, EdgeName, Net
from core.layout.model import Layout
from core.layout.proven.model import Proof

Severity = Literal["error", "warning", "note"]
CutKind = Literal["rip", "crosscut"]
Side = Literal["low", "high"]
Figure = Literal["wraps", "turns"]


class Entry(msgspec.Struct, frozen=True, gc=False):
    """Base of the plan's values. No value holds one that holds it, so the cycle collector need not look."""


class StockSheet(Entry, frozen=True):
    """One real sheet of the job: `id` is unique, `stock` names the project's sheet it is a copy of."""

    id: str
    stock: str
    length: float
    width: float
    thickness: float
    used: float  # share of its area that becomes panels and frame parts, 0..1
    source: Sheet  # the stock itself
    areas: tuple[KeepClear, ...] = ()  # to keep clear: the stock's on its first copy
    photos: tuple[Photo, ...] = ()  # of it: likewise


class PlacedNet(Entry, frozen=True):
    """A shelf's net, or a panel cut apart from it, on a sheet: (x, y) is its lower left corner."""

    shelf: str
    sheet: str
    x: float
    y: float
    length: float
    width: float
    panel: str | None = None  # role of the panel that is cut apart; None for the net itself
    turned: bool = False  # it lies end for end


class Panel(Entry, frozen=True):
    """One panel of a shell; `show` and `inside` are [along x, along y]; x, y its show face's lower left corner."""

    id: str
    shelf: str
    role: str
    sheet: str | None
    piece: str | None
    show: tuple[float, float]
    inside: tuple[float, float]
    x: float | None
    y: float | None
    bevels: dict[str, float]  # tilt of each mitred edge, by its name on the sheet (low_x, high_x, low_y, high_y) [deg]
    thickness: float
    turned: bool = False  # its net lies end for end

    def bevel_of(self, edge: EdgeName) -> float:
        """Tilt of an edge named with the shelf's top up, however the net lies; 0 for a square one. [deg]"""
        return self.bevels.get(OPPOSITE[edge] if self.turned else edge, 0.0)


class Seam(Entry, frozen=True):
    """Two panels meeting at a mitre; values that need a V on the sheet are None where the seam turns the grain."""

    id: str
    shelf: str
    between: tuple[str, str]
    length: float
    bevel: float
    show_loss: float | None
    void_width: float | None
    void_area: float | None
    inside_gap: float
    outside_gap: float
    wedge_area: float
    glue_band: float
    figure: Figure
    letter: str  # seam letter, the same at both matching edges
    broken: bool = False  # it turns only because a panel is cut apart: the grain may run on, its figure does not


class FramePart(Entry, frozen=True):
    """One stick of a frame: `length` along its own length, `width` is the frame's height as sawn."""

    id: str
    role: str
    sheet: str | None
    piece: str | None
    length: float
    width: float
    thickness: float
    x: float | None  # lower left corner on the sheet
    y: float | None


class ScrewPlace(Entry, frozen=True):
    """A screw into a stud: x from the frame's left end, height above its lower edge."""

    x: float
    height: float
    length: float


class Frame(Entry, frozen=True):
    """The hidden frame of a shelf; `ribs` are the centre lines of all ribs, ascending, from its left end."""

    shelf: str
    length: float
    depth: float
    height: float
    ribs: tuple[float, ...]
    studs: tuple[float, ...]
    screws: tuple[ScrewPlace, ...]
    parts: tuple[FramePart, ...]
    thickness: float
    rib_length: float
    cavity: tuple[float, float, float]  # length, depth, height


class Cut(Entry, frozen=True):
    """One straight through cut, enough to replay it.

    `at` is the show-face line. `keep` is the side whose show face ends exactly there; the blade takes
    kerf / cos(bevel) from the other side and sets the kept side's inside face back by t tan(bevel).
    `makes` names the low and the high side; None where no wood is left.
    """

    n: int
    sheet: str
    piece: str
    kind: CutKind
    at: float
    bevel: float
    keep: Side
    makes: tuple[str | None, str | None]
    pass_: int = msgspec.field(name="pass")
    length: float = 0.0  # how far the blade travels through the piece [mm]
    about: str = ""  # panel or part whose edge this makes, or what it trues


class Offcut(Entry, frozen=True):
    """What is left and worth keeping, square through (the rectangle both faces share)."""

    sheet: str
    piece: str
    length: float
    width: float
    x: float
    y: float


class Leftover(Entry, frozen=True):
    """Any piece that is neither panel nor part, worth keeping or not: its show-face box on the sheet."""

    sheet: str
    piece: str
    box: tuple[float, float, float, float]  # x0, y0, x1, y1


class Load(Entry, frozen=True):
    """What a frame may carry: an estimate, all masses beside the shelf's own. `factor` is taken off already."""

    shelf: str
    governs: str  # what is used up first by a load spread over the depth
    spread_kg: float
    front_edge_kg: float
    factor: float = 1.0
    rules: str = ""  # the design rules it goes by
    own_kg: float = 0.0  # shell and frame
    band: str = ""  # what it is good for, in words
    raise_by: str = ""  # the change that would raise it most, in words with its number; empty where none is known


class Supply(Entry, frozen=True):
    """Something to buy. kind: what it is, whatever language it is named in."""

    what: str
    quantity: float
    unit: str
    basis: str
    kind: Literal["sheet", "wall screw", "lock screw", ""] = ""


Scalar = float | int | str | bool | list[float] | list[str] | None
Pointers = dict[str, Scalar | dict[str, Any]]  # a whole object where one is added: {"/shelves/-": {...}}


class Fix(Entry, frozen=True):
    """A way out: JSON pointers into the project, a value each (None removes)."""

    text: str
    set: Pointers


class Finding(Entry, frozen=True):
    """Something the plan has to say. `about` is an id: shelf, or shelf/part."""

    severity: Severity
    code: str
    about: str
    message: str
    fixes: tuple[Fix, ...] = ()
    amount: float | None = None  # the number the message is about [mm], for the boards


class Overrun(Entry, frozen=True):
    """A net that does not fit: where it would lie on the sheet, and by how much it is too large."""

    shelf: str
    sheet: str  # id of the stock sheet it is drawn on, may be a sheet that is not used otherwise
    x: float
    y: float
    length: float
    width: float
    over_x: float  # too long by [mm], 0 where it is not
    over_y: float  # too wide by [mm]
    panel: str | None = None  # role of the panel that is cut apart; None for the net itself


class Plan(Entry, frozen=True):
    """Everything computed from one project."""

    project: Project
    sheets: tuple[StockSheet, ...]
    nets: tuple[PlacedNet, ...]
    panels: tuple[Panel, ...]
    seams: tuple[Seam, ...]
    frames: tuple[Frame, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    leftovers: tuple[Leftover, ...]
    loads: tuple[Load, ...]
    supplies: tuple[Supply, ...]
    findings: tuple[Finding, ...]
    overruns: tuple[Overrun, ...]
    shapes: tuple[Net, ...]  # the whole net tree of each shelf, in the project's order
    layout: Layout  # where the nets lie; give it to make_plan to keep them there
    proof: Proof | None = None  # what is known of the layout; None where nobody looked for a better one
    whole: Plan | None = None  # of a plan made while a hand moves: the last whole one (see core.plan.moving)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The findings that must be dealt with before anything is cut."""
        return tuple(f for f in self.findings if f.severity == "error")

    @property
    def homeless(self) -> int:
        """How many frame parts found no room."""
        found = (f.about.partition("/")[2] for f in self.findings if f.code == "no-room")
        return sum(part not in ("", *APART) for part in found)

    def panels_on(self, sheet: str) -> tuple[Panel, ...]:
        """The panels that come from one sheet."""
        return tuple(p for p in self.panels if p.sheet == sheet)

    def parts_on(self, sheet: str) -> tuple[FramePart, ...]:
        """The frame parts that come from one sheet."""
        return tuple(p for f in self.frames for p in f.parts if p.sheet == sheet)
