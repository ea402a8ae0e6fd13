"""Which seams the eye sees, as the wall board draws them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QLineF, QRectF

from app.boards.wall_sight import OUTSET, Sight
from app.window.window import Window
from core.document.model import Mount, Project, Sheet, Shelf
from core.plan.make import make_plan

SHEET = Sheet("A", 2800.0, 1500.0)
LOW = Shelf("low", 1100.0, 200.0, 70.0, mount=Mount(700.0, 900.0))
HIGH = Shelf("high", 1100.0, 200.0, 70.0, right="open", ends_from="top", mount=Mount(700.0, 1900.0))
BOX = QRectF(10.0, 20.0, 300.0, 15.0)
EDGE = BOX.adjusted(-OUTSET, -OUTSET, OUTSET, OUTSET)  # drawn round the wood


def drawn(shelf: Shelf) -> list[list[QLineF]]:
    project = Project((SHEET,), (shelf,), units="mm")
    return list(Sight().lines(project, make_plan(project).seams, [BOX]))


def test_under_the_eye_the_upper_edge_and_the_ends_run_on() -> None:
    whole, turned = drawn(LOW)
    assert whole == [
        QLineF(EDGE.topLeft(), EDGE.topRight()),
        QLineF(EDGE.topLeft(), EDGE.bottomLeft()),
        QLineF(EDGE.topRight(), EDGE.bottomRight()),
    ]
    assert turned == []


def test_over_the_eye_the_lower_edge_runs_on_and_an_end_from_the_top_turns() -> None:
    whole, turned = drawn(HIGH)
    assert whole == [QLineF(EDGE.bottomLeft(), EDGE.bottomRight())]
    assert turned == [QLineF(EDGE.topLeft(), EDGE.bottomLeft())]


def test_the_board_draws_them_bold(open_window: Callable[[Project], Window]) -> None:
    """In the middle of the upper edge of a shelf under the eye it is darker farther down than at the lower edge."""
    window = open_window(Project((SHEET,), (LOW,), units="mm"))
    picture = window.wall.picture
    image, box = picture.grab().toImage(), picture.box_of(LOW)
    assert box is not None
    x = round(box.left() + box.width() / 4.0)

    def dark(y: float) -> int:
        return sum(image.pixelColor(x, round(y) + dy).lightness() < 110 for dy in (-2, -1, 0, 1, 2))

    assert dark(box.top()) > dark(box.bottom())
