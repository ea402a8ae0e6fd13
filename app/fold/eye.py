"""The board's camera: how it is fitted to what is shown, and how the hand moves it. No Qt here."""

from __future__ import annotations

from typing import Literal

import numpy as np

from app.fold.camera import FILL, Camera, Points, Size, between
from app.fold.pose import HOME_TILT, HOME_TURN, WALL_TILT, WALL_TURN, Side

Fit = Literal["round", "side", "own"]
WALL_FILL = 0.82  # of the picture, by the shelves on their wall
FULL = 0.98  # of the picture, by what is turned square to the eye

# round: fitted so that an orbit keeps everything in the picture and its size; side: fitted as it is seen from a named
# side; own: where the hand has put it.


class Eye:
    """Where the board looks from."""

    def __init__(self) -> None:
        self.camera = Camera(HOME_TURN, HOME_TILT)
        self.fit: Fit = "round"
        self._is_wall = False
        self._is_left = False

    def go_home(self) -> None:
        """To where the board starts."""
        self.fit = "round"
        turn, tilt = self.home
        self.camera = self.camera._replace(turn=turn, tilt=tilt)

    @property
    def home(self) -> tuple[float, float]:
        """Turn and tilt of the board's own side. [deg]"""
        turn, tilt = (WALL_TURN, WALL_TILT) if self._is_wall else (HOME_TURN, HOME_TILT)
        return (-turn if self._is_left else turn), tilt

    def show(self, *, is_wall: bool, is_left: bool) -> None:
        """What is looked at: the wall or a shelf, and whether its left end is the one worth seeing."""
        was_home = self.fit == "round" and (self.camera.turn, self.camera.tilt) == self.home
        has_changed = is_wall != self._is_wall
        self._is_wall, self._is_left = is_wall, is_left
        if was_home or has_changed:
            self.go_home()

    def keep_up(self, points: Points, size: Size) -> None:
        """Fit again what is shown now, unless the hand has put the camera somewhere."""
        if self.fit != "own" and len(points):
            self.camera = self.fitted(points, size)

    def fitted(self, points: Points, size: Size) -> Camera:
        """The camera, fitted as `fit` says."""
        if self.fit == "side":
            return self.camera.fitted(points, size)
        fill = WALL_FILL if self._is_wall else FILL
        home = self.camera._replace(turn=self.home[0]).fitted(points, size, fill)
        square = self.camera._replace(turn=0.0).fitted(points, size, FULL)
        x, y, z = (float(v) for v in (points.min(axis=0) + points.max(axis=0)) / 2.0)
        seen = self.camera.fitted(points, size, FULL)  # a low picture cuts off what is turned farther round
        distance = max(home.distance, square.distance, seen.distance)
        return self.camera._replace(distance=distance, target=(x, y, z)).centred(points, size)

    def side(self, side: Side | None, points: Points, size: Size) -> tuple[Camera, Fit]:
        """Where a named side is seen from, or the board's own (None)."""
        kept, self.fit = self.camera, "side" if side else "round"
        kept_fit: Fit = self.fit
        turn, tilt = (side.turn, side.tilt) if side else self.home
        self.camera = self.camera._replace(turn=turn, tilt=tilt)
        aim = self.fitted(points, size) if len(points) else self.camera
        self.camera, self.fit = kept, "own"
        return aim, kept_fit

    def on_the_way(self, start: Camera, aim: Camera, fit: Fit, share: float) -> None:
        """Between two places; there, it is fitted as the second is."""
        self.camera = between(start, aim, share) if share < 1.0 else aim
        self.fit = fit if share >= 1.0 else "own"

    def orbit(self, right: float, up: float) -> None:
        """By the hand."""
        self.camera = self.camera.orbited(right, up)
        if self.fit == "side":
            self.fit = "own"

    def zoom(self, factor: float, at: tuple[float, float], size: Size, far: float | None = None) -> None:
        """By the hand; what is under `at`, so far along its ray, stays there."""
        self.camera = self.camera.zoomed(factor, at, size, far)
        self.fit = "own"

    def pan(self, dx: float, dy: float, size: Size) -> None:
        """By the hand."""
        self.camera = self.camera.panned(dx, dy, size)
        self.fit = "own"

    def ray(self, at: tuple[float, float], size: Size) -> tuple[Points, Points]:
        """The ray under a pixel."""
        return self.camera.ray(at, size)

    def project(self, points: Points, size: Size) -> Points:
        """Pixels of points (..., 3)."""
        return self.camera.project(points, size)

    def pixel_of(self, point: tuple[float, float, float], size: Size) -> tuple[float, float] | None:
        """The pixel of one point; None for one behind the eye."""
        x, y = (float(v) for v in self.camera.project(np.array(point), size))
        return (x, y) if x == x else None
