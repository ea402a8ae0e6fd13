"""The program's own icons: each action, board and tool has one, beside words, crisp and to be seen in both themes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QByteArray, QSize
from PySide6.QtGui import QIcon, QImage
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QMenu, QPushButton, QWidget

from app.actions import GUESTS, TABLE
from app.boards.board import Board
from app.boards.tool import UNDRAWN, Tool
from app.fold.pose import SIDES
from app.theme import Theme
from app.theme.icons import FOLDER, SIZE, Tone, drawn, icon
from app.theme.palette import DARK, LIGHT
from app.window.window import Window
from tests.window.test_theme import contrast

FILES = sorted(FOLDER.glob("*.svg"))
GRAPHICS = 3.0  # WCAG 2.2, 1.4.11 Non-text Contrast


def boards(window: Window) -> Iterator[Board]:
    yield from (window.wall, window.fold, window.sheet)
    for name in GUESTS:
        yield window.guests.get(name)


def menus(menu: QMenu) -> Iterator[QMenu]:
    yield menu
    for action in menu.actions():
        if isinstance(inner := action.menu(), QMenu):
            yield from menus(inner)


def painted(made: QIcon, ratio: float, mode: QIcon.Mode = QIcon.Mode.Normal) -> QImage:
    return made.pixmap(QSize(SIZE, SIZE), ratio, mode).toImage()


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_each_is_drawn_in_the_one_stroke_language(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    root = ElementTree.fromstring(text)
    assert root.get("viewBox") == "0 0 16 16"
    assert root.findtext("{http://www.w3.org/2000/svg}title"), "it says what it is drawn from"
    assert re.findall(r'stroke="(.*?)"', text) == ["currentColor"]
    assert re.findall(r'stroke-width="(.*?)"', text) == ["1.25"]
    assert re.findall(r'fill="(.*?)"', text) == ["none"]
    renderer = QSvgRenderer(QByteArray(text.replace("currentColor", "#000000").encode()))
    assert renderer.isValid()


def test_everything_that_shows_has_one_and_none_is_for_nothing(window: Window) -> None:
    wanted = {drawn(entry.name) for entry in TABLE} | {f"side_{side.name}" for side in SIDES} | {"side_corner"}
    wanted |= {drawn(board.key) for board in boards(window)} | {"help"}
    for board in boards(window):
        wanted |= {
            drawn(tool.objectName().removeprefix(f"{board.key}_"))
            for tool in board.findChildren(Tool)
            if tool.objectName().removeprefix(f"{board.key}_") not in UNDRAWN
        }
    there = {file.stem for file in FILES}
    assert wanted <= there
    assert there - wanted - SHOWN_ELSEWHERE == set()


# Of menus that hold others, of tools that change, and of what a thing's own menu offers.
VERBS = {"apart", "copy", "hang", "pin", "place", "remove", "rename", "stud", "take_down", "unpin"}
SHOWN_ELSEWHERE = VERBS | {"boards", "export", "paper", "language", "more", "shelf", "theme", "check"}


def test_an_icon_never_stands_without_words(window: Window) -> None:
    for menu in menus(window.top_bar.more_menu):
        for action in menu.actions():
            if not action.isSeparator() and menu is not window.top_bar.recent_menu:  # that one has people's own names
                assert action.text()
                assert not action.icon().isNull(), action.text()
    for button in window.findChildren(QPushButton):
        assert button.icon().isNull() or button.text(), button.objectName()


@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0, 3.0])
def test_it_is_painted_for_the_pixels_of_the_screen(qtbot: object, ratio: float) -> None:
    """Not enlarged from a smaller picture: as many pixels as it covers, and lines at full ink among them."""
    theme = Theme("light")
    image = painted(icon("sheet", theme), ratio)
    assert image.width() == image.height() == round(SIZE * ratio)
    solid = sum(image.pixelColor(x, y).alpha() >= 250 for x in range(image.width()) for y in range(image.height()))
    assert solid >= 30 * ratio  # the sheet's outline alone is 48 long


@pytest.mark.parametrize("tone", ["ink", "soft", "chalk", "on_chalk"])
@pytest.mark.parametrize("mode", [QIcon.Mode.Normal, QIcon.Mode.Disabled])
def test_it_has_the_colour_of_the_words_in_both_themes(qtbot: object, tone: Tone, mode: QIcon.Mode) -> None:
    theme = Theme("light")
    made = icon("frame", theme, tone)
    for palette in (LIGHT, DARK):
        theme.set_mode(palette.name)
        image = painted(made, 2.0, mode)
        pixels = (image.pixelColor(x, y) for x in range(image.width()) for y in range(image.height()))
        inks = {pixel.name().upper() for pixel in pixels if pixel.alpha() == 255}
        wanted = palette.soft if mode is QIcon.Mode.Disabled else getattr(palette, tone)
        assert inks == {wanted.upper()}
        ground = palette.chalk if wanted == palette.on_chalk else palette.card
        assert contrast(wanted, ground) >= GRAPHICS


def test_a_narrow_heading_keeps_its_words_and_lets_its_icons_go(window: Window) -> None:
    tools = [tool for tool in window.sheet.findChildren(Tool) if not tool.isHidden()]
    drawn_tools = [tool for tool in tools if tool.objectName() not in ("sheet_before", "sheet_after")]

    def shown() -> set[bool]:
        return {not tool.icon().isNull() for tool in drawn_tools}

    window.resize(1366, 768)
    assert shown() == {True}
    window.sheet.resize(640, 300)
    QWidget.repaint(window.sheet)
    assert shown() == {False}
    assert all(tool.text() for tool in tools)
    window.sheet.resize(1078, 300)
    assert shown() == {True}
