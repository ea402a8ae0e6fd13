"""One cut in section at true scale: the wood, the blade as it leans, what guides it, what is kept and what falls.

Left is what `core.drawing.cutstep` has at the left, or below; the face that is up is up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

import msgspec

from core.drawing.cutstep import bench_at
from core.drawing.flat import bounds, united
from core.drawing.model import Align, Area, Box, Drawing, Item, Layer, Line, Point, Text
from core.drawing.profile import broken, profile
from core.language import tr
from core.lengths import show_angle
from core.plan.model import Plan, Side
from core.sawing.piece import Piece
from core.sawing.piece import Side as Lines
from core.steps.lying import Bench
from core.steps.section import OTHER, SIGN, Section, section

REACH: Final = 2.1  # of the thickness: wood drawn on each side of the cut
PACKED: Final = 1.8  # of the thickness: how much of a packer is drawn
NARROW: Final = 2.1  # of that: wood that ends nearer than this is drawn to its end
OUT: Final = (0.95, 0.3)  # of the thickness: how far the blade is drawn past the wood, on the saw's side and beyond
RAIL: Final = 0.34  # of the thickness: how high a guide rail is drawn
FENCE: Final = (0.6, 2.1)  # of the thickness: width and height of a fence
ASIDE: Final = (0.55, 0.25)  # of the thickness: how far a piece that falls is drawn aside, and down
BREAK: Final = 0.17  # of the thickness: depth of the jag where wood is cut off
WORDS: Final = (0.36, 0.64)  # of the thickness: from where to where a line of words in the middle reaches
STUB: Final = (0.3, 0.7)  # of the thickness: the gap of a break, and the wood drawn beyond it


class _Cutting(msgspec.Struct, frozen=True):
    """What the drawing is made from; the drawing's x = 0 is at the toe, y = 0 at the face that is up."""

    bench: Bench
    cut: Section
    plan: Plan

    @property
    def t(self) -> float:
        """Thickness. [mm]"""
        return self.bench.work.thickness

    def side(self, side: Side) -> float:
        """Towards a side of the sheet as seen: -1 is left."""
        return SIGN[self.bench.turn.side(self.bench.axis, side)]

    def across(self, place: float) -> float:
        """Where a place of the sheet lies across the cut."""
        return (place - self.cut.at) * self.side("high")

    def height(self, y: float) -> float:
        """Where a height lies that counts from the show face, which is 0, down to -t."""
        return y if self.cut.face == "up" else -self.t - y

    def points(self, polygon: tuple[Point, ...]) -> tuple[Point, ...]:
        """A polygon of the sheet as seen."""
        return tuple((self.across(x), self.height(y)) for x, y in polygon)


def draw_cut_section(plan: Plan, number: int) -> Drawing:
    """The section of a step's cut, numbered from 1. Raises KeyError where there is no such step."""
    bench = bench_at(plan, number)
    step = bench.step
    cut = section(plan.project.saw, bench.work.thickness, step.at, step.bevel, step.keep)
    c = _Cutting(bench, cut, plan)
    items = [*_ground(c), *_wood(c), *_packer(c), *_guide(c), *_blade(c)]
    reach = (REACH + 0.4) * c.t
    least = (-reach, -1.3 * c.t, reach, 1.3 * c.t)
    box = united([least, *(bounds(item.points) for item in items if isinstance(item, Area))])
    return Drawing(
        f"cut section {number}", tr("Cut {number} in section", number=number), box, (*items, *_words(c, box))
    )


def reach_of(c: _Cutting, piece: Piece, side: Side) -> float:
    """How far wood is drawn towards a side: to its end where that is near. [mm]"""
    end = _end(piece, c.bench.axis, side)
    far = abs(end - c.cut.at)
    return far + 1.0 if far <= NARROW * REACH * c.t else REACH * c.t


def _end(piece: Piece, axis: str, side: Side) -> float:
    lines = _lines(piece, axis, side)
    faces = ([line[face] for line in lines] for face in (0, 1))
    return min(max(f) for f in faces) if side == "low" else max(min(f) for f in faces)


