"""A net on its sheet: sliding it about, and the handles on its panels' edges. No Qt here."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, NamedTuple

import msgspec

from app.hand.grid import REACH, Aim, step_size
from app.hand.grip import Edit, Grip, Handle, Number, Point, Values
from app.hand.shelf import Along, Size, size_handle
from app.rule.reading import LENGTH
from core.document.model import Apart, End, EndsFrom, Project, Sheet, Shelf
from core.document.ranges import RANGES
from core.drawing.names import find_sheet, letter
from core.geometry.net import EDGES, OPPOSITE, EdgeName, Net
from core.geometry.parts import main_part
from core.geometry.shell import shell_net
from core.language import tr
from core.layout.clear import intrusion
from core.layout.model import Rect, trimmed
from core.layout.pin import index_of, pinned, with_shelf
from core.layout.slide import Neighbour, Slide, slide
from core.lengths import Unit, show_length
from core.plan.model import Plan

BODY: Final = ("top", "front", "bottom")
HEIGHT_AT: Final = 0.9  # of the front's length: clear of its name and letters


class Lying(NamedTuple):
    """A net as it lies on a sheet; `placed` is False where it found no room and is only drawn there."""

    shelf: str
    x: float
    y: float
    length: float
    width: float
    placed: bool


def lying_on(plan: Plan, sheet: str) -> tuple[Lying, ...]:
    """The nets that are shown on a sheet, the ones without room last; panels cut apart give way to them."""
    nets = (net for net in plan.nets if net.sheet == sheet and net.panel is None)
    found = [Lying(n.shelf, n.x, n.y, n.length, n.width, True) for n in nets]
    stock = next((s.stock for s in plan.sheets if s.id == sheet), sheet)
    found += [
        Lying(o.shelf, o.x, o.y, o.length, o.width, False)
        for o in plan.overruns
        if o.panel is None and o.sheet in (sheet, stock) and all(o.shelf != n.shelf for n in found)
    ]
    return tuple(found)


# Sliding


class NetGrip(Grip):
    """A net slid about on its sheet. It is pinned where it comes to lie, and so are the others of that sheet."""

    pull = "move"

    def __init__(self, plan: Plan, sheet: str, shelf: str) -> None:
        """Raises KeyError where that shelf's net is not shown on that sheet."""
        nets = {net.shelf: net for net in lying_on(plan, sheet)}
        self._net = nets[shelf]
        self._project = plan.project
        self._others = tuple(net for net in nets.values() if net.shelf != shelf and net.placed)
        self._stock, self._forbidden = _stock_of(plan, sheet)
        self._form, self._areas = main_part(plan.shapes[index_of(plan.project, shelf)]), find_sheet(plan, sheet).areas
        self.about = shelf
        self.label = tr("Place on the sheet of {shelf}", shelf=shelf)
        trim, limits = self._stock.trim, RANGES[Shelf]["at"]
        self._numbers = (
            Number("x", tr("from trued end"), LENGTH, self._net.x - trim, (1.0, 0.0), 1.0, limits),
            Number("y", tr("from lower edge"), LENGTH, self._net.y - trim, (0.0, 1.0), 1.0, limits),
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The net's lower left corner, from the trimmed corner of the sheet."""
        return self._numbers

    def drop(self, wanted: Values, aim: Aim) -> Edit:
        """At the nearest place that is allowed."""
        top, bottom = step_size(LENGTH, aim)
        reach = 0.0 if aim.fine else REACH * aim.pixel
        return self._edit(wanted, reach, top / bottom, aim.unit)

    def put(self, values: Values) -> Edit:
        """Exactly there, or, where it may not lie there, as near as it may."""
        return self._edit(values, 0.0, 0.0, Unit(self._project.units))

    def _edit(self, wanted: Values, reach: float, grid: float, unit: Unit) -> Edit:
        trim = self._stock.trim
        want = (wanted[0] + trim, wanted[1] + trim)
        if self._forbidden:
            return Edit(self._project, self.values, stop=self._forbidden)
        others = [Neighbour(n.shelf, (n.x, n.y, n.x + n.length, n.y + n.width)) for n in self._others]
        size = (self._net.length, self._net.width)
        kerf, form, areas = self._project.saw.kerf, self._form, self._areas
        found = slide(self._stock, size, want, others, kerf, reach, grid, form, areas)
        stop = self._stop_words(found, want, unit)
        if found.stop and (found.x, found.y) == want:  # it may lie nowhere at all
            return Edit(self._project, self.values, stop=stop)
        caught = "" if stop else _caught_words(found)
        return Edit(self._placed(found.x, found.y), (found.x - trim, found.y - trim), caught, stop)

    def _placed(self, x: float, y: float) -> Project:
        """The project with this net pinned there and the sheet's others where they lie."""
        net = self._net
        if net.placed and (x, y) == (net.x, net.y):
            return self._project
        project = self._project
        for other in self._others:
            project = pinned(project, other.shelf, self._stock.id, (other.x, other.y))
        return pinned(project, net.shelf, self._stock.id, (x, y))

    def _stop_words(self, found: Slide, want: Point, unit: Unit) -> str:
        """What keeps the net from where the hand is, with how much it is too far."""
        if not found.stop:
            return ""
        here = (want[0], want[1], want[0] + self._net.length, want[1] + self._net.width)
        if found.stop == "edge":
            over = _outside(here, trimmed(self._stock))
            return tr("{over} past the trimmed edge", over=show_length(over, unit, rounding="up"))
        if found.stop == "area":
            hit = intrusion(self._form, want, self._areas)
            by = show_length(hit.by, unit, rounding="up") if hit else ""
            return tr("{by} into the {other}", by=by, other=found.other).lstrip()
        if found.stop == "net":
            other = next(n for n in self._others if n.shelf == found.other)
            gap = _apart(here, (other.x, other.y, other.x + other.length, other.y + other.width))
            near = self._project.saw.kerf - gap
            return tr(
                "{near} too near to {letter}",
                near=show_length(near, unit, rounding="up"),
                letter=letter(index_of(self._project, other.shelf)),
            )
        return tr("no straight cut from edge to edge would part it there")


def _stock_of(plan: Plan, sheet: str) -> tuple[Sheet, str]:
    """The kind of a sheet, and why nets cannot be pinned on it ('' where they can)."""
    at = next((i for i, s in enumerate(plan.sheets) if s.id == sheet), -1)
    if at < 0:
        return next(s for s in plan.project.sheets if s.id == sheet), ""
    stock = plan.sheets[at].source
    first = next(i for i, s in enumerate(plan.sheets) if s.stock == stock.id)
    if first != at:
        return stock, tr("Only on the first sheet {id} is a place kept; this is {sheet}", id=stock.id, sheet=sheet)
    return stock, ""


def _caught_words(found: Slide) -> str:
    said = {
        "edge": tr("at the trimmed edge"),
        "kerf": tr("one cut apart"),
        "line": tr("in line"),
        "area": tr("beside what is kept clear"),
    }
    return ", ".join(dict.fromkeys(said[kind] for kind in found.snapped if kind))


def _outside(inner: Rect, room: Rect) -> float:
    return max(room[0] - inner[0], room[1] - inner[1], inner[2] - room[2], inner[3] - room[3])


def _apart(a: Rect, b: Rect) -> float:
    return max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])


