"""The seam in section by hand: clean-up and overcut, in the card beside the sheet and large."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.boards.inset import SectionBoard
from app.window.window import Window
from core.plan.make import make_plan
from tests.hand.mouse import SHIFT, Mouse
from tests.hand.test_sizes import steps


@pytest.fixture(params=["inset", "board"])
def section(request: pytest.FixtureRequest, window: Window) -> Mouse:
    if request.param == "inset":
        return Mouse(window, window.sheet.inset)
    window.actions_["section"].trigger()
    board = next(board for board in window.boards.findChildren(QWidget) if isinstance(board, SectionBoard))
    mouse = Mouse(window, board.canvas)
    mouse.settle()
    return mouse


def test_the_clean_up_widens_the_seam(window: Window, section: Mouse) -> None:
    before, loss = window.store.project, window.store.plan.seams[0].show_loss
    assert loss is not None
    section.press(section.square("allowance"))
    section.move(20.0, 0.0)
    saw, seam = window.store.project.saw, window.store.plan.seams[0]
    assert saw.allowance > 0.0
    assert seam.show_loss == pytest.approx(loss + saw.allowance)
    section.release()
    assert window.store.plan == make_plan(window.store.project)
    assert window.store.undo_label == "Clean-up"
    assert steps(window) == 1
    window.store.undo()
    assert window.store.project == before


def test_clean_up_never_goes_below_nothing(window: Window, section: Mouse) -> None:
    section.press(section.square("allowance"))
    section.move(-60.0, 0.0)
    assert window.store.project.saw.allowance == 0.0
    section.release()


def test_the_overcut_goes_below_zero_and_the_outside_opens(window: Window, section: Mouse) -> None:
    handle = section.handle("overcut")
    x, y = handle.number.axis
    view = getattr(section.widget, "view", None)
    section.press(section.square("overcut"))
    section.move(-60.0 * x, 60.0 * y)
    assert window.store.project.saw.overcut < 0.0
    assert window.store.plan.seams[0].outside_gap > 0.0
    assert section.hand.readout is not None
    assert "outside" in section.hand.readout.caught
    assert getattr(section.widget, "view", None) == view
    section.key(Qt.Key.Key_Escape)
    assert window.store.project.saw.overcut == 0.5
    section.release()


def test_the_overcut_is_typed_in_degrees(window: Window, section: Mouse) -> None:
    section.press(section.square("overcut"))
    section.move(9.0, 9.0)
    section.type("0.8")
    section.enter()
    section.release()
    assert window.store.project.saw.overcut == 0.8
    assert steps(window) == 1


def test_arrow_keys_step_the_overcut(window: Window, section: Mouse) -> None:
    section.click(section.square("overcut"))
    section.key(Qt.Key.Key_Up)
    assert window.store.project.saw.overcut == pytest.approx(0.6)
    section.key(Qt.Key.Key_Down, SHIFT)
    assert window.store.project.saw.overcut == pytest.approx(0.59)


def test_the_inset_shows_the_shelf_that_is_dragged(window: Window, sheet: Mouse) -> None:
    window.store.select("upper")
    assert "Shelf A" in window.sheet.inset.text()
    panel = next(p for p in window.store.plan.panels if p.id == "lower/top")
    assert panel.x is not None
    assert panel.y is not None
    sheet.press(sheet.pixel((panel.x + 100.0, panel.y + 100.0)))
    sheet.move(30.0, -20.0)
    assert "Shelf B" in window.sheet.inset.text()
    sheet.key(Qt.Key.Key_Escape)
    assert "Shelf A" in window.sheet.inset.text()
    sheet.release()


def test_a_click_beside_the_handles_opens_the_section(window: Window) -> None:
    mouse = Mouse(window, window.sheet.inset)
    corner = mouse.widget.rect().bottomLeft()
    mouse.click(corner.toPointF() + mouse.pixel((0.0, 0.0)) * 0.0)
    assert window.actions_["section"].isChecked()
