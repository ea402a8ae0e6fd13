"""Between the widget and the renderer: keeps the scene, the eye and the newest picture of them.

Imported once the window has been painted: it brings numpy and OpenGL.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QImage

from app.fold.eye import Eye
from app.fold.gl.target import Gathering, image_of
from app.fold.levels import Bytes
from app.fold.live import Live
from app.fold.look import Look, look_of
from app.fold.meshes import fold_matrices
from app.fold.picking import Picker
from app.fold.pose import Pose
from app.fold.room import Room, build_room
from app.fold.scene import Scene, build_scene
from app.fold.shot import Shot
from app.fold.standing import Standing, standing
from app.fold.strokes import outline
from app.theme.palette import Palette
from core.plan.model import Plan

REST_MS = 150  # after the last change, before the still picture is made
LEAST = 8  # a picture smaller than this is not drawn [px]


class Stage(QObject):
    """`changed`: paint again. `lost`: there is no OpenGL, or no longer; it says why."""

    changed = Signal()
    lost = Signal(str)

    def __init__(self, palette: Palette, parent: QObject) -> None:
        super().__init__(parent)
        self.eye = Eye()
        self.live = Live(self)
        self.live.changed.connect(self.redraw)
        self.live.lost.connect(self.lost)
        self._look: Look = look_of(palette)
        self._shown: tuple[Plan, Pose, str, str] | None = None
        self._shelves: tuple[Standing, ...] = ()
        self._scene: Scene | None = None
        self._room: Room | None = None
        self._picker: Picker | None = None
        self._size, self._ratio = (1.0, 1.0), 1.0
        self._pixels: Bytes | None = None
        self._image = QImage()
        self._is_stale = True
        self._is_begun = False
        self._gathering: Gathering | None = None
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._begin_still)
        self._still = QTimer(self, interval=0)
        self._still.timeout.connect(self._gather)

    # What is shown

    def show(self, plan: Plan, pose: Pose, shelf: str, selected: str) -> None:
        """Show this from now on."""
        self._shown = (plan, pose, shelf, selected)
        self._scene = None
        self._picker = None
        self.redraw()

    def dress(self, palette: Palette) -> None:
        """Another theme."""
        self._look = look_of(palette)
        self.redraw()

    def resize(self, width: float, height: float, ratio: float) -> None:
        """The picture is so large, in pixels at 100 %."""
        if (width, height, ratio) != (*self._size, self._ratio):
            self._size, self._ratio = (width, height), ratio
            self.redraw()

    def redraw(self) -> None:
        """The newest picture is no longer right."""
        self._is_stale, self._is_begun = True, False
        self._gathering = None
        self._still.stop()
        self._rest.stop()
        self.changed.emit()

    @property
    def size(self) -> tuple[float, float]:
        """Of the picture, in pixels at 100 %."""
        return self._size

    @property
    def scene(self) -> Scene:
        """What is drawn. Made when it is first asked for after a change, so that several changes make one."""
        if self._scene is None:
            assert self._shown is not None
            plan, pose, shelf, selected = self._shown
            self._shelves = standing(plan, pose, shelf)
            is_alone = not pose.wall and selected == shelf  # then there is nothing to tell it from
            self._scene = build_scene(self._shelves, pose.fold, "" if is_alone else selected)
            self._room = build_room(self._shelves, plan.project.wall, pose, self._scene.points)
            first = self._shelves[0].shelf if self._shelves else None
            is_left = first is not None and first.right == "open" and first.left == "mitred"
            self.eye.show(is_wall=pose.wall, is_left=is_left)
        return self._scene

    # The picture

    def image(self) -> QImage:
        """The newest picture; drawn now if that is not right any more. Empty where there is nothing to draw."""
        self.begin()
        if self._is_begun:
            self._is_begun = False
            pixels = self.live.finish_picture()
            if pixels is not None:
                self._take(pixels)
                self._is_stale = False
                self._rest.start()
        return self._image

    def begin(self) -> None:
        """Have the newest picture drawn where it is not right any more; `image` then only fetches it.

        Called early, it is drawn while the other boards are painted.
        """
        if not self._is_stale or self._is_begun or self._shown is None or min(self._size) < LEAST:
            return
        self.eye.keep_up(self.scene.points, self._size)
        shot = self._shot()
        self.live.show_scene(shot.scene, self.eye.camera.pixel(shot.span))
        self.live.begin_picture(shot)
        self._is_begun = True

    def _shot(self) -> Shot:
        scene = self.scene
        assert self._room is not None
        size = (max(1, round(self._size[0] * self._ratio)), max(1, round(self._size[1] * self._ratio)))
        return Shot(scene, self._room, self.eye.camera, self._look, size, self._ratio)

    def _take(self, pixels: Bytes) -> None:
        self._pixels = pixels  # the image lies over them
        self._image = image_of(pixels, self._ratio)

    def _begin_still(self) -> None:
        if self.live.is_ready and not self._is_stale:
            self._gathering = Gathering()
            self._still.start()

    def _gather(self) -> None:
        if self._gathering is None:
            self._still.stop()
            return
        gathering = self._gathering
        self.live.gather(gathering, self._shot())
        if gathering.place is None and self._gathering is gathering:
            self._take(gathering.mean())
            self._gathering = None
            self._still.stop()
            self.changed.emit()

    @property
    def is_at_rest(self) -> bool:
        """Is the still picture made, and nothing under way?"""
        return not (self._is_stale or self._rest.isActive() or self._still.isActive())

    def pause(self) -> None:
        """Nobody looks."""
        self._rest.stop()
        self._still.stop()

    # What lies where

    def at(self, x: float, y: float, reach: float) -> str:
        """Id of what lies at a pixel; '' for nothing. reach: how near counts as on a seam. [px]"""
        picker = self._pick()
        start, way = self.eye.ray((x, y), self._size)
        return picker.at(start, way, reach * self.eye.camera.pixel(self._size, 1.0)) if picker else ""

    def far(self, x: float, y: float) -> float | None:
        """How far from the eye the wood under a pixel is; None where there is none. [mm]"""
        picker = self._pick()
        return picker.far(*self.eye.ray((x, y), self._size)) if picker else None

    def _pick(self) -> Picker | None:
        """What picks; None while nothing is shown."""
        if self._picker is None and self._shown is not None:
            _ = self.scene
            self._picker = Picker(self._shelves, self._shown[1].fold)
        return self._picker

    def origin_of(self, shelf: str) -> tuple[float, float, float] | None:
        """Where a shelf's own space has its origin in the world; None for one that is not shown. [mm]"""
        _ = self.scene
        return next((one.shell for one in self._shelves if one.shelf.id == shelf), None)

    def outline(self, about: str) -> list[list[tuple[float, float]]]:
        """Lines round a panel or along a seam, in pixels: for the pointer."""
        if self._shown is None:
            return []
        owner, _, role = about.partition("/")
        for one in self._shelves:
            if one.shelf.id == owner and role:
                matrices = fold_matrices(one.net, self._shown[1].fold, one.outside_gap)
                lines = self.eye.project(outline(one.net, role, matrices) + one.shell, self._size)
                return [[(float(x), float(y)) for x, y in line] for line in lines if (line == line).all()]
        return []