# Handles


class Edge(NamedTuple):
    """A panel's edge that changes a size."""

    key: str
    size: Size
    role: str
    edge: EdgeName
    share: float = 0.5  # where along the edge


def edges_of(net: Net, ends_from: str) -> tuple[Edge, ...]:
    """The edges of a net that are pulled, whatever strip its ends are cut from."""
    roles = {panel.role for panel in net.panels}
    free = next((role for role in BODY if role != ends_from and role in roles), "front")
    outer: Size = "depth" if ends_from == "front" else "height"
    edges = [
        Edge("length", "length", free, "high_x"),
        Edge("length left", "length", free, "low_x"),
        Edge("depth", "depth", "top", "high_y"),
        Edge("depth below", "depth", "bottom", "low_y"),
        Edge("height", "height", "front", "high_y", HEIGHT_AT),
        Edge(tr("{outer} right", outer=outer), outer, "right", "high_x"),
        Edge(tr("{outer} left", outer=outer), outer, "left", "low_x"),
    ]
    if net.turned:  # what is the upper edge of the shelf's top is the lower one on the sheet
        edges = [edge._replace(edge=OPPOSITE[edge.edge], share=1.0 - edge.share) for edge in edges]
    return tuple(edge for edge in edges if edge.role in roles)


def net_handles(plan: Plan, sheet: str, shelf: str, only: str = "") -> tuple[Handle, ...]:
    """The handles of a shelf's net where it is shown on a sheet, or the one called `only`; none where it is not."""
    lying = next((net for net in lying_on(plan, sheet) if net.shelf == shelf), None)
    at = index_of(plan.project, shelf)
    if lying is None or at < 0:
        return ()
    net, wanted = main_part(plan.shapes[at]), plan.project.shelves[at]
    edges = (edge for edge in edges_of(net, wanted.ends_from) if only in ("", edge.key))
    return tuple(_handle(plan.project, wanted, net, lying, edge) for edge in edges)


