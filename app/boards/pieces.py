"""Painting a sheet piece by piece: what has not changed since the last picture is not made again.

A drawing falls into what lies below the nets, the nets one by one, and what lies over them, each row of numbers by
itself. A piece that is the same as before keeps its scene, and soon a picture that is only
copied: while a hand drags one shelf the others cost next to nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from math import ceil, floor
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPixmap

from app.paint.painter import DrawingPainter
from app.paint.scene import Scene
from app.paint.wood import WoodFace
from core.drawing.fit import View
from core.drawing.flat import bounds
from core.drawing.flatten import extent
from core.drawing.model import Area, Box, Dimension, Drawing, Item, Layer, Line, Ordinates, Point, Sign, Text

UNDER: Final[frozenset[Layer]] = frozenset({"sheet", "waste", "offcut", "frame"})
NET: Final[frozenset[Layer]] = frozenset({"panel", "ghost", "void", "heel", "net", "mark", "label"})
# No shelf is called that: a / parts a shelf's name from a part's.
UNDERNEATH, MOVING, ABOVE = "/under", "/moving", "/over"
BELOW: Final[dict[Layer, str]] = {"sheet": "/ground"}  # what hardly ever changes, apart from what does
NO_BOX: Final[Box] = (0.0, 0.0, 0.0, 0.0)
MARGIN: Final = 6.0  # pixels round a piece that its lines and casings may take
MOST_PIXELS: Final = 1_500_000  # a larger picture of a piece is not kept


class Piece:
    """A part of a drawing that is kept while its items are the same."""

    def __init__(self, name: str, items: tuple[Item, ...], marks: tuple[Sign, ...] = ()) -> None:
        self.items = items
        self.drawing = Drawing(name, "", NO_BOX, items, marks=marks)
        self.painted = 0  # how often at this scale
        self.scale: tuple[float, float] = (0.0, 0.0)
        self.picture: QPixmap | None = None
        self.corner = QPointF()

    def box(self, view: View) -> Box:
        """What it takes at a view's scale, its words too. [mm]"""
        points = [point for item in self.items for point in _points(item)]
        if not points or view.plain:
            return bounds(points) if points else NO_BOX
        return extent(Drawing("", "", bounds(points), self.items), view.point)


