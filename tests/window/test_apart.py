"""Rows of the rule that say what is cut apart: seen, switched, undone."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton, QWidget

from app.window.window import Window

Click = Callable[[str], None]
Find = Callable[[str], QWidget]


def is_on(find: Find, name: str) -> bool:
    button = find(name)
    assert isinstance(button, QPushButton)
    return button.isChecked()


def test_a_panel_is_cut_apart_and_back_by_click(window: Window, find: Find, click: Click) -> None:
    click("shelf_apart_bottom")
    click("shelf_ends_apart_left")
    assert window.store.project.shelves[0].apart == ("bottom", "left")
    assert is_on(find, "shelf_apart_bottom")
    click("shelf_apart_bottom")
    assert window.store.project.shelves[0].apart == ("left",)
    assert not is_on(find, "shelf_apart_bottom")
    window.store.undo()
    assert window.store.project.shelves[0].apart == ("bottom", "left")
    assert is_on(find, "shelf_apart_bottom")


def test_what_cannot_be_cut_apart_cannot_be_clicked(window: Window, find: Find, click: Click) -> None:
    click("shelf_left_open")
    assert not find("shelf_ends_apart_left").isEnabled()
    assert find("shelf_ends_apart_right").isEnabled()
    click("shelf_ends_from_top")
    assert not find("shelf_apart_top").isEnabled()
    assert find("shelf_apart_bottom").isEnabled()


def test_an_end_that_is_opened_and_a_strip_that_ends_need_are_cut_apart_no_more(window: Window, click: Click) -> None:
    click("shelf_ends_apart_left")
    click("shelf_apart_top")
    click("shelf_left_open")
    assert window.store.project.shelves[0].apart == ("top",)
    click("shelf_ends_from_top")
    shelf = window.store.project.shelves[0]
    assert (shelf.ends_from, shelf.apart) == ("top", ())