def _lines(piece: Piece, axis: str, side: Side) -> Lines:
    if axis == "x":
        return piece.x_low if side == "low" else piece.x_high
    return piece.y_low if side == "low" else piece.y_high


def _shown(c: _Cutting, piece: Piece) -> tuple[Point, ...]:
    """A piece in section, cut off where it reaches too far, as seen."""
    whole = c.bench.work.before[0]
    low = c.cut.at - reach_of(c, whole, "low")
    high = c.cut.at + reach_of(c, whole, "high")
    lows = (*_lines(piece, c.bench.axis, "low"), (low, low))
    highs = (*_lines(piece, c.bench.axis, "high"), (high, high))
    points = profile(lows, highs, c.t)
    for place, side in ((low, "low"), (high, "high")):
        if _is_far(c, whole, "low" if side == "low" else "high"):
            points = broken(points, place, BREAK * c.t)
    return c.points(points)


def _is_far(c: _Cutting, piece: Piece, side: Side) -> bool:
    """Is the wood drawn cut off on a side?"""
    return abs(_end(piece, c.bench.axis, side) - c.cut.at) > NARROW * REACH * c.t


def _ground(c: _Cutting) -> Iterator[Item]:
    """The table, or the bed a guided saw cuts into."""
    reach = (REACH + 0.4) * c.t
    yield Line("note", ((-reach, -c.t), (reach, -c.t)))


def _wood(c: _Cutting) -> Iterator[Item]:
    """The two sides of the cut: kept, sawn on, or falling aside."""
    step = c.bench.step
    falls = {fall.piece: fall for fall in step.falls}
    for side, piece in zip(("low", "high"), c.bench.work.made[0], strict=True):
        if piece is None:
            continue
        name: Side = "low" if side == "low" else "high"
        points = _shown(c, piece)
        if not points:
            continue
        fall = falls.get(piece.name)
        layer: Layer = "kept" if name == step.keep else "work"
        words = "keep" if name == step.keep else ""
        if fall is not None and fall.kind in ("triangle", "waste"):
            layer, words = "fallen", tr("{words} falls", words=fall.words)
            if fall.lies == "off":
                dx, dy = c.side(name) * ASIDE[0] * c.t, -ASIDE[1] * c.t if fall.kind == "triangle" else 0.0
                points = tuple((x + dx, y + dy) for x, y in points)
        yield Area(layer, points, piece.name)
        yield from _piece_words(c, layer, points, words)


def _piece_words(c: _Cutting, layer: Layer, points: tuple[Point, ...], words: str) -> Iterator[Text]:
    x0, y0, x1, y1 = bounds(points)
    if layer == "fallen" and x1 - x0 < 2.6 * c.t:
        off = c.across(c.cut.at) <= (x0 + x1) / 2.0  # from its side next to the blade on, away from blade and guide
        at = x0 if off else x1
        align: Align = "left" if off else "right"
        yield Text("note", (at, min(y0, -c.t)), words, 9.0, align, valign="top", shift=(0.0, -4.0))
    elif words:
        words_layer: Layer = "waste" if layer == "fallen" else layer
        middle = (_clear_middle(points), (y0 + y1) / 2.0)
        yield Text(words_layer, middle, words, 11.0, "middle", room=(x0, y0, x1, y1), clear=True)


def _clear_middle(points: tuple[Point, ...]) -> float:
    """In the middle of what is wood as high as a line of words."""
    x0, y0, x1, y1 = bounds(points)
    heights = [_across(points, y0 + share * (y1 - y0)) for share in WORDS]
    low, high = max(min(places) for places in heights), min(max(places) for places in heights)
    return (low + high) / 2.0 if low < high else (x0 + x1) / 2.0


def _across(points: tuple[Point, ...], height: float) -> list[float]:
    """Where the outline of a polygon crosses a height. [mm]"""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return [
        x0 + (x1 - x0) * (height - y0) / (y1 - y0)
        for (x0, y0), (x1, y1) in pairs
        if (y0 - height) * (y1 - height) < 0.0
    ]