class PiecePainter(DrawingPainter):
    """Paints like `DrawingPainter`; nets lie over everything of the sheet, and each is painted by itself."""

    def __init__(self, theme: str) -> None:
        super().__init__("dark" if theme == "dark" else "light")
        self._pieces: dict[str, Piece] = {}
        self._of: Drawing | None = None
        self.is_held = False  # is a hand dragging?
        self._still: set[Item] = set()

    @property
    def pieces(self) -> dict[str, Piece]:
        """The pieces of the last drawing, in the order they are painted: by shelf, and a few that are no shelf's."""
        return self._pieces

    def dress(self, theme: str) -> None:
        """Paint in another theme from now on."""
        self.theme = "dark" if theme == "dark" else "light"
        self._of, self._pieces = None, {}

    def lay(self, face: WoodFace | None) -> None:
        """Fill the wood with this face from now on."""
        self.face = face
        self._of, self._pieces = None, {}

    def paint(
        self,
        painter: QPainter,
        drawing: Drawing,
        view: View,
        chosen: Collection[str] = (),
        hover: str = "",
    ) -> None:
        """As `DrawingPainter.paint`. While `is_held`, only the nets of what is chosen are marked."""
        if drawing is not self._of:
            self._part(drawing)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(round(view.x * view.ratio) / view.ratio, round(view.y * view.ratio) / view.ratio)
        for piece in self._pieces.values():
            self._paint_piece(painter, piece, view)
        for scene in self._scenes_about({hover} if hover else set(), view):
            self._paint_hover(painter, scene, hover)
        for scene in self._scenes_about(set(chosen), view):
            self._paint_chosen(painter, scene, chosen)
            scene.paint_words_about(painter, chosen)  # a narrow part's outline does not hide its name
        painter.restore()

    def _scenes_about(self, names: set[str], view: View) -> Iterator[Scene]:
        """The scenes in which things of these names may lie."""
        if not names:
            return
        shelves = {name.partition("/")[0] for name in names}
        if self.is_held and not shelves.isdisjoint(self._pieces):
            yield from (self.scene(self._pieces[shelf].drawing, view) for shelf in shelves if shelf in self._pieces)
            return
        wanted = {UNDERNEATH, MOVING, *shelves}
        for name, piece in self._pieces.items():
            if name in wanted:
                yield self.scene(piece.drawing, view)

    def _part(self, drawing: Drawing) -> None:
        """The drawing's pieces; those that are the same as in the drawing before are kept."""
        under: dict[str, list[Item]] = {}
        nets: dict[str, list[Item]] = {}
        over: dict[str, list[Item]] = {}
        shelves: dict[str, str] = {}  # of each thing: many items are about the same few
        for item in _loose(drawing, nets):
            kind = type(item)
            if kind is Ordinates or kind is Dimension:
                over.setdefault(f"{ABOVE} {getattr(item, 'axis', '')}", []).append(item)
                continue
            layer: Layer = item.layer  # type: ignore[attr-defined]  # every other kind of item has one
            about: str = item.about  # type: ignore[attr-defined]  # the same
            if layer in NET and about:
                shelf = shelves.get(about)
                if shelf is None:
                    shelf = shelves[about] = about.partition("/")[0]
                place, name = nets, shelf
            elif layer in UNDER:
                place, name = under, BELOW.get(layer, UNDERNEATH)
            else:
                place, name = over, ABOVE
            if name in place:
                place[name].append(item)
            else:
                place[name] = [item]
        before = self._pieces
        if UNDERNEATH in under:
            under |= self._still_and_moving(under.pop(UNDERNEATH))
        marks = tuple(item for item in over.get(ABOVE, ()) if isinstance(item, Sign) and item.layer == "datum")
        self._pieces = {name: _kept(before.get(name), name, items, marks) for name, items in under.items()}
        self._pieces |= {name: _kept(before.get(name), name, items) for name, items in (nets | over).items()}
        self._of = drawing

    def _still_and_moving(self, items: list[Item]) -> dict[str, list[Item]]:
        """What lies under the nets, parted into what lies as it lay and the rest: a hand moves only some of it."""
        now = set(items)
        self._still = self._still & now if self.is_held else now
        parts: dict[str, list[Item]] = {}
        for item in items:
            parts.setdefault(UNDERNEATH if item in self._still else MOVING, []).append(item)
        return parts

    def _paint_piece(self, painter: QPainter, piece: Piece, view: View) -> None:
        scale = (view.scale, view.ratio)
        if piece.scale != scale:
            piece.scale, piece.painted, piece.picture = scale, 0, None
        piece.painted += 1
        if piece.picture is None and piece.painted > 1:
            self._take_picture(piece, view)
        if piece.picture is not None:
            painter.drawPixmap(piece.corner, piece.picture)
        else:
            _paint_scene(painter, self.scene(piece.drawing, view))

    def _take_picture(self, piece: Piece, view: View) -> None:
        """A picture of what is painted the same twice."""
        scale, ratio = view.scale, view.ratio
        x0, y0, x1, y1 = piece.box(view)
        left, top = floor(scale * x0 - MARGIN), floor(-scale * y1 - MARGIN)
        wide, tall = ceil(scale * x1 + MARGIN) - left, ceil(-scale * y0 + MARGIN) - top
        if wide * tall * ratio * ratio > MOST_PIXELS:
            return
        picture = QPixmap(round(wide * ratio), round(tall * ratio))
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setClipRect(QRectF(0, 0, wide, tall))
        painter.translate(-left, -top)
        _paint_scene(painter, self.scene(piece.drawing, view))
        painter.end()
        piece.picture, piece.corner = picture, QPointF(left, top)


def _loose(drawing: Drawing, nets: dict[str, list[Item]]) -> Iterator[Item]:
    """The items that belong to no net as a whole; those that do are put there."""
    items, after = drawing.items, 0
    for name, first, end in drawing.runs:
        yield from items[after:first]
        nets.setdefault(name, []).extend(items[first:end])
        after = end
    yield from items[after:]


def _kept(before: Piece | None, name: str, items: list[Item], marks: tuple[Sign, ...] = ()) -> Piece:
    """The piece as it was where nothing in it has changed, else a new one. marks: its words keep off them."""
    now = tuple(items)
    same = before is not None and before.items == now and before.drawing.marks == marks
    return before if before is not None and same else Piece(name, now, marks)


def _points(item: Item) -> tuple[Point, ...]:
    """Places that an item has in any case."""
    if isinstance(item, Area | Line):
        return item.points
    if isinstance(item, Text | Sign):
        return (item.at,)
    if isinstance(item, Dimension):
        return (item.start, item.end)
    if isinstance(item, Ordinates):
        upright = item.axis == "x"
        return tuple((place, item.base) if upright else (item.base, place) for place, _ in item.marks)
    return ()


def _paint_scene(painter: QPainter, scene: Scene) -> None:
    scene.paint_ground(painter)
    scene.paint_ink(painter)
    scene.paint_words(painter)
