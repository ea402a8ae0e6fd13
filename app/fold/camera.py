"""Where the eye is: an orbit round a point, its matrices, and the way between pixels and rays. No Qt here.

World axes are the shelf's: x along its length, y up, z towards somebody who stands before it. Pictures have their
origin at the upper left, y down.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, exp, log, radians, sin, tan
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Size = tuple[float, float]  # of the picture: width, height

VIEW = 22.0  # angle of view, up and down: a long lens, so that parallels stay nearly so [deg]
STEEPEST = 89.0  # for a dragging hand; the named sides look straight down [deg]
NEAREST, FARTHEST = 60.0, 60_000.0  # of the eye to what it looks at [mm]
CENTRINGS = 3  # each brings what is seen nearer to the middle; after three it is within a pixel
FILL = 0.90  # of the picture, by what is fitted


class Camera(NamedTuple):
    """An eye on an orbit, looking at `target`."""

    turn: float = 0.0  # to the right round the upright axis; 0 is square to the front [deg]
    tilt: float = 0.0  # up; 90 looks straight down on the top [deg]
    distance: float = 3000.0  # of the eye to the target [mm]
    target: tuple[float, float, float] = (0.0, 0.0, 0.0)

    @property
    def rotation(self) -> Points:
        """World axes to the eye's (x right, y up, z towards the eye), 3x3."""
        return _rotation(self.turn, self.tilt)

    @property
    def eye(self) -> Points:
        """Where the eye is. [mm]"""
        result: Points = np.array(self.target) + self.distance * self.rotation[2]
        return result

    def seen(self, points: Points) -> Points:
        """Points (..., 3) in the eye's axes: the eye at 0, what it sees at z < 0. [mm]"""
        result: Points = (points - np.array(self.target)) @ self.rotation.T
        result[..., 2] -= self.distance
        return result

    @property
    def orbit_only(self) -> Points:
        """World axes to those of an eye that has turned round but not up, 3x3."""
        return self._replace(tilt=0.0).rotation

    def range(self, reach: float) -> tuple[float, float]:
        """Nearest and farthest there is anything to see, if all is within `reach` of the target. [mm]"""
        return max(self.distance - reach, 0.02 * self.distance, 1.0), self.distance + reach

    def clip_matrix(self, size: Size, near: float, far: float) -> Points:
        """World to clip space, 4x4, for columns; y down, as the picture's rows. near, far: see `range`."""
        up = 1.0 / tan(radians(VIEW / 2.0))
        look = np.array(
            [
                [up * size[1] / size[0], 0.0, 0.0, 0.0],
                [0.0, -up, 0.0, 0.0],
                [0.0, 0.0, (far + near) / (near - far), 2.0 * far * near / (near - far)],
                [0.0, 0.0, -1.0, 0.0],
            ]
        )
        move = np.eye(4)
        move[:3, :3] = self.rotation
        move[:3, 3] = -self.rotation @ np.array(self.target)
        move[2, 3] -= self.distance
        result: Points = look @ move
        return result

    def project(self, points: Points, size: Size) -> Points:
        """Pixels (..., 2) of points (..., 3); not a number for what lies behind the eye."""
        seen = self.seen(np.asarray(points, dtype=float))
        depth = np.where(seen[..., 2] < 0.0, -seen[..., 2], np.nan)
        scale = size[1] / 2.0 / tan(radians(VIEW / 2.0))
        x = size[0] / 2.0 + scale * seen[..., 0] / depth
        y = size[1] / 2.0 - scale * seen[..., 1] / depth
        return np.stack([x, y], axis=-1)

    def ray(self, at: tuple[float, float], size: Size) -> tuple[Points, Points]:
        """The ray under a pixel: the eye, and the direction, of length 1."""
        scale = size[1] / 2.0 / tan(radians(VIEW / 2.0))
        way = np.array([(at[0] - size[0] / 2.0) / scale, (size[1] / 2.0 - at[1]) / scale, -1.0])
        direction = self.rotation.T @ way
        return self.eye, direction / np.linalg.norm(direction)

    def pixel(self, size: Size, distance: float | None = None) -> float:
        """What a pixel spans at a distance from the eye (default: the target's). [mm]"""
        far = self.distance if distance is None else distance
        return 2.0 * tan(radians(VIEW / 2.0)) * far / size[1]

    def orbited(self, right: float, up: float) -> Camera:
        """Further round by so many degrees."""
        tilt = min(max(self.tilt + up, -STEEPEST), STEEPEST)
        return self._replace(turn=self.turn + right, tilt=tilt)

    def zoomed(self, factor: float, at: tuple[float, float], size: Size, far: float | None = None) -> Camera:
        """Nearer by `factor`; what lies under the pixel `at` stays there, and the eye never comes past it.

        far: how far along that pixel's ray it lies; default: as deep in the picture as the target. [mm]
        """
        distance = min(max(self.distance / factor, NEAREST), FARTHEST)
        kept = 1.0 - distance / self.distance
        target = np.array(self.target)
        if far is None:
            place = target + self._in_picture(at[0] - size[0] / 2.0, at[1] - size[1] / 2.0, size)
        else:
            eye, way = self.ray(at, size)
            place = eye + far * way
        return self._replace(distance=distance)._aimed(target + kept * (place - target))

    def panned(self, dx: float, dy: float, size: Size) -> Camera:
        """What is seen moves by so many pixels."""
        return self._aimed(np.array(self.target) - self._in_picture(dx, dy, size))

    def moved(self, by: Points) -> Camera:
        """The same way round, from a place `by` further (3,). [mm]"""
        return self._aimed(np.array(self.target) + by)

    def _in_picture(self, dx: float, dy: float, size: Size) -> Points:
        """A step of pixels at the target's distance, as a step in the world."""
        span = self.pixel(size)
        result: Points = self.rotation.T @ np.array([dx * span, -dy * span, 0.0])
        return result

    def _aimed(self, target: Points) -> Camera:
        x, y, z = (float(v) for v in target)
        return self._replace(target=(x, y, z))

    def fitted(self, points: Points, size: Size, fill: float = FILL) -> Camera:
        """The same way round, moved so that the points just fill the picture."""
        if len(points) == 0:
            return self
        middle = (points.min(axis=0) + points.max(axis=0)) / 2.0
        up = fill * tan(radians(VIEW / 2.0))
        across = up * size[0] / size[1]
        seen = (points - middle) @ self.rotation.T
        shift = np.zeros(2)
        for axis, slope in ((0, across), (1, up)):  # the window that touches on both sides
            high = (seen[:, axis] + slope * seen[:, 2]).max()
            low = (seen[:, axis] - slope * seen[:, 2]).min()
            shift[axis] = (high + low) / 2.0
        needs = [seen[:, 2] + np.abs(seen[:, i] - shift[i]) / s for i, s in ((0, across), (1, up))]
        distance = min(max(float(np.max(needs)), NEAREST), FARTHEST)
        target = middle + self.rotation.T @ np.array([shift[0], shift[1], 0.0])
        return self._replace(distance=distance)._aimed(target)

    def centred(self, points: Points, size: Size) -> Camera:
        """The same way round and as far away, moved so that the points lie in the middle of the picture."""
        seen = self.seen(points)
        ahead = seen[seen[:, 2] < 0.0]
        if not len(ahead):
            return self
        places, depths = ahead[:, :2], -ahead[:, 2:]
        aside = np.zeros(2)
        for _ in range(CENTRINGS):
            slopes = (places + aside) / depths
            aside -= self.distance * (slopes.min(axis=0) + slopes.max(axis=0)) / 2.0
        return self._aimed(np.array(self.target) - self.rotation.T @ np.array([aside[0], aside[1], 0.0]))


@lru_cache(maxsize=16)
def _rotation(turn: float, tilt: float) -> Points:
    """See `Camera.rotation`; it can be read only."""
    a, b = radians(turn), radians(tilt)
    about_y = np.array([[cos(a), 0.0, -sin(a)], [0.0, 1.0, 0.0], [sin(a), 0.0, cos(a)]])
    about_x = np.array([[1.0, 0.0, 0.0], [0.0, cos(b), -sin(b)], [0.0, sin(b), cos(b)]])
    result: Points = about_x @ about_y
    result.setflags(write=False)
    return result


def between(first: Camera, second: Camera, share: float) -> Camera:
    """On the way from one to the other, the shorter way round; share 0..1."""
    around = (second.turn - first.turn + 180.0) % 360.0 - 180.0
    a, b = np.array(first.target), np.array(second.target)
    distance = exp((1.0 - share) * log(first.distance) + share * log(second.distance))
    x, y, z = (float(v) for v in a + share * (b - a))
    return Camera(first.turn + share * around, first.tilt + share * (second.tilt - first.tilt), distance, (x, y, z))