def _rail(c: _Cutting) -> tuple[float, float]:
    """The guide rail's edge at the cut, and its back, as seen."""
    edge = c.cut.at + SIGN[c.cut.guide] * c.cut.edge
    return c.across(edge), c.across(edge + SIGN[c.cut.guide] * c.bench.guide_width)


def _guide(c: _Cutting) -> Iterator[Item]:
    if c.bench.is_guided:
        edge, back = _rail(c)
        limit = c.side(c.cut.guide) * max((REACH + 0.45) * c.t, _packed(c))
        far = min(back, limit, key=abs)
        x0, x1 = min(edge, far), max(edge, far)
        rail = (x0, 0.0, x1, RAIL * c.t)
        corners = _corners(rail)
        yield Area("guide", corners if far == back else broken(corners, far, BREAK * RAIL * c.t))
        yield Text("note", ((x0 + x1) / 2.0, rail[3]), "guide", 9.0, "middle", valign="bottom", shift=(0.0, 3.0))
        return
    yield from _fence(c)


def _fence(c: _Cutting) -> Iterator[Item]:
    """A fence or stop against the far end of the wood; where that is far, beyond a break."""
    whole, side = c.bench.work.before[0], c.cut.guide
    if c.bench.step.set_by.on_line and c.bench.step.set_by.device == "stop":
        return
    way = c.side(side)
    near = c.across(_end(whole, c.bench.axis, side))
    if _is_far(c, whole, side):
        stub, near = _stub(c, whole)
        yield Area("kept" if side == c.cut.keep else "work", stub)
    wide, high = FENCE[0] * c.t, FENCE[1] * c.t
    x0, x1 = sorted((near, near + way * wide))
    box = (x0, -c.t, x1, high - c.t)
    yield Area("guide", _corners(box))
    words = "fence" if c.bench.step.set_by.device == "fence" else "stop"
    yield Text("note", ((x0 + x1) / 2.0, high - c.t), words, 9.0, "middle", valign="bottom", shift=(0.0, 3.0))


def _stub(c: _Cutting, whole: Piece) -> tuple[tuple[Point, ...], float]:
    """The end of the wood at the fence, drawn nearer beyond a break, and where the fence stands; as seen."""
    side, edge = c.cut.guide, _lines(whole, c.bench.axis, c.cut.guide)
    sign, wide = SIGN[side], max(abs(show - inside) for show, inside in edge) + STUB[1] * c.t
    first = c.cut.at + sign * (REACH + STUB[0]) * c.t
    shift = first + sign * wide - _end(whole, c.bench.axis, side)
    ends: Lines = tuple((show + shift, inside + shift) for show, inside in edge)
    start: Lines = ((first, first),)
    low, high = (start, ends) if side == "high" else (ends, start)
    points = broken(profile(low, high, c.t), first, BREAK * c.t)
    return c.points(points), c.across(first + sign * wide)


def _corners(box: Box) -> tuple[Point, Point, Point, Point]:
    x0, y0, x1, y1 = box
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _packed(c: _Cutting) -> float:
    """How far from the toe a packer is drawn, so that the guide is seen to lie on it; 0 where none is. [mm]"""
    if c.bench.step.packer is None:
        return 0.0
    far = abs(_end(c.bench.work.before[0], c.bench.axis, c.cut.guide) - c.cut.at)
    return 0.0 if far > NARROW * REACH * c.t else far + PACKED * c.t


