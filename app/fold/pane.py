"""What shows the shelves: a plain widget that paints what the stage draws, or a still picture.

Light to import: the stage, with numpy and OpenGL, comes once the window has been painted; till then, and where there
is no OpenGL, the picture is a still one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QHideEvent, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.fold.loader import Loader
from app.fold.overlay import paint_focus, paint_legend, paint_match, paint_outline, paint_reading, paint_sentence
from app.fold.pose import Pose
from app.fold.still import Still
from app.fold.words import reading
from app.store import Store
from app.theme import Theme
from core.language import tr

if TYPE_CHECKING:
    from app.fold.stage import Stage
    from core.plan.model import PlacedNet

SEAM_PX = 5.0  # how near counts as on a seam
NO_SOLIDS = tr("A still picture, because")
ROOM, SMALL_ROOM = (30, 10, -30, -44), (10, 26, -10, -10)  # where a still picture is drawn [px]
LEAST = 60  # sides of the least picture that is drawn still [px]


class FoldPane(QWidget):
    """`posed`: the pose has changed. `lost`: there are no solids, or no longer."""

    posed = Signal()
    lost = Signal()

    def __init__(self, store: Store, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("fold_picture")
        self.setAccessibleName(tr("The folded shelf"))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.store, self.theme = store, theme
        self.over: Callable[[QPainter], None] | None = None  # painted last, for a title in a small picture
        self._pose = Pose()
        self.hover, self.pointer = "", QPointF()
        self._matches: tuple[Sequence[PlacedNet], Mapping[str, float]] = ((), {})
        self._loader = Loader(theme, self)
        self._loader.ready.connect(self._take_stage)
        self._loader.lost.connect(self._lose)

    # What is shown

    @property
    def stage(self) -> Stage | None:
        """What draws the solids; None until it is ready, and where there is no OpenGL."""
        return self._loader.stage

    @property
    def reason(self) -> str:
        """Why there are no solids, '' where there are or will be."""
        return self._loader.reason

    @property
    def sentence(self) -> str:
        """The same as a sentence."""
        return f"{NO_SOLIDS} {self.reason}." if self.reason else ""

    @property
    def pose(self) -> Pose:
        """How the shelves stand."""
        return self._pose

    def set_pose(self, pose: Pose) -> None:
        """Stand like this."""
        if pose != self._pose:
            self._pose = pose
            self.refresh()
            self.posed.emit()

    def show_matches(self, matches: Mapping[str, float]) -> None:
        """Mark these seams with how well they match, 0..100, while all nets lie as they do; none for none."""
        self._matches = (self.store.plan.nets, matches)
        self.update()

    def matches(self) -> list[tuple[str, QPointF, float]]:
        """The seams in sight that are marked: where, and with what."""
        nets, known = self._matches
        if self.stage is None or not known or nets != self.store.plan.nets or self._is_in_hand():
            return []
        found = []
        for seam, match in known.items():
            lines = self.stage.outline(seam)
            if lines and len(lines[0]) > 1:
                (ax, ay), (bx, by) = lines[0][0], lines[0][-1]
                middle = QPointF((ax + bx) / 2.0, (ay + by) / 2.0)
                if self.thing_at(middle) == seam:  # nothing lies before it
                    found.append((seam, middle, match))
        return found

    def refresh(self) -> None:
        """The plan, the selection or the pose is another one."""
        if self.stage is not None:
            shelf = self.store.shelf
            self.stage.show(self.store.plan, self._pose, shelf.id if shelf else "", self.store.selected)
        self.hover = ""
        self.update()

    def begin(self) -> None:
        """Have the picture drawn from now on, while other boards are painted."""
        if self.stage is not None and self.isVisible():
            self.stage.begin()

    def dress(self) -> None:
        """The theme is another one."""
        if self.stage is not None:
            self.stage.dress(self.theme.palette)
        self.update()

    def _take_stage(self) -> None:
        if self.stage is not None:
            self.stage.live.where = self.store.pictures.where
            self.store.pictures.changed.connect(self.stage.redraw)
            self.stage.changed.connect(self.update)
            self._fit_stage()
            self.refresh()

    def _lose(self) -> None:
        self.setAccessibleDescription(self.sentence)
        self.lost.emit()
        self.update()

    # For whoever edits in the picture

    def project_to_screen(self, point: tuple[float, float, float]) -> QPointF | None:
        """The pixel of a point of the world (see `app.fold.standing`); None without solids or behind the eye. [mm]"""
        if self.stage is None:
            return None
        pixel = self.stage.eye.pixel_of(point, self.stage.size)
        return QPointF(*pixel) if pixel is not None else None

    def origin_of(self, shelf: str) -> tuple[float, float, float] | None:
        """Where a shelf's own space has its origin in the world; None for one that is not shown. [mm]"""
        return self.stage.origin_of(shelf) if self.stage is not None else None

    def ray_at(self, place: QPointF) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
        """The ray under a pixel: where it starts and its direction, of length 1; None without solids. [mm]"""
        if self.stage is None:
            return None
        start, way = self.stage.eye.ray((place.x(), place.y()), self.stage.size)
        return tuple(float(v) for v in start), tuple(float(v) for v in way)

    def thing_at(self, place: QPointF) -> str:
        """Id of what lies at a pixel; '' for bare ground."""
        if self.stage is not None:
            return self.stage.at(place.x(), place.y(), SEAM_PX)
        still = self._still()
        return still.at(place, SEAM_PX) if still else ""

    # The picture

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if self.stage is not None:
            self.stage.pause()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_stage()

    def _fit_stage(self) -> None:
        if self.stage is not None:
            self.stage.resize(float(self.width()), float(self.height()), self.devicePixelRatioF())

    def paintEvent(self, event: QPaintEvent) -> None:
        image = self.stage.image() if self.stage is not None else QImage()  # before there is a painter to leave open
        painter = QPainter(self)
        try:
            self._paint(painter, image)
        finally:
            painter.end()
        self._loader.begin()

    def _paint(self, painter: QPainter, image: QImage) -> None:
        if not image.isNull():
            painter.drawImage(QPointF(0.0, 0.0), image)
        else:
            painter.fillRect(self.rect(), QColor(self.theme.palette.paper))
            still = self._still()
            if still is not None:
                still.paint(painter, self.store.selected)
        if self.isEnabled():
            self._paint_words(painter, QRectF(self.rect()))
            self._paint_hand(painter)
        if self.over is not None:
            self.over(painter)
        if self.hasFocus():
            paint_focus(painter, QRectF(self.rect()), self.theme.palette)

    def _paint_words(self, painter: QPainter, room: QRectF) -> None:
        palette, store = self.theme.palette, self.store
        if store.shelf is not None:
            is_broken = any(seam.broken for seam in store.plan.seams)
            paint_legend(painter, room, palette, self._hint(), is_broken)
        paint_sentence(painter, self.sentence, room, palette)
        for _seam, at, match in self.matches():
            paint_match(painter, at, match, palette)
        if not self.hover or self._is_in_hand():
            return
        if self.stage is not None and self.hover != store.selected:
            paint_outline(painter, self.stage.outline(self.hover), palette)
        words = self._note() or reading(store.plan, self.hover, store.unit)
        paint_reading(painter, words, self.pointer, room, palette)

    def _is_in_hand(self) -> bool:
        """Is a size in the hand, whose card then stands beside the pointer?"""
        return False

    def _hint(self) -> str:
        """What is said of the hand beside the legend."""
        return ""

    def _note(self) -> str:
        """What is said at the pointer instead of the reading."""
        return ""

    def _paint_hand(self, painter: QPainter) -> None:
        """What the hand can take hold of, and what it says."""

    def _still(self) -> Still | None:
        shelf = self.store.shelf
        if shelf is None or min(self.width(), self.height()) < LEAST:
            return None
        room = QRectF(self.rect()).adjusted(*(ROOM if self.isEnabled() else SMALL_ROOM))
        return Still(self.store.plan, shelf, self.theme.palette, room)
