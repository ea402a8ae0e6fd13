"""The fold board: what the shelf becomes, folded by hand, with the sheet's own figure on it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.boards.board import Board
from app.fold.controls import FoldControls, side_menu
from app.fold.picture import FoldPicture
from app.fold.words import subtitle
from app.store import Store
from app.theme import Theme
from core.language import tr


class FoldBoard(Board):
    """What it becomes: one shelf, or the whole wall. `figure_asked`: seam by seam."""

    figure_asked = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__("fold", tr("Fold"), store, theme, parent)
        body = QWidget(self)
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.picture = FoldPicture(store, theme, body)
        self.controls = FoldControls(self.picture, theme, body)
        column.addWidget(self.picture, 1)
        column.addWidget(self.controls)
        self.wall_button = self.tool("wall", tr("Whole wall"), tr("All shelves as they hang."), self._flip_wall)
        self.view_button = self.tool("view", tr("View"), tr("Look from a named side."), self._open_sides)
        self._sides = side_menu(self.picture, theme, self)
        tip = tr("How well the figure matches, seam by seam.")
        self.add_tool(self.tool("figure", tr("Figure"), tip, self.figure_asked.emit))
        self.add_tool(self.wall_button)
        self.add_tool(self.view_button)
        self.set_content(body)
        self.picture.over = self.paint_small_title
        self.picture.picked.connect(store.select)
        self.picture.posed.connect(self._say)
        self.controls.touched.connect(self.picture.touch)

    def _flip_wall(self) -> None:
        self.picture.touch()
        pose = self.picture.pose
        self.picture.set_pose(pose._replace(wall=not pose.wall))

    def _open_sides(self) -> None:
        self._sides.popup(self.view_button.mapToGlobal(self.view_button.rect().bottomLeft()))

    def _say(self) -> None:
        pose = self.picture.pose
        self.subtitle.set_words(subtitle(self.store.project, pose, self.store.shelf_index))
        words = tr("One shelf") if pose.wall else tr("Whole wall")
        if words != self.wall_button.text():
            self.wall_button.setText(words)
            self.wall_button.draw("shelf" if pose.wall else "wall")
            self.wall_button.setToolTip(
                tr("The selected shelf alone.") if pose.wall else tr("All shelves as they hang.")
            )

    def refresh_plan(self) -> None:
        self._say()
        self.picture.refresh()
        if self.store.planner.holding:  # a hand drags: every board is about to be painted
            self.picture.begin()

    def refresh_selection(self) -> None:
        self.refresh_plan()

    def refresh_theme(self) -> None:
        super().refresh_theme()
        self.picture.dress()

    def refresh_size(self) -> None:
        self.controls.setVisible(not self.small)
        self.picture.refresh()
