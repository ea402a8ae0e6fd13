"""The sheet board's areas to keep clear: the tool that draws them, what the hand takes hold of, and Delete."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QKeyEvent, Qt
from PySide6.QtWidgets import QWidget

from app.boards.tool import Tool
from app.hand.area import AreaDrawing, AreaMove, area_handles
from app.hand.grip import Grip, Handle, Point
from app.rule.area_edits import Place, area_at, place_of, without_area
from app.store import Store
from core.drawing.clear import area_name
from core.drawing.names import find_sheet
from core.language import tr
from core.layout.clear import bounds
from core.plan.model import StockSheet

Box = tuple[float, float, float, float]

DELETE = (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)
SIDES = 1e-9  # mm


class Sheets(Protocol):
    """What this needs of the sheet board: which sheet is shown."""

    @property
    def sheet(self) -> str:
        """Id of the sheet shown."""


class Areas(QObject):
    """Areas on the sheet shown. `tool` is the button; while it is down a stroke draws one, and then it is up again."""

    def __init__(self, board: Sheets, store: Store, canvas: QWidget, tool: Tool) -> None:
        super().__init__(canvas)
        self._board, self._store, self._canvas, self.tool = board, store, canvas, tool
        tool.setCheckable(True)
        tool.setProperty("look", "chip")
        tool.draw("clear")
        canvas.installEventFilter(self)
        store.changed.connect(self._lay_down)

    def _lay_down(self) -> None:
        """Once something is drawn the hand has its other uses again."""
        if self.tool.isChecked() and self._store.held is not None:
            self.tool.setChecked(False)

    # What there is on the sheet

    def _sheet(self) -> StockSheet | None:
        """The sheet shown; None where the board has not caught up with a plan that has it no more."""
        try:
            return find_sheet(self._store.plan, self._board.sheet)
        except KeyError:
            return None

    def _places(self) -> list[Place]:
        """Of the areas on the sheet shown."""
        sheet = self._sheet()
        if sheet is None:
            return []
        at = next((n for n, stock in enumerate(self._store.project.sheets) if stock.id == sheet.stock), -1)
        count = len(self._store.project.sheets[at].keep_clear) if at >= 0 and sheet.areas else 0
        return [(at, number) for number in range(count)]

    def selected(self) -> Place | None:
        """The selected area, if it is on the sheet shown."""
        place = place_of(self._store.project, self._store.selected)
        return place if place in self._places() else None

    def name_at(self, x: float, y: float, reach: float, *, among: bool = True) -> str:
        """Id of the area at a place, '' for none. among: what lies there too comes first, but on its outline.

        The selected one is found anywhere on it.
        """
        project = self._store.project
        for at, number in reversed(self._places()):
            corners = area_at(project, (at, number)).corners
            name = area_name(project.sheets[at], number)
            inside = _inside(corners, x, y)
            if (inside and (not among or name == self._store.selected)) or _near(corners, x, y, reach):
                return name
        return ""

    def box(self, about: str) -> tuple[Box, ...]:
        """The box round the area with this id, if it is on the sheet shown."""
        place = place_of(self._store.project, about)
        return (bounds(area_at(self._store.project, place).corners),) if place in self._places() and place else ()

    # What the hand takes hold of

    def handles(self, pixel: float) -> tuple[Handle, ...]:
        """Of the selected area. pixel: mm of the sheet in a pixel."""
        place = self.selected()
        return area_handles(self._store.project, place, pixel) if place else ()

    def grip(self, about: str) -> Grip | None:
        """What moves the area with this id about; None for anything else."""
        place = place_of(self._store.project, about)
        return AreaMove(self._store.project, place) if place in self._places() and place else None

    def stroke(self, start: Point, pixel: float) -> Grip | None:
        """What draws a new area from there; None while the tool is up."""
        project, sheet = self._store.project, self._sheet()
        if sheet is None or not self.tool.isChecked():
            return None
        at = next((n for n, stock in enumerate(project.sheets) if stock.id == sheet.stock), -1)
        if at < 0:
            return None
        why = (
            ""
            if self.is_first(sheet)
            else tr("Areas are kept clear on the first sheet {stock}; this is {id}", stock=sheet.stock, id=sheet.id)
        )
        return AreaDrawing(project, at, start, pixel, why)

    def is_first(self, sheet: StockSheet) -> bool:
        """Is it the first copy of its stock, which has the areas?"""
        copies = [s.id for s in self._store.plan.sheets if s.stock == sheet.stock]
        return sheet.id == sheet.stock or bool(sheet.areas) or (not sheet.source.keep_clear and copies[0] == sheet.id)

    # Keys

    def remove(self) -> None:
        """Take the selected area away."""
        place = self.selected()
        if place is not None:
            project = self._store.project
            stock, kind = project.sheets[place[0]], area_at(project, place).kind
            self._store.apply(
                tr("Remove the {kind} on sheet {id}", kind=kind, id=stock.id), lambda now: without_area(now, place)
            )
            self._store.select(self._store.shelf.id if self._store.shelf else "")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in DELETE and not event.modifiers() and self._store.held is None and self.selected():
                self.remove()
                return True
            if event.key() == Qt.Key.Key_Escape and self.tool.isChecked() and self._store.held is None:
                self.tool.setChecked(False)
                return True
        return super().eventFilter(watched, event)


def _inside(corners: tuple[Point, ...], x: float, y: float) -> bool:
    """Is a place in a polygon? By the even-odd rule."""
    found = False
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            found = not found
    return found


def _near(corners: tuple[Point, ...], x: float, y: float, reach: float) -> bool:
    """Is a place within reach of a polygon's outline?"""
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        dx, dy = bx - ax, by - ay
        share = min(max(((x - ax) * dx + (y - ay) * dy) / max(dx * dx + dy * dy, SIDES), 0.0), 1.0)
        if (x - ax - share * dx) ** 2 + (y - ay - share * dy) ** 2 <= reach * reach:
            return True
    return False
