"""The boards and the bottom line, with mouse and keys."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
import shiboken6
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.boards.board import Board
from app.boards.canvas import Canvas
from app.boards.pick import boxes_of, seam_boxes, thing_at
from app.boards.wall_measured import across
from app.boards.wall_paint import Ground
from app.rule.edits import new_project
from app.window.window import Window
from core.document.model import Alcove, Mount, Project, Shelf
from core.plan.make import make_plan
from core.wall.places import gaps

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]
Box = tuple[float, float, float, float]
LEFT = Qt.MouseButton.LeftButton


def middle(box: Box) -> tuple[float, float]:
    return (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0


def pixel(canvas: Canvas, place: tuple[float, float]) -> QPoint:
    assert canvas.view is not None
    return QPointF(*canvas.view.to_surface(place)).toPoint()


@pytest.fixture
def canvas(window: Window) -> Canvas:
    return window.sheet.canvas


def test_a_board_that_is_gone_is_told_nothing_more(window: Window, qtbot: QtBot) -> None:
    told: list[str] = []

    class Passing(Board):
        def refresh_plan(self) -> None:
            told.append("plan")

    board = Passing("passing", "Passing", window.store, window.theme)
    qtbot.addWidget(board)
    board.show()
    window.store.plan_changed.emit()
    assert told
    told.clear()
    shiboken6.delete(board)
    for signal in (window.store.plan_changed, window.store.selection_changed, window.theme.changed):
        signal.emit()
    assert told == []


def test_a_click_on_a_panel_selects_it(window: Window, canvas: Canvas, qtbot: QtBot) -> None:
    (box,) = boxes_of(window.store.plan, window.sheet.sheet, "lower/top")
    qtbot.mouseClick(canvas, LEFT, pos=pixel(canvas, middle(box)))
    assert window.store.selected == "lower/top"
    assert window.store.shelf is not None
    assert window.store.shelf.id == "lower"


def test_a_click_on_a_seam_selects_it_and_shows_its_section(window: Window, canvas: Canvas, qtbot: QtBot) -> None:
    seams = dict(seam_boxes(window.store.plan, window.sheet.sheet))
    qtbot.mouseClick(canvas, LEFT, pos=pixel(canvas, middle(seams["upper/front-bottom"])))
    assert window.store.selected == "upper/front-bottom"
    assert "front to bottom" in window.sheet.inset.text()


def test_bare_ground_selects_nothing_and_the_rule_keeps_its_shelf(window: Window, canvas: Canvas, qtbot: QtBot) -> None:
    qtbot.mouseClick(canvas, LEFT, pos=QPoint(3, 3))
    assert window.store.selected == ""
    assert window.store.shelf is not None


def test_the_wheel_zooms_at_the_pointer_and_zero_fits_again(window: Window, canvas: Canvas, qtbot: QtBot) -> None:
    fitted = canvas.view
    assert fitted is not None
    at = QPointF(200.0, 120.0)
    under = fitted.to_drawing((at.x(), at.y()))
    none, keys = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    wheel = QWheelEvent(at, at, QPoint(), QPoint(0, 240), none, keys, Qt.ScrollPhase.NoScrollPhase, False)
    QApplication.sendEvent(canvas, wheel)
    assert canvas.view is not None
    assert canvas.view.scale > fitted.scale
    assert canvas.view.to_drawing((at.x(), at.y())) == pytest.approx(under, abs=1e-6)
    qtbot.keyClick(canvas, Qt.Key.Key_0)
    assert canvas.view == fitted


def test_dragging_empty_ground_pans_and_selects_nothing(window: Window, canvas: Canvas, qtbot: QtBot) -> None:
    before, selected = canvas.view, window.store.selected
    assert before is not None
    qtbot.mousePress(canvas, LEFT, pos=QPoint(30, 40))
    qtbot.mouseMove(canvas, QPoint(60, 70))
    qtbot.mouseMove(canvas, QPoint(90, 100))
    qtbot.mouseRelease(canvas, LEFT, pos=QPoint(90, 100))
    assert canvas.view is not None
    assert (canvas.view.x - before.x, canvas.view.y - before.y) == pytest.approx((60.0, 60.0))
    assert window.store.selected == selected


def test_every_panel_is_found_where_the_plan_says(project: Project) -> None:
    plan = make_plan(project)
    for panel in plan.panels:
        assert panel.sheet is not None
        (box,) = boxes_of(plan, panel.sheet, panel.id)
        assert thing_at(plan, panel.sheet, *middle(box)) == panel.id
    for about, box in seam_boxes(plan, plan.sheets[0].id):
        seam = next(seam for seam in plan.seams if seam.id == about)
        thin = min(box[2] - box[0], box[3] - box[1])
        assert thin == pytest.approx(seam.show_loss)
        assert max(box[2] - box[0], box[3] - box[1]) == pytest.approx(seam.length)


def test_several_sheets_are_turned_over(window: Window, enter: Enter, click: Click) -> None:
    enter("sheet_quantity", "3")
    for _ in range(4):
        click("shelf_duplicate")
    window.store.planner.settle()
    sheets = [sheet.id for sheet in window.store.plan.sheets]
    assert len(sheets) > 1
    window.sheet.turn(-9)
    assert window.sheet.sheet == sheets[0]
    click("sheet_after")
    assert window.sheet.sheet == sheets[1]
    panel = window.store.plan.panels_on(sheets[0])[0]
    window.store.select(panel.id)
    assert window.sheet.sheet == sheets[0]


def test_a_board_fills_the_window_and_comes_back(window: Window, click: Click, find: Find, qtbot: QtBot) -> None:
    place = find("board_sheet").geometry()
    click("sheet_fill")
    assert window.boards.filled == "sheet"
    assert find("board_sheet").width() > 0.75 * window.boards.width()
    assert window.wall.small
    assert window.fold.small
    qtbot.mouseClick(window.wall, LEFT)
    assert window.boards.filled == "wall"
    click("wall_fill")
    assert window.boards.filled == ""
    assert find("board_sheet").geometry() == place


def test_the_cut_order_opens_in_the_place_of_the_sheet(window: Window, click: Click, find: Find, qtbot: QtBot) -> None:
    from PySide6.QtWidgets import QTableView

    place = find("board_sheet").geometry()
    click("sheet_cuts")
    table = find("cuts_table")
    assert isinstance(table, QTableView)
    assert find("board_cuts").geometry() == place
    assert table.model().rowCount() == len(window.store.plan.cuts)
    cut = next(cut for cut in window.store.plan.cuts if cut.about)
    table.setCurrentIndex(table.model().index(cut.n - 1, 0))
    assert window.store.selected == cut.about
    click("cuts_close")
    assert window.sheet.isVisible()


def test_the_section_opens_in_the_place_of_the_sheet(window: Window, find: Find, qtbot: QtBot) -> None:
    qtbot.mouseClick(window.sheet.inset, LEFT)
    assert find("board_section").isVisible()
    window.actions_["section"].trigger()
    assert window.sheet.isVisible()


def test_a_click_on_the_wall_selects_the_shelf(window: Window, find: Find, qtbot: QtBot) -> None:
    from app.boards.wall_picture import WallPicture

    picture = find("wall_picture")
    assert isinstance(picture, WallPicture)
    box = picture.box_of(window.store.project.shelves[1])
    assert box is not None
    qtbot.mouseClick(picture, LEFT, pos=box.center().toPoint())
    assert window.store.selected == "lower"


def test_the_worst_finding_and_its_way_out(window: Window, enter: Enter, find: Find, click: Click) -> None:
    assert window.line.tone == "fine"
    enter("shelf_length", "90")
    window.store.planner.settle()
    worst = window.store.plan.findings[0]
    assert worst.severity == "error"
    assert window.line.tone == "error"
    assert worst.message in window.line.text
    pill = find("fix_0")
    assert isinstance(pill, QPushButton)
    assert pill.text() == worst.fixes[0].text
    before = window.store.project
    click("fix_0")
    window.store.planner.settle()
    assert window.store.undo_label == worst.fixes[0].text
    assert not window.store.plan.errors
    assert window.line.tone == "fine"
    window.store.undo()
    assert window.store.project == before


def test_the_list_opens_above_the_line_and_leads_to_what_it_is_about(
    window: Window, enter: Enter, click: Click, find: Find
) -> None:
    enter("shelf_length", "90")
    click("shelf_chips_1")
    click("more_to_read")
    assert find("findings_list").isVisible()
    click("finding_0")
    assert window.store.selected == window.store.plan.findings[0].about
    click("more_to_read")
    assert not window.line.findings_list.isVisible()


def test_a_small_wall_has_no_words_to_cut_off(window: Window) -> None:
    picture, widths = window.wall.picture, (1124.0, 1124.0, 1124.0)
    wall = msgspec.structs.replace(new_project("mm").wall, width=1124.0, alcove=Alcove(widths, widths))
    project = msgspec.structs.replace(new_project("mm"), wall=wall)
    window.files._begin(project)
    view, palette, ground = picture.view(), window.theme.palette, Ground()

    def beside(*, small: bool) -> bool:
        """Is there anything left of the wall and its side wall?"""
        image = ground.picture(project, view, picture.size(), 1.0, palette, small=small).toImage()
        places = ((x, y) for x in range(int(view.left) - 14) for y in range(image.height()))
        return any(image.pixelColor(x, y) != QColor(palette.paper) for x, y in places)

    assert beside(small=False)
    assert not beside(small=True)


def test_the_line_of_a_clear_height_crosses_no_name(window: Window) -> None:
    shelves = (
        Shelf("upper", 1100.0, 200.0, 60.0, mount=Mount(750.0, 1400.0)),
        Shelf("lower", 800.0, 200.0, 60.0, mount=Mount(900.0, 1050.0)),
    )
    window.files._begin(msgspec.structs.replace(new_project("mm"), shelves=shelves))
    view, (gap,) = window.wall.picture.view(), gaps(window.store.project, 2400.0)
    near_the_end = across(gap, view, ())[0].x()
    middle_of_name = view.to_pixel((1300.0, 1050.0)) - QPointF(0.0, 13.0)
    name = QRectF(-30.0, -8.5, 60.0, 17.0).translated(middle_of_name)
    assert name.left() < near_the_end < name.right()
    high, low = across(gap, view, (name,))
    assert not name.left() <= high.x() <= name.right()
    assert view.to_pixel((900.0, 0.0)).x() <= low.x() <= view.to_pixel((1700.0, 0.0)).x()


def test_other_units_leave_the_numbers_of_the_sheet_in_sight(window: Window, click: Click) -> None:
    click("units_mm")
    canvas = window.sheet.canvas
    shown = canvas.view
    canvas.fit()
    assert canvas.view == shown


def test_units_switch_without_drift(window: Window, click: Click) -> None:
    before = window.store.project
    for _ in range(3):
        click("units_mm")
        assert window.store.project.shelves == before.shelves
        click("units_in")
    assert window.store.project == before


def test_shelves_are_added_duplicated_and_removed(window: Window, click: Click) -> None:
    def ids() -> list[str]:
        return [shelf.id for shelf in window.store.project.shelves]

    click("shelf_chips_add")
    assert len(ids()) == 3
    assert window.store.selected == ids()[2]
    click("shelf_chips_0")
    click("shelf_duplicate")
    assert ids()[:2] == ["upper", "upper 2"]
    assert window.store.selected == "upper 2"
    click("shelf_remove")
    assert window.store.selected == "lower"
    for _ in range(3):
        window.store.undo()
    assert ids() == ["upper", "lower"]


def test_without_shelves_the_window_says_what_to_do(window: Window, click: Click, find: Find) -> None:
    click("shelf_remove")
    click("shelf_remove")
    window.store.planner.settle()
    assert window.store.project.shelves == ()
    assert "add a shelf" in window.line.text.lower()
    click("shelf_chips_add")
    assert len(window.store.project.shelves) == 1
    assert find("section_shelf").isVisible()


def test_sheets_are_added_duplicated_and_removed(window: Window, click: Click, find: Find) -> None:
    assert not find("sheet_remove").isEnabled()
    click("sheet_chips_add")
    assert len(window.store.project.sheets) == 2
    click("sheet_duplicate")
    assert len(window.store.project.sheets) == 3
    assert window.store.stock == window.store.project.sheets[2]
    click("sheet_remove")
    click("sheet_chips_0")
    assert window.store.stock.id == "birch"
    for _ in range(3):
        window.store.undo()
    assert [sheet.id for sheet in window.store.project.sheets] == ["birch"]


def test_renaming_a_sheet_keeps_the_shelves_that_ask_for_it(window: Window, enter: Enter, find: Find) -> None:
    from PySide6.QtWidgets import QComboBox

    choice = find("shelf_sheet")
    assert isinstance(choice, QComboBox)
    choice.setCurrentIndex(1)
    choice.activated.emit(1)
    assert window.store.project.shelves[0].sheet == "birch"
    enter("sheet_id", "maple")
    assert window.store.project.sheets[0].id == "maple"
    assert window.store.project.shelves[0].sheet == "maple"


def test_undo_and_redo_by_keys_from_inside_a_field(window: Window, enter: Enter, find: Find, qtbot: QtBot) -> None:
    before = window.store.project
    enter("shelf_depth", "7")
    after = window.store.project
    field = find("shelf_depth")
    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.store.project == before
    shift = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(field, Qt.Key.Key_Z, shift)
    assert window.store.project == after


def test_tab_reaches_every_part_of_the_window(window: Window, qtbot: QtBot) -> None:
    window.activateWindow()
    window.actions_["next_region"].trigger()
    parts = set()
    for _ in range(4):
        focused = QApplication.focusWidget()
        parts |= {
            region
            for region in (window.top_bar, window.rule, window.boards, window.line)
            if focused is not None and region.isAncestorOf(focused)
        }
        window.actions_["next_region"].trigger()
    assert len(parts) >= 3


def test_a_new_window_is_no_larger_than_its_screen(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.window.window.FIRST", (9000, 8000))
    window = Window(new_project("mm"))
    qtbot.addWidget(window)
    assert window.size() == window.screen().availableSize()
