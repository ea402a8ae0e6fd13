"""The row below the picture: fold, frame, slip-on; and the menu of sides in the board's heading."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QPushButton, QWidget

from app.fold.picture import FoldPicture
from app.fold.pose import SIDES
from app.fold.slide import Slide
from app.theme import Theme
from app.theme.icons import icon
from core.language import tr

ROW = 40  # its height [px]


class FoldControls(QWidget):
    """Sets the picture's pose, and follows it. `touched` is sent when a hand uses any of it."""

    touched = Signal()

    def __init__(self, picture: FoldPicture, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture = picture
        self.setObjectName("fold_controls")
        self.setFixedHeight(ROW)
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 0, 14, 6)
        row.setSpacing(6)
        self.flat = self._button("fold_flat", tr("Flat"), tr("Lay it flat, as on the sheet (Space)."), 0.0)
        self.fold = Slide("fold_slider", tr("Fold, from flat on the sheet to closed"), theme, self)
        self.closed = self._button("fold_closed", tr("Closed"), tr("Fold it to its corners (Space)."), 1.0)
        self.frame = QPushButton(tr("Frame"), self)
        self.frame.setObjectName("fold_frame")
        self.frame.setProperty("look", "chip")
        self.frame.setCheckable(True)
        self.frame.setToolTip(tr("See the frame through the shell."))
        self.on = QLabel(tr("On"), self)
        self.slip = Slide("fold_slip", tr("Slide the shell off its frame"), theme, self)
        self.off = QLabel(tr("Off"), self)
        for label in (self.on, self.off):
            label.setProperty("role", "soft")
        line: tuple[tuple[QWidget, int], ...] = (
            (self.flat, 0),
            (self.fold, 3),
            (self.closed, 0),
            (self.frame, 0),
            (self.on, 0),
            (self.slip, 2),
            (self.off, 0),
        )
        for widget, share in line:
            row.addWidget(widget, share, Qt.AlignmentFlag.AlignVCenter)
        row.insertSpacing(3, 10)
        self.fold.valueChanged.connect(self._fold)
        self.slip.valueChanged.connect(self._slip)
        self.frame.clicked.connect(self._flip_frame)
        picture.posed.connect(self.follow)
        picture.lost.connect(self.follow)
        self.follow()

    def _button(self, name: str, words: str, tip: str, fold: float) -> QPushButton:
        button = QPushButton(words, self)
        button.setObjectName(name)
        button.setProperty("look", "quiet")
        button.setToolTip(tip)
        button.clicked.connect(partial(self._go, fold))
        return button

    def _go(self, fold: float, _checked: bool = False) -> None:
        self.touched.emit()
        self._picture.fold_to(fold)

    def _fold(self) -> None:
        self.touched.emit()
        self._picture.set_pose(self._picture.pose._replace(fold=self.fold.share))

    def _slip(self) -> None:
        self.touched.emit()
        self._picture.set_pose(self._picture.pose._replace(slip=self.slip.share))

    def _flip_frame(self) -> None:
        self.touched.emit()
        self._picture.set_pose(self._picture.pose._replace(frame=self.frame.isChecked()))

    def follow(self) -> None:
        """Show the picture's pose; sliders do nothing where there are no solids."""
        pose, has_solids = self._picture.pose, not self._picture.reason
        self.fold.set_share(pose.fold)
        self.slip.set_share(pose.slip)
        self.frame.setChecked(pose.frame)
        hands: tuple[QWidget, ...] = (self.flat, self.fold, self.closed, self.frame, self.slip)
        for hand in hands:
            hand.setEnabled(has_solids)
        slips: tuple[QWidget, ...] = (self.on, self.slip, self.off)
        for part in slips:
            part.setVisible(pose.frame)


def side_menu(picture: FoldPicture, theme: Theme, parent: QWidget) -> QMenu:
    """The named sides with their keys."""
    menu = QMenu(parent)
    for side in SIDES:
        action = menu.addAction(icon(f"side_{side.name}", theme), f"{side.words}\t{side.key}")
        action.setObjectName(f"fold_side_{side.name}")
        action.triggered.connect(partial(_look, picture, side.name))
    menu.addSeparator()
    action = menu.addAction(icon("side_corner", theme), tr("From the corner\t0"))
    action.setObjectName("fold_side_home")
    action.triggered.connect(partial(_look, picture, ""))
    return menu


def _look(picture: FoldPicture, name: str, _checked: bool = False) -> None:
    picture.look_from(next((side for side in SIDES if side.name == name), None))
