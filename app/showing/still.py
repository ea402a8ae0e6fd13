"""A still picture of the shelves of a plan, as it is wished."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Final

import numpy as np

from app.fold.camera import Camera
from app.fold.edges import edge_levels
from app.fold.faces import Where, face_key, face_picture, nowhere
from app.fold.look import look_of
from app.fold.pose import Pose
from app.fold.room import build_room
from app.fold.scene import EdgeKey, Scene, build_scene
from app.fold.standing import Standing, standing
from app.showing.raster import Bytes, Shrunk, Stop, Told, View, drawn, never
from app.showing.wish import Showing
from app.theme.palette import LIGHT
from core.face import fine_size
from core.face.finish import finished
from core.plan.model import Plan, StockSheet

FILL: Final = 0.86  # of the picture, by what is shown
FOR_WOOD: Final = 0.35  # of the work, making the faces

FaceOf = Callable[[StockSheet], Bytes]


class Stand:
    """The shelves of a plan stood up once, their wood made: pictures of them from any side."""

    def __init__(self, plan: Plan, wish: Showing, face_of: FaceOf) -> None:
        """face_of: makes a sheet's face, fine. May take long; raises what that raises."""
        self.plan, self.wish = plan, wish
        self.pose = Pose(wall=wish.is_wall)
        self.shelves: tuple[Standing, ...] = standing(plan, self.pose, wish.shelf)
        self.scene: Scene = build_scene(self.shelves, 1.0)
        self.room = build_room(self.shelves, plan.project.wall, self.pose, self.scene.points)
        keys = {batch.picture for batch in self.scene.batches}
        bare = {
            key: edge_levels(key)[0] if isinstance(key, EdgeKey) else face_of(self.scene.sheets[key]) for key in keys
        }
        self.woods = {key: finished(wood, wish.finish) for key, wood in bare.items()}
        self._shrunk = Shrunk(self.woods)

    def camera(self, turn: float, tilt: float, size: tuple[int, int]) -> Camera:
        """Fitted to all that is shown, from a side. [deg]"""
        return Camera(turn, tilt).fitted(self.scene.points, (float(size[0]), float(size[1])), FILL)

    def picture(self, camera: Camera, size: tuple[int, int], stop: Stop = never, told: Told | None = None) -> Bytes:
        """(rows, columns, 4), see `raster.drawn`."""
        view = View(self.scene, self.room, camera, look_of(LIGHT), size, self.wish.clear)
        return drawn(view, self._shrunk, stop, told)


def face_maker(where: Where = nowhere, stop: Stop = never) -> FaceOf:
    """Makes sheets' own faces. where: the files of their photographs."""
    return lambda sheet: face_picture(face_key(sheet, where), fine_size(sheet.length, sheet.width), stop)


def still(plan: Plan, wish: Showing, face_of: FaceOf, stop: Stop = never, told: Told | None = None) -> Bytes:
    """The picture, (rows, columns, 4) as red, green, blue and how solid."""
    stand = Stand(plan, wish, face_of)
    if told is not None:
        told(FOR_WOOD)
    tell = None if told is None else _rest(told)
    return stand.picture(stand.camera(*wish.seen_from(), wish.size), wish.size, stop, tell)


def _rest(told: Told) -> Told:
    return lambda share: told(FOR_WOOD + (1.0 - FOR_WOOD) * share)


def png_bytes(picture: Bytes) -> bytes:
    """As a PNG file; without transparency where there is none."""
    from PIL import Image

    kept = picture if (picture[..., 3] < 255).any() else np.ascontiguousarray(picture[..., :3])
    stream = io.BytesIO()
    Image.fromarray(kept).save(stream, "PNG", compress_level=4)
    return stream.getvalue()
