from typing import get_args

import msgspec
import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QFontDatabase, QFontMetricsF, QImage, QPainter

from app.boards.pieces import PiecePainter
from app.paint import painter as painter_module
from app.paint.fonts import load_fonts
from app.paint.glyphs import paint_font
from app.paint.painter import DrawingPainter
from app.paint.textures import hatch_brush
from core.drawing.fit import View, fit
from core.drawing.flatten import flatten
from core.drawing.measure import text_width
from core.drawing.model import Drawing, Layer, Sign, Text
from core.drawing.sheet import draw_sheet
from core.drawing.style import COLOURS, FRAME, LAYERS, STYLES, WASTE, Hatch, Theme
from tests.drawing.plans import plan_of

pytestmark = pytest.mark.usefixtures("qapp")
SIZE = (1078, 340)


def painted(theme: Theme = "light", chosen: tuple[str, ...] = (), hover: str = "") -> tuple[QImage, View]:
    drawing = draw_sheet(plan_of("hallway"), "A1")
    view = fit(drawing, *SIZE)
    image = QImage(*SIZE, QImage.Format.Format_RGB32)
    image.fill(QColor(COLOURS[theme]["paper"]))
    painter = QPainter(image)
    DrawingPainter(theme).paint(painter, drawing, view, chosen, hover)
    painter.end()
    return image, view


def test_the_bundled_family_is_there() -> None:
    assert load_fonts() in QFontDatabase.families()


@pytest.mark.parametrize("strong", [False, True])
@pytest.mark.parametrize("text", ['10-3/16" +', "A top", "show face up", "left over: 95 × 21 in", "258.8 mm"])
def test_estimated_widths_are_qts(text: str, strong: bool) -> None:
    """The estimate leaves kerning out: never narrower than Qt's text by more than rounding, at most 6 % wider."""
    real = QFontMetricsF(paint_font(200.0, strong=strong)).horizontalAdvance(text)
    assert 0.995 * real <= text_width(text, 200.0, strong) <= 1.06 * real


def test_every_layer_has_a_style() -> None:
    assert set(LAYERS) == set(get_args(Layer))
    assert all(style.words in COLOURS["light"] for style in STYLES.values())
    assert all(table.keys() == COLOURS["light"].keys() for table in COLOURS.values())


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_panels_are_wood_on_either_ground(theme: Theme) -> None:
    image, view = painted(theme)
    panel = next(p for p in plan_of("hallway").panels if p.id == "ledge/top")
    assert panel.x is not None
    assert panel.y is not None
    x, y = view.to_surface((panel.x + 0.9 * panel.show[0], panel.y + 0.5 * panel.show[1]))
    wood = QColor(COLOURS[theme]["wood"])
    near = image.pixelColor(QPoint(round(x), round(y)))
    assert abs(near.red() - wood.red()) + abs(near.green() - wood.green()) < 60
    assert image.pixelColor(3, 3) == QColor(COLOURS[theme]["paper"])


def test_paper_is_grey_at_most_where_lines_are_smoothed() -> None:
    image, _ = painted("paper")
    for x in range(0, SIZE[0], 2):
        for y in range(0, SIZE[1], 2):
            colour = image.pixelColor(x, y)
            assert colour.red() == colour.green() == colour.blue()


def test_what_is_chosen_is_outlined_in_chalk() -> None:
    chalk = QColor(COLOURS["light"]["wood_chalk"])

    def count(image: QImage) -> int:
        return sum(image.pixelColor(x, y) == chalk for x in range(SIZE[0]) for y in range(0, SIZE[1], 2))

    none, one, shelf = (count(painted(chosen=c)[0]) for c in ((), ("ledge/top",), ("ledge",)))
    assert none == 0
    assert 0 < one < shelf