def _packer(c: _Cutting) -> Iterator[Item]:
    """The wood that carries the guide, pushed up against what lies under it."""
    packer, side = c.bench.step.packer, c.cut.guide
    if packer is None:
        return
    whole, axis = c.bench.work.before[0], c.bench.axis
    end = _end(whole, axis, side)
    if abs(end - c.cut.at) > NARROW * REACH * c.t:
        return
    limit = c.cut.at + SIGN[side] * (abs(end - c.cut.at) + PACKED * c.t)
    edge: Lines = ((end, end),)
    piece = next((one.piece for one in c.bench.others if one.piece.name == packer.pieces[0]), None)
    if packer.toe_to_toe and piece is not None:
        facing, own = _lines(piece, axis, OTHER[side]), _lines(whole, axis, side)
        gap = min((facing[0][face] - own[0][face]) * SIGN[side] for face in (0, 1))
        edge = tuple((a - SIGN[side] * gap, b - SIGN[side] * gap) for a, b in facing)
    stop: Lines = ((limit, limit),)
    low, high = (edge, stop) if side == "high" else (stop, edge)
    points = c.points(broken(profile(low, high, c.t), limit, BREAK * c.t))
    if points:
        yield Area("packer", points)
        x0, y0, x1, y1 = bounds(points)
        middle, room = ((x0 + x1) / 2.0, (y0 + y1) / 2.0), (x0, y0, x1, y1)
        yield Text("packer", middle, "packer", 9.0, "middle", room=room, clear=True)


def _blade(c: _Cutting) -> Iterator[Item]:
    """The blade's slab, longer on the side the saw is on."""
    up, down = OUT if c.bench.is_guided else (OUT[1], OUT[0])
    if c.cut.face == "down":
        up, down = down, up  # counted from the show face
    ends = (up, -1.0 - down)
    edges = [_slab(c, side) for side in ("low", "high")]
    points = (
        (edges[0](ends[0]), ends[0] * c.t),
        (edges[1](ends[0]), ends[0] * c.t),
        (edges[1](ends[1]), ends[1] * c.t),
        (edges[0](ends[1]), ends[1] * c.t),
    )
    yield Area("saw", c.points(points))


def _slab(c: _Cutting, side: str) -> Callable[[float], float]:
    """Where one face of the slab stands at a height counted in thicknesses from the show face up."""
    name: Side = "low" if side == "low" else "high"
    show, inside = c.cut.slab(name, inside=False), c.cut.slab(name, inside=True)
    return lambda height: show + (show - inside) * height


def _words(c: _Cutting, box: Box) -> Iterator[Item]:
    """Tilt, the face that is up, and which side is which."""
    tilt = tr("blade {bevel}", bevel=show_angle(c.cut.bevel)) if c.cut.bevel else tr("blade square")
    left = c.side(c.cut.guide) > 0  # away from the guide
    corner = (box[0] if left else box[2], box[3])
    yield Text("title", corner, tilt, 11.0, "left" if left else "right", valign="bottom", shift=(0.0, 2.0))
    row = (0.0, -22.0)
    yield Text("note", (box[0], -c.t), _side_name(c, "low"), 9.0, valign="top", shift=row)
    yield Text("note", (box[2], -c.t), _side_name(c, "high"), 9.0, "right", valign="top", shift=row)
    down = c.cut.face == "down"
    middle, face = (box[0] + box[2]) / 2.0, tr("show face down, seen from the back") if down else tr("show face up")
    below, low = (-c.t, -35.0) if c.bench.is_guided else (box[1], -16.0)  # a table saw's blade reaches far down
    yield Text("trouble" if down else "note", (middle, below), face, 9.0, "middle", valign="top", shift=(0.0, low))
    bed = tr("foam bed") if c.bench.is_guided else "table"
    at = box[2] if left else box[0]  # under the guide: what falls has its name off it
    align: Align = "right" if left else "left"
    yield Text("note", (at, -c.t), bed, 9.0, align, valign="top", shift=(0.0, -3.0), clear=True)


def _side_name(c: _Cutting, seen: str) -> str:
    """What a side of the picture is: at the fence, near or far from the trued edge, left or right."""
    by = c.bench.step.set_by
    if not c.bench.is_guided and not (by.on_line and by.device == "stop"):
        word = "fence" if c.bench.step.set_by.device == "fence" else "stop"
        return tr("{word} side", word=word) if seen == "low" else tr("outer side")
    if c.bench.axis == "x":
        return tr("left side") if seen == "low" else tr("right side")
    near_is_low = (c.bench.step.datum == "low") == (c.side("low") < 0)
    return tr("near side") if (seen == "low") == near_is_low else tr("far side")
