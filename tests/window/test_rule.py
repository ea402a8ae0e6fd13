"""The rule, as a maker uses it: typed numbers, arrows, Escape, choices."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.window.window import Window
from core.document.model import Figure
from core.lengths import Unit, parse_length
from core.plan.make import make_plan

Find = Callable[[str], QWidget]
Click = Callable[[str], None]
Enter = Callable[[str, str], None]


def text_of(find: Find, name: str) -> str:
    field = find(name)
    assert isinstance(field, QLineEdit)
    return field.text()


def test_a_typed_fraction_is_applied_exactly_and_comes_back_as_typed(window: Window, find: Find, enter: Enter) -> None:
    enter("shelf_depth", "7 9/16")
    assert window.store.project.shelves[0].depth == parse_length("7 9/16", Unit.INCH)
    assert text_of(find, "shelf_depth") == '7-9/16"'
    assert window.store.plan == make_plan(window.store.project)


@pytest.mark.parametrize("typed", ["186 mm", "18.6cm", "0.186m"])
def test_millimetres_may_be_typed_while_inches_are_shown(window: Window, enter: Enter, typed: str) -> None:
    enter("shelf_depth", typed)
    assert window.store.project.shelves[0].depth == pytest.approx(186.0, abs=1e-9)


def test_typing_is_applied_live_and_is_one_step_of_undo(window: Window, find: Find, qtbot: QtBot) -> None:
    before = window.store.project
    field = find("shelf_length")
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    seen = []
    for letter in "41 3/4":
        qtbot.keyClicks(field, letter)
        seen.append(window.store.project.shelves[0].length)
    assert len(set(seen)) > 2
    assert seen[-1] == parse_length("41 3/4", Unit.INCH)
    window.store.undo()
    assert window.store.project == before
    assert not window.store.undo_label


def test_what_cannot_be_read_stays_as_typed_with_the_reason_beside_it(window: Window, find: Find, enter: Enter) -> None:
    before = window.store.project
    enter("shelf_depth", "7 and a bit")
    assert window.store.project.shelves[0].depth in (before.shelves[0].depth, parse_length("7", Unit.INCH))
    assert text_of(find, "shelf_depth") == "7 and a bit"
    reason = find("shelf_depth_reason")
    assert isinstance(reason, QLabel)
    assert "7 and a bit" in reason.text()
    assert find("shelf_depth").accessibleDescription() == reason.text()


def test_what_is_out_of_range_says_so_in_the_unit_shown(window: Window, find: Find, enter: Enter) -> None:
    before = window.store.project
    enter("shelf_height", "-2")
    assert window.store.project == before
    reason = find("shelf_height_reason")
    assert isinstance(reason, QLabel)
    assert '-2"' in reason.text()


def test_a_good_number_after_a_bad_one_takes_the_reason_away(window: Window, find: Find, enter: Enter) -> None:
    enter("shelf_depth", "x")
    assert find("shelf_depth_reason").isVisible()
    enter("shelf_depth", "7")
    assert window.findChild(QLabel, "shelf_depth_reason").isVisible() is False
    assert window.store.project.shelves[0].depth == parse_length("7", Unit.INCH)


def test_escape_puts_back_what_was_there(window: Window, find: Find, qtbot: QtBot) -> None:
    before = window.store.project
    field = find("shelf_length")
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(field, "30")
    assert window.store.project != before
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert window.store.project == before
    assert text_of(find, "shelf_length") == '48"'
    assert not window.store.undo_label


@pytest.mark.parametrize(("units", "step"), [("in", 25.4 / 16), ("mm", 1.0)])
def test_arrow_keys_step(window: Window, find: Find, click: Click, qtbot: QtBot, units: str, step: float) -> None:
    click(f"units_{units}")
    field = find("shelf_height")
    field.setFocus(Qt.FocusReason.TabFocusReason)
    first = window.store.project.shelves[0].height
    qtbot.keyClick(field, Qt.Key.Key_Up)
    one_up = window.store.project.shelves[0].height
    assert 0 < one_up - first <= step * (1 + 1e-9)  # the first step lands on a whole one
    qtbot.keyClick(field, Qt.Key.Key_Up)
    assert window.store.project.shelves[0].height == pytest.approx(one_up + step, abs=1e-9)
    qtbot.keyClick(field, Qt.Key.Key_Down)
    assert window.store.project.shelves[0].height == pytest.approx(one_up, abs=1e-9)


def test_ends_and_strips_are_chosen_by_click(window: Window, click: Click) -> None:
    click("shelf_left_open")
    click("shelf_ends_from_top")
    shelf = window.store.project.shelves[0]
    assert (shelf.left, shelf.right, shelf.ends_from) == ("open", "mitred", "top")


def test_what_ends_are_cut_from_is_asked_while_there_are_ends(window: Window, find: Find, click: Click) -> None:
    ends_from = find("shelf_ends_from")
    click("shelf_left_open")
    assert ends_from.isVisible()
    click("shelf_right_open")
    assert not ends_from.isVisible()


def test_a_pinned_shelf_stays_where_it_lies(window: Window, find: Find, click: Click, enter: Enter) -> None:
    net = next(net for net in window.store.plan.nets if net.shelf == "upper")
    click("shelf_pin_pinned")
    assert window.store.project.shelves[0].at == (net.x, net.y)
    enter("shelf_at_x", "3")
    assert window.store.project.shelves[0].at == (parse_length("3", Unit.INCH), net.y)
    click("shelf_pin_free")
    assert window.store.project.shelves[0].at is None
    assert window.findChild(QLineEdit, "shelf_at_x").isVisible() is False


def test_choosing_a_shelf_shows_its_numbers(window: Window, find: Find, click: Click) -> None:
    click("shelf_chips_1")
    assert window.store.selected == "lower"
    assert text_of(find, "shelf_length") == '36"'
    assert text_of(find, "shelf_id") == "lower"


def test_what_was_typed_for_one_shelf_is_not_left_for_another(
    window: Window, find: Find, click: Click, enter: Enter
) -> None:
    enter("shelf_depth", "x")
    click("shelf_chips_1")
    assert text_of(find, "shelf_depth") == '7-1/2"'
    assert window.findChild(QLabel, "shelf_depth_reason").isVisible() is False


def test_a_shelf_is_renamed_everywhere(window: Window, enter: Enter) -> None:
    enter("shelf_id", "attic")
    assert [shelf.id for shelf in window.store.project.shelves] == ["attic", "lower"]
    assert window.store.selected == "attic"
    assert any(panel.id == "attic/top" for panel in window.store.plan.panels)


@pytest.mark.parametrize("name", ["lower", "a/b", " "])
def test_a_name_that_cannot_be_used_is_refused_in_words(window: Window, find: Find, enter: Enter, name: str) -> None:
    enter("shelf_id", name)
    assert window.store.project.shelves[0].id == "upper"
    reason = find("shelf_id_reason")
    assert isinstance(reason, QLabel)
    assert reason.text()


def test_the_saw_and_the_frame_are_set_in_their_sections(window: Window, click: Click, enter: Enter) -> None:
    for section in ("saw", "frame"):
        click(f"heading_{section}")
    click("saw_lean_away")
    enter("saw_kerf", "0.1")
    enter("saw_overcut", "0,25")
    enter("frame_end_layers", "3")
    enter("frame_thickness", "1/2")
    saw, frame = window.store.project.saw, window.store.project.frame
    assert (saw.lean, saw.kerf, saw.overcut) == ("away", pytest.approx(2.54), 0.25)
    assert (frame.end_layers, frame.thickness) == (3, pytest.approx(12.7))
    enter("frame_thickness", " ")
    assert window.store.project.frame.thickness is None


def test_the_look_of_a_made_up_face(window: Window, find: Find, click: Click, enter: Enter) -> None:
    click("heading_figure")
    for name, at in (("wood", 2), ("cut", 2)):
        choice = find(f"figure_{name}")
        assert isinstance(choice, QComboBox)
        choice.setCurrentIndex(at)
        choice.activated.emit(at)
    click("figure_match_slip")
    enter("figure_seed", "12")
    assert window.store.stock.figure == Figure("quartered", "walnut", "slip", 12)
    enter("figure_seed", " ")
    assert window.store.stock.figure.seed is None
    enter("figure_seed", "-3")
    assert window.store.stock.figure.seed is None, "out of range: refused"
    for _ in range(5):
        window.store.undo()
    assert window.store.stock.figure == Figure()


def test_folded_sections_are_remembered(window: Window, find: Find, click: Click) -> None:
    assert not find("section_saw").findChild(QWidget, "saw_kerf").isVisible()
    click("heading_saw")
    click("heading_shelf")
    assert find("saw_kerf").isVisible()
    assert set(Window().preferences.folded) == {"shelf", "figure", "wall", "frame", "glue"}


def test_the_wheel_over_a_number_changes_nothing(window: Window, find: Find) -> None:
    from PySide6.QtCore import QPoint, QPointF
    from PySide6.QtGui import QWheelEvent
    from PySide6.QtWidgets import QApplication

    before = window.store.project
    for name in ("shelf_length", "shelf_sheet"):
        at = QPointF(5, 5)
        none, keys = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
        wheel = QWheelEvent(at, at, QPoint(0, 0), QPoint(0, 120), none, keys, Qt.ScrollPhase.NoScrollPhase, False)
        QApplication.sendEvent(find(name), wheel)
    assert window.store.project == before


def test_every_control_has_a_name_for_screen_readers(window: Window) -> None:
    from PySide6.QtWidgets import QAbstractButton, QComboBox

    for child in window.rule.findChildren(QWidget):
        if isinstance(child, QAbstractButton | QComboBox | QLineEdit):
            assert child.objectName(), child
            words = child.accessibleName() or (child.text() if isinstance(child, QAbstractButton) else "")
            assert words, child.objectName()


def test_a_shelf_is_hung_and_taken_off_the_wall(window: Window, click: Click, enter: Enter) -> None:
    enter("shelf_mount_top", "60")
    mount = window.store.project.shelves[0].mount
    assert mount is not None
    assert mount.top == parse_length("60", Unit.INCH)
    click("shelf_mount_off")
    assert window.store.project.shelves[0].mount is None
    click("shelf_mount_hung")
    assert window.store.project.shelves[0].mount is not None


def test_a_new_shelf_is_ready_for_its_length_to_be_typed(
    window: Window, click: Click, find: Find, qtbot: QtBot
) -> None:
    click("shelf_chips_add")
    qtbot.keyClicks(find("shelf_length"), "41")
    assert window.store.project.shelves[-1].length == parse_length("41", Unit.INCH)