def test_the_outline_of_a_narrow_part_leaves_its_name_readable() -> None:
    """Of the ink that is there while nothing is chosen only lines behind the name are covered."""
    drawing, size = draw_sheet(plan_of("hallway"), "A1"), (520, 340)
    view = fit(drawing, *size)
    words = next(w for w in flatten(drawing, view.point).words if w.about == "short/front" and w.strong)
    places = [view.to_surface(corner) for corner in words.corners(view.point)]
    columns, rows = zip(*places, strict=True)

    def inked(chosen: tuple[str, ...]) -> set[tuple[int, int]]:
        image = QImage(*size, QImage.Format.Format_RGB32)
        image.fill(QColor(COLOURS["light"]["paper"]))
        painter = QPainter(image)
        PiecePainter("light").paint(painter, drawing, view, chosen)
        painter.end()
        across = range(round(min(columns)), round(max(columns)))
        down = range(round(min(rows)), round(max(rows)))
        return {(x, y) for x in across for y in down if QColor(image.pixel(x, y)).lightness() < 80}

    plain = inked(())
    assert len(plain) > 20
    assert len(plain & inked(("short",))) > 0.8 * len(plain)


def test_words_keep_off_the_mark_of_the_trued_edge() -> None:
    """A piece painted by itself leaves room for the mark that another piece paints, as the whole drawing does."""
    room = (0.0, 0.0, 400.0, 60.0)
    text = Text("offcut", (380.0, 50.0), "left over: 44 × 7", 9.0, "right", room=room, clear=True)
    mark = Sign("datum", (384.0, 60.0), (((-5.0, -10.0), (0.0, -1.0), (5.0, -10.0)),))
    piece = Drawing("/under", "", room, (text,))
    assert len(flatten(piece, 1.0).words) == 1
    assert flatten(msgspec.structs.replace(piece, marks=(mark,)), 1.0).words == ()
    drawing = draw_sheet(plan_of("hallway"), "A1")
    brush, image = PiecePainter("light"), QImage(*SIZE, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    brush.paint(painter, drawing, fit(drawing, *SIZE))
    painter.end()
    assert len(brush.pieces["/under"].drawing.marks) == 2


def test_what_is_under_the_pointer_is_washed() -> None:
    assert painted()[0] != painted(hover="ledge/top")[0]


def test_moving_the_view_makes_nothing_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    drawing = draw_sheet(plan_of("hallway"), "A1")
    view = fit(drawing, *SIZE)
    made: list[float] = []
    real = painter_module.flatten

    def counting(*arguments: object, **named: object) -> object:
        made.append(1.0)
        return real(*arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(painter_module, "flatten", counting)
    image = QImage(*SIZE, QImage.Format.Format_RGB32)
    brush, painter = DrawingPainter("light"), QPainter(image)
    for step in range(5):
        moved = View(view.scale, view.x + step, view.y, view.ratio, view.points, view.plain)
        brush.paint(painter, drawing, moved)
    assert len(made) == 1
    brush.paint(painter, drawing, View(view.scale * 2.0, view.x, view.y))
    assert len(made) == 2
    brush.theme = "dark"
    brush.paint(painter, drawing, view)
    painter.end()
    assert len(made) == 3


def test_parts_are_found_under_the_pointer() -> None:
    plan = plan_of("hallway")
    drawing = draw_sheet(plan, "A1")
    view, brush = fit(drawing, *SIZE), DrawingPainter("light")
    for panel in plan.panels:
        assert panel.x is not None
        assert panel.y is not None
        x, y = view.to_surface((panel.x + panel.show[0] / 2, panel.y + panel.show[1] / 2))
        assert brush.part_at(drawing, view, x, y) == panel.id
        box = brush.part_box(drawing, view, panel.id)
        assert box.width() == pytest.approx(panel.show[0] * view.scale)
        assert box.contains(x, y)
    assert brush.part_at(drawing, view, -50.0, -50.0) == ""
    assert brush.part_box(drawing, view, "nothing").isNull()


@pytest.mark.parametrize(("hatch", "angle"), [(WASTE, 45.0), (FRAME, 30.0)])
@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
def test_hatch_tiles_have_the_angle_of_the_lines_on_paper(hatch: Hatch, angle: float, ratio: float) -> None:
    """A tile repeats without a break only if its diagonal is the line: its sides give the angle."""
    from math import atan2, degrees

    tile = hatch_brush(hatch, "#000000", 4.0 / 3.0, ratio).texture()
    assert degrees(atan2(tile.height(), tile.width())) == pytest.approx(angle, abs=1.5)
    spacing = tile.width() * tile.height() / (tile.width() ** 2 + tile.height() ** 2) ** 0.5 / ratio
    assert spacing == pytest.approx(hatch.spacing * 4.0 / 3.0, rel=0.06)
