"""Menus of verbs: what is pressed with the other button, or with the keyboard, is what they act on, each one step."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication
from PySide6.QtWidgets import QApplication, QMenu, QWidget
from pytestqt.qtbot import QtBot

from app.boards.frame_pick import stick_at
from app.boards.pick import boxes_of
from app.printing.board import PagesBoard
from app.rule.edits import new_project
from app.steps.board import StepsBoard
from app.window.window import Window
from core.document.model import KeepClear, KeepOut, Project, Studs
from core.plan.make import make_plan
from tests.window.conftest import SHELVES, STOCK, Find

AREA = KeepClear(((1500.0, 50.0), (1700.0, 50.0), (1700.0, 150.0), (1500.0, 150.0)))
Press = Callable[[QWidget, QPointF], QMenu]


@pytest.fixture
def project() -> Project:
    stock = msgspec.structs.replace(STOCK, keep_clear=(AREA,))
    made = Project((stock,), SHELVES, name="Study wall", units="in")
    wall = msgspec.structs.replace(made.wall, keep_outs=(KeepOut(2500.0, 300.0, 86.0, 86.0),))
    return msgspec.structs.replace(made, wall=wall)


@pytest.fixture
def press(window: Window) -> Press:
    def there(widget: QWidget, at: QPointF, reason: QContextMenuEvent.Reason = QContextMenuEvent.Reason.Mouse) -> QMenu:
        pixel = at.toPoint()
        QApplication.sendEvent(widget, QContextMenuEvent(reason, pixel, widget.mapToGlobal(pixel)))
        menu = window.menus.offers.menu
        assert menu is not None
        menu.hide()
        return menu

    return there


def do(menu: QMenu, words: str) -> None:
    found = [action for action in menu.actions() if action.text() == words]
    assert len(found) == 1, [action.text() for action in menu.actions()]
    assert found[0].isEnabled()
    found[0].trigger()


def on_sheet(window: Window, about: str) -> QPointF:
    canvas = window.sheet.canvas
    x0, y0, x1, y1 = boxes_of(window.store.plan, window.sheet.sheet, about)[0]
    return canvas.to_pixel(((x0 + x1) / 2.0, (y0 + y1) / 2.0))


def on_wall(window: Window, shelf: str) -> QPointF:
    one = next(one for one in window.store.project.shelves if one.id == shelf)
    box = window.wall.picture.box_of(one)
    assert box is not None
    return box.center()


def test_a_shelf_on_the_wall_is_taken_down_and_hung_again(window: Window, press: Press) -> None:
    do(press(window.wall.picture, on_wall(window, "lower")), "Take it off the wall")
    assert window.store.selected == "lower"
    assert window.store.project.shelves[1].mount is None
    assert window.store.undo_label == "Take lower off the wall"
    box = window.wall.picture.tray()["lower"]
    do(press(window.wall.picture, box.center()), "Hang it on the wall")
    assert window.store.project.shelves[1].mount is not None
    assert window.store.project.shelves[0] == SHELVES[0]


def test_a_shelf_in_the_list_is_duplicated_renamed_and_removed(window: Window, press: Press) -> None:
    chips = window.rule.findChild(QWidget, "shelf_chips")
    assert chips is not None

    def chip(at: int) -> tuple[QWidget, QPointF]:
        found = chips.findChild(QWidget, f"shelf_chips_{at}")
        assert found is not None
        return found, QPointF(found.rect().center())

    do(press(*chip(1)), "Duplicate")
    assert [shelf.id for shelf in window.store.project.shelves] == ["upper", "lower", "lower 2"]
    do(press(*chip(0)), "Remove")
    assert [shelf.id for shelf in window.store.project.shelves] == ["lower", "lower 2"]
    do(press(*chip(0)), "Later in the list")
    assert [shelf.id for shelf in window.store.project.shelves] == ["lower 2", "lower"]
    do(press(*chip(1)), "Rename")
    focus = QApplication.focusWidget()
    assert focus is not None
    assert (focus.objectName(), window.store.selected) == ("shelf_id", "lower")
    window.store.undo()
    assert window.store.undo_label == "Remove upper"


def test_shelves_edited_together_go_together(window: Window, press: Press) -> None:
    window.sets.take_all()
    menu = press(window.wall.picture, on_wall(window, "lower"))
    do(menu, "Remove all 2")
    assert window.store.project.shelves == ()
    window.store.undo()
    assert window.store.project.shelves == SHELVES


def test_a_net_on_the_sheet_is_pinned_where_it_lies(window: Window, press: Press) -> None:
    net = next(net for net in window.store.plan.nets if net.shelf == "upper")
    canvas = window.sheet.canvas
    do(press(canvas, on_sheet(window, "upper/top")), "Pin the net where it lies")
    assert window.store.project.shelves[0].at == (net.x, net.y)
    window.store.planner.settle()
    do(press(canvas, on_sheet(window, "upper/top")), "Let the net lie freely")
    assert window.store.project.shelves[0].at is None
    do(press(canvas, on_sheet(window, "upper/top")), "Cut the top apart")
    assert window.store.project.shelves[0].apart == ("top",)


def test_a_part_leads_to_its_cut_and_its_size_can_be_copied(window: Window, press: Press) -> None:
    part = window.store.plan.frames[0].parts[0]
    menu = press(window.sheet.canvas, on_sheet(window, part.id))
    do(menu, "Copy as text")
    assert QGuiApplication.clipboard().text().startswith("A back rail, ")
    do(menu, "Go to its cut")
    steps = window.guests.get("cut_steps")
    assert isinstance(steps, StepsBoard)
    assert window.boards.occupant("sheet") is steps
    assert part.id in steps.steps[steps.number - 1].abouts


def test_a_rail_gets_a_layer_more(window: Window, press: Press) -> None:
    rail = window.store.plan.frames[0].parts[0]
    do(press(window.sheet.canvas, on_sheet(window, rail.id)), "One layer more")
    assert window.store.project.frame.back_layers == 2


def test_a_rib_stays_where_it_is_put_and_finds_its_place_again(window: Window) -> None:
    frame = window.store.plan.frames[0]
    rib = next(part for part in frame.parts if part.role == "rib")
    number = int(rib.id.rpartition(" ")[2]) - 1

    def run(words: str) -> None:
        verbs = [verb for group in window.menus.offers.verbs(rib.id, "frame") for verb in group]
        next(verb for verb in verbs if verb.words == words).do()

    run("Keep this rib where it stands")
    assert window.store.project.shelves[0].ribs == (frame.ribs[number],)
    window.store.planner.settle()
    run("Let this rib find its place")
    assert window.store.project.shelves[0].ribs == ()


def test_a_stick_is_found_where_the_frame_is_drawn() -> None:
    plan = make_plan(Project((STOCK,), SHELVES))
    frame = plan.frames[0]
    for n, x in enumerate(frame.ribs):
        assert stick_at(plan, frame, x, frame.depth / 2.0) == f"upper/rib {n + 1}"
    assert stick_at(plan, frame, frame.length / 2.0, frame.depth - 1.0) == "upper/back rail"
    assert stick_at(plan, frame, frame.length / 2.0, 1.0) == "upper/front rail"
    assert stick_at(plan, frame, -5.0, 1.0) == ""


def test_an_area_is_called_something_else_and_taken_away(window: Window, press: Press) -> None:
    canvas = window.sheet.canvas
    at = canvas.to_pixel((1500.0, 100.0))  # on its edge
    do(press(canvas, at), "leaf joint")
    assert window.store.project.sheets[0].keep_clear[0].kind == "leaf joint"
    do(press(canvas, at), "no front")
    assert window.store.project.sheets[0].keep_clear[0].of == "front"
    do(press(canvas, at), "Remove it")
    assert window.store.project.sheets[0].keep_clear == ()


def test_a_seam_shows_its_section(window: Window, press: Press) -> None:
    window.store.select("lower/top-front")
    do(press(window.sheet.inset, QPointF(20.0, 20.0)), "Show its section")
    assert window.boards.occupant("sheet").key == "section"
    assert window.store.selected == "lower/top-front"


def test_the_wall_takes_a_shelf_a_stud_and_a_socket_where_it_is_pressed(window: Window, press: Press) -> None:
    picture = window.wall.picture
    bare = picture.to_pixel((300.0, 700.0))
    do(press(picture, bare), "Add a shelf here")
    mount = window.store.project.shelves[2].mount
    assert mount is not None
    assert mount.top == pytest.approx(700.0, abs=7.0)
    window.store.undo()
    do(press(picture, bare), "There is a stud here")
    studs = window.store.project.wall.studs
    assert not isinstance(studs, Studs)
    assert min(abs(stud - 300.0) for stud in studs) < 7.0
    stud = picture.to_pixel((studs[0], 200.0))
    do(press(picture, stud), "There is no stud here")
    assert window.store.project.wall.studs == studs[1:]
    do(press(picture, picture.to_pixel((440.0, 600.0))), "There is a socket here")
    assert len(window.store.project.wall.keep_outs) == 2
    do(press(picture, picture.to_pixel((2540.0, 340.0))), "pipe")
    assert window.store.project.wall.keep_outs[0].kind == "pipe"


def test_a_finding_offers_its_ways_out(window: Window, press: Press) -> None:
    long = msgspec.structs.replace(SHELVES[0], length=2400.0, depth=241.3)
    window.store.apply("Length", lambda p: msgspec.structs.replace(p, shelves=(long,)))
    window.store.planner.settle()
    worst = window.store.plan.errors[0]
    assert worst.fixes
    window.line.toggle_list()
    row = window.line.findings_list.findChild(QWidget, "finding_0")
    assert row is not None
    menu = press(row, QPointF(5.0, 5.0))
    assert [fix.text for fix in worst.fixes] == [a.text() for a in menu.actions() if a.objectName() == "verb_take"]
    do(menu, "Copy as text")
    assert worst.message in QGuiApplication.clipboard().text()
    before = window.store.project
    do(menu, worst.fixes[0].text)
    assert window.store.project != before


@pytest.mark.parametrize("name", ["wall_picture", "sheet_canvas", "fold_picture"])
def test_the_keyboard_opens_the_menu_of_what_is_selected(window: Window, qtbot: QtBot, find: Find, name: str) -> None:
    picture = find(name)
    window.store.select("lower")
    picture.setFocus()
    qtbot.keyClick(picture, Qt.Key.Key_F10, Qt.KeyboardModifier.ShiftModifier)
    menu = window.menus.offers.menu
    assert menu is not None
    assert menu.isVisible()
    do(menu, "Duplicate")
    assert [shelf.id for shelf in window.store.project.shelves] == ["upper", "lower", "lower 2"]
    menu.hide()


def test_a_step_and_a_row_can_be_copied(window: Window, press: Press) -> None:
    window.actions_["cut_steps"].trigger()
    steps = window.guests.get("cut_steps")
    assert isinstance(steps, StepsBoard)
    do(press(steps.words, QPointF(5.0, 5.0)), "Copy what is to be done as text")
    assert QGuiApplication.clipboard().text().startswith("Cut 1 of ")
    window.actions_["cut_list"].trigger()
    table = window.boards.occupant("sheet").findChild(QWidget, "parts_table")
    assert table is not None
    do(press(table.viewport(), QPointF(20.0, 10.0)), "Copy the row as text")  # type: ignore[attr-defined]
    assert QGuiApplication.clipboard().text().startswith("A front\t")


def test_menus_are_short_and_every_verb_has_its_icon(window: Window) -> None:
    from app.theme.icons import FOLDER, drawn

    plan = window.store.plan
    of_shelf = ("upper", *(f"upper/{part}" for part in ("top", "left", "top-front", "rib 3", "back rail")))
    abouts = (*of_shelf, plan.offcuts[0].piece)
    for here in ("list", "wall", "fold", "sheet", "frame"):
        for about in abouts:
            verbs = [verb for group in window.menus.offers.verbs(about, here) for verb in group]
            assert 0 < len(verbs) <= 12, (here, about)
            for verb in verbs:
                assert (FOLDER / f"{drawn(verb.name)}.svg").is_file(), verb.name


def test_bare_sheet_leads_to_the_sizes_of_the_sheet(window: Window, press: Press, find: Find) -> None:
    outside = window.sheet.canvas.to_pixel((-40.0, -40.0))
    do(press(window.sheet.canvas, outside), "Sizes of the sheet")
    assert find("sheet_length").hasFocus()


def test_a_click_on_a_sheet_nothing_is_cut_from_leads_to_its_sizes(window: Window, find: Find, qtbot: QtBot) -> None:
    window.files._begin(new_project("mm"))
    canvas = window.sheet.canvas
    qtbot.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=canvas.to_pixel((1200.0, 600.0)).toPoint())
    assert find("sheet_length").hasFocus()


def test_the_sheets_are_printed_from_a_sheet(window: Window, press: Press, qtbot: QtBot) -> None:
    do(press(window.sheet.canvas, window.sheet.canvas.to_pixel((-40.0, -40.0))), "Print the sheets")
    board = window.boards.occupant("sheet")
    assert isinstance(board, PagesBoard)
    assert board.names == ("sheets",)
    qtbot.waitUntil(lambda: board.count == len(window.store.plan.sheets))
