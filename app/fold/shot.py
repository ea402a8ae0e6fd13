"""One picture to be drawn. No Qt, no OpenGL here."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from app.fold.camera import Camera
from app.fold.look import Look, look_of
from app.fold.room import Room, Shade
from app.fold.scene import Batch, Scene, Stroke
from app.theme.palette import LIGHT


class Shot(NamedTuple):
    """What is seen, from where, how it looks, and how large the picture is."""

    scene: Scene
    room: Room
    camera: Camera
    look: Look
    size: tuple[int, int]  # width and height [px]
    ratio: float = 1.0  # how many pixels one at 100 % is

    @property
    def span(self) -> tuple[float, float]:
        """The size as the camera takes it."""
        return float(self.size[0]), float(self.size[1])


def blank(what: str) -> Shot:
    """A picture of nothing: one empty triangle of a kind, 'solid', 'line' or 'shade'."""
    rows = np.zeros((6, 8), np.float32)
    none = np.zeros((0, 8), np.float32)
    batches = (Batch("shell", "show", "", False, 0, 6),) if what == "solid" else ()
    strokes = (Stroke("edge", 0, 6),) if what == "line" else ()
    shades = (Shade("wall", 0, 6),) if what == "shade" else ()
    room = Room(rows if shades else none, shades)
    scene = Scene(none if shades else rows, batches, strokes, np.zeros((1, 3)), {}, False)
    return Shot(scene, room, Camera(), look_of(LIGHT), (16, 16))