def _handle(project: Project, shelf: Shelf, net: Net, lying: Lying, edge: Edge) -> Handle:
    sideways = edge.edge.endswith("_x")
    x0, y0, x1, y1 = net.panel(edge.role).box
    middle = (x0 + edge.share * (x1 - x0), y0 + edge.share * (y1 - y0))
    place = _coordinate(net, edge)
    at = (lying.x + (place if sideways else middle[0]), lying.y + (middle[1] if sideways else place))
    gain = _gain(shelf.left, shelf.right, shelf.ends_from, shelf.apart, shelf.turned, edge)
    axis = (1.0, 0.0) if sideways else (0.0, 1.0)
    if gain:
        return size_handle(project, shelf.id, edge.size, at, axis, 1.0 / gain, key=edge.key)
    along = _pin_follows(shelf, sideways) if shelf.at is not None else None
    return size_handle(project, shelf.id, edge.size, at, axis, -1.0, key=edge.key, along=along)


def _coordinate(net: Net, edge: Edge) -> float:
    """Where an edge is along the axis square to it, in the net's own axes."""
    column = (0, 2, 1, 3)[EDGES.index(edge.edge)]
    return net.panel(edge.role).box[column]


@lru_cache(maxsize=256)
def _gain(left: End, right: End, ends_from: EndsFrom, apart: tuple[Apart, ...], turned: bool, edge: Edge) -> float:
    """How far an edge moves on the sheet for a millimetre of its size, while the net's corner stays."""
    one = Shelf("", 1000.0, 200.0, 60.0, left=left, right=right, ends_from=ends_from, apart=apart, turned=turned)
    larger = msgspec.structs.replace(one, **{edge.size: getattr(one, edge.size) + 1.0})
    after, before = (main_part(shell_net(shelf, 45.0, 1.0)) for shelf in (larger, one))
    return round(_coordinate(after, edge) - _coordinate(before, edge), 9)


def _pin_follows(shelf: Shelf, sideways: bool) -> Along:
    """A pinned net that is pulled at its low side goes with the hand; its high side stays."""
    assert shelf.at is not None
    x, y = shelf.at

    def along(project: Project, grown: float) -> Project:
        place = (x - grown, y) if sideways else (x, y - grown)
        return with_shelf(project, index_of(project, shelf.id), at=place)

    return along
