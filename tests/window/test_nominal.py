"""What is still nominal, in the window: one quiet word, a list that leads to each field, one click to say it is so."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from app.window.window import Window
from core.findings.nominal import still_nominal

Find = Callable[[str], QWidget]
Click = Callable[[str], None]


def said(window: Window) -> str:
    button = window.line.findChild(QPushButton, "still_nominal")
    assert button is not None
    return button.text() if not button.isHidden() else ""


def test_a_click_says_that_it_is_so_and_undo_takes_it_back(window: Window, find: Find, click: Click) -> None:
    count = len(still_nominal(window.store.plan))
    assert said(window) == f"{count} still nominal"
    click("still_nominal")
    first = still_nominal(window.store.plan)[0]
    click("nominal_0_done")
    window.store.planner.settle()
    assert first not in still_nominal(window.store.plan)
    assert said(window) == f"{count - 1} still nominal"
    assert window.store.undo_label == f"{first.word}: {first.done}"
    window.store.undo()
    window.store.planner.settle()
    assert still_nominal(window.store.plan)[0] == first


def test_each_leads_to_its_field(window: Window, find: Find, click: Click) -> None:
    click("still_nominal")
    for at, one in enumerate(still_nominal(window.store.plan)):
        click(f"nominal_{at}_field")
        focus = QApplication.focusWidget()
        assert focus is not None, one.what
        assert focus.objectName().endswith(one.field.rpartition("/")[2]), one.what


def test_all_measured_says_nothing(window: Window, find: Find, click: Click) -> None:
    click("still_nominal")
    for one in still_nominal(window.store.plan):
        window.line.nominal_list.done_asked.emit(one)
        window.store.planner.settle()
    assert said(window) == ""
    assert window.line.nominal_list.isHidden()


def test_an_export_goes_on_and_says_it_too(window: Window, tmp_path: Path) -> None:
    assert window.exporting.write("csv", tmp_path / "cuts.csv")
    assert (tmp_path / "cuts.csv").is_file()
    assert window.line.tone == "fine"
    assert "things are still nominal: thickness" in window.line.text
