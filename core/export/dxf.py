"""Drawings as one DXF file (R2010): 1:1 in millimetres on our own layers, several drawings side by side."""

from __future__ import annotations

from collections.abc import Iterable
from io import StringIO
from math import cos, radians, sin
from typing import TYPE_CHECKING, Final

from core.drawing.flat import Flat, Words
from core.drawing.measure import CAP, clean
from core.drawing.model import Area, Drawing, Layer, Point
from core.drawing.style import LAYERS, STYLES, Hatch, Role
from core.export.page import made_plain

if TYPE_CHECKING:  # ezdxf takes a third of a second to import: only when a file is written
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

VERSION: Final = "R2010"
MILLIMETRES: Final = 4  # of $INSUNITS
GAP: Final = 30.0  # points between drawings
TITLE: Final = 16.5  # points
FONT: Final = "SourceSansPro-Regular.ttf"
FONT_STRONG: Final = "SourceSansPro-Semibold.ttf"
STYLE: Final = "GRAINFOLD"
STYLE_STRONG: Final = "GRAINFOLD STRONG"
# AutoCAD colour index: 7 is black or white by the ground, 8 grey, 1 red, 5 blue.
COLOUR: Final[dict[Role, int]] = {"soft": 8, "wood_soft": 8, "hatch": 8, "grain": 8, "hairline": 9}
COLOUR_OTHER: Final[dict[Role, int]] = {"trouble": 1, "wood_trouble": 1, "chalk": 5, "wood_chalk": 5, "glue": 5}
PENS: Final = (5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100)  # 1/100 mm, those DXF knows


def dxf_bytes(drawings: Iterable[Drawing]) -> bytes:
    """The file, in UTF-8. A line measured in it is as long as in the plan; words and dashes have sizes of their own."""
    from ezdxf.filemanagement import new

    document = new(VERSION)
    document.header["$INSUNITS"] = MILLIMETRES
    document.header["$MEASUREMENT"] = 1
    document.header["$LUNITS"] = 2
    document.styles.add(STYLE, font=FONT)
    document.styles.add(STYLE_STRONG, font=FONT_STRONG)
    _add_layers(document)
    space = document.modelspace()
    x = 0.0
    for drawing, flat in made_plain(drawings):
        _Setting(space, flat, x - flat.box[0]).draw(drawing)
        x += flat.box[2] - flat.box[0] + GAP * flat.point
    stream = StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8", "replace")


def _add_layers(document: Document) -> None:
    """A layer for each of ours, with its colour, pen and dashes (in points; entities carry their scale)."""
    for layer in LAYERS:
        style = STYLES[layer]
        kind = "CONTINUOUS"
        if style.dash:
            kind = f"GRAINFOLD {layer}".upper()
            dashes = [length * (1.0 if i % 2 == 0 else -1.0) for i, length in enumerate(style.dash)]
            document.linetypes.add(kind, [sum(style.dash), *dashes], description=layer)
        pen = style.width * 100.0 * 25.4 / 72.0
        document.layers.add(
            layer,
            color=_colour(style.ink or style.words),
            linetype=kind,
            lineweight=min(PENS, key=lambda known: abs(known - pen)),
        )


def _colour(role: Role) -> int:
    return COLOUR.get(role, COLOUR_OTHER.get(role, 7))


class _Setting:
    """One drawing set into the model space, moved sideways by `shift`."""

    def __init__(self, space: Modelspace, flat: Flat, shift: float) -> None:
        self._space = space
        self._flat = flat
        self._shift = shift

    def draw(self, drawing: Drawing) -> None:
        """Outlines, hatches, lines, words and the title over them."""
        for area in self._flat.areas:
            self._area(area)
        for line in self._flat.lines:
            self._polyline(line.layer, line.points, closed=False)
        for words in self._flat.words:
            self._text(words)
        x0, _, _, y1 = self._flat.box
        at = (x0, y1 + TITLE * self._flat.point)
        self._text(Words("title", at, drawing.title, TITLE, "left", 0.0, "", False, 0.0))

    def _at(self, place: Point) -> Point:
        return (place[0] + self._shift, place[1])

    def _polyline(self, layer: Layer, points: Iterable[Point], *, closed: bool) -> None:
        attributes = {"layer": layer, "ltscale": self._flat.point}
        self._space.add_lwpolyline([self._at(p) for p in points], format="xy", close=closed, dxfattribs=attributes)

    def _area(self, area: Area) -> None:
        style = STYLES[area.layer]
        self._polyline(area.layer, area.points, closed=True)
        if style.hatch:
            hatch = self._space.add_hatch(color=_colour(style.hatch.ink), dxfattribs={"layer": area.layer})
            hatch.set_pattern_fill(area.layer.upper(), definition=self._pattern(style.hatch))
            hatch.paths.add_polyline_path([self._at(p) for p in area.points], is_closed=True)

    def _pattern(self, hatch: Hatch) -> list[tuple[float, Point, Point, list[float]]]:
        """The hatch as DXF has it: for each family of lines its angle, a point on it, and the step to the next."""
        point = self._flat.point
        lines: list[tuple[float, Point, Point, list[float]]] = []
        for angle in hatch.angles:
            square = (-sin(radians(angle)), cos(radians(angle)))
            for offset in (0.0, hatch.pair) if hatch.pair else (0.0,):
                base = (square[0] * offset * point, square[1] * offset * point)
                step = (square[0] * hatch.spacing * point, square[1] * hatch.spacing * point)
                lines.append((angle, base, step, []))
        return lines

    def _text(self, words: Words) -> None:
        from ezdxf.enums import TextEntityAlignment

        places = {
            "left": TextEntityAlignment.LEFT,
            "middle": TextEntityAlignment.CENTER,
            "right": TextEntityAlignment.RIGHT,
        }
        text = self._space.add_text(
            clean(words.text).replace("%%", "% %"),  # two of them begin a code
            height=words.size * CAP * self._flat.point,
            rotation=words.angle,
            dxfattribs={
                "layer": words.layer,
                "style": STYLE_STRONG if words.strong else STYLE,
                "color": _colour(STYLES[words.layer].words),
            },
        )
        text.set_placement(self._at(words.at), align=places[words.align])
