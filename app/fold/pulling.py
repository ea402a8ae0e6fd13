"""Pulling a shelf's outer sizes in the picture: where its handles are, and which size the pointer asks for. No Qt here.

A handle lies in the middle of a face and moves along a line in space, square to the face. The ray under the pointer and
that line give the size: the line's point nearest to the ray. For the hand the board is the picture: pixels, y up.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations
from math import cos, hypot, radians
from typing import Final, NamedTuple

import numpy as np

from app.fold.camera import Camera, Points
from app.fold.camera import Size as PictureSize
from app.fold.meshes import fold_matrices
from app.fold.pose import Pose
from app.fold.standing import Offset, Standing, standing
from app.hand.grip import Handle, Point
from app.hand.shelf import Along, Size, size_handle
from app.hand.wall import catching, goes_with
from core.plan.model import Plan

POINTING: Final = cos(radians(12.0))  # a line nearer than this to the ray on it points at the viewer
FACING: Final = 0.05  # cosine from which a face is seen well enough to have its handle on it
BEYOND: Final = 4.0  # times the way to what is looked at: no line is followed farther, as where it vanishes
APART: Final = 26.0  # pixels between two handles, where there is room for it
SHARES: Final = ((0.5, 0.5), (0.38, 0.62), (0.2, 0.6), (0.0, 0.5))  # of the length: where front and top may have theirs


class Face(NamedTuple):
    """A face that is pulled. way: outward, in the closed shelf's axes; stays: what the eye moves for each mm pulled
    while the shelf is shown alone, for its own origin stays (see `core.geometry.fold`)."""

    key: str
    size: Size
    role: str
    way: Offset
    stays: Offset = (0.0, 0.0, 0.0)


FACES: Final = {
    face.role: face
    for face in (
        Face("length", "length", "right", (1.0, 0.0, 0.0)),
        Face("length left", "length", "left", (-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
        Face("depth", "depth", "front", (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)),
        Face("height", "height", "top", (0.0, 1.0, 0.0)),
        Face("height below", "height", "bottom", (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)),
    )
}
SIDES: Final = np.array([*(face.way for face in FACES.values()), (0.0, 0.0, -1.0)])  # of the box; the back is open


class Seen(NamedTuple):
    """From where the picture is seen, and how large it is. [px]"""

    camera: Camera
    size: PictureSize

    def pixel(self, place: Points) -> Point:
        """A place of the world on the hand's board."""
        x, y = (float(v) for v in self.camera.project(place, self.size))
        return (x, -y)


def size_handles(plan: Plan, pose: Pose, shelf: str, seen: Seen, only: str = "") -> tuple[Handle, ...]:
    """The handles of a shelf as it stands, or the one called `only`; none where it is not shown."""
    found = next((one for one in standing(plan, pose, shelf) if one.shelf.id == shelf), None)
    if found is None:
        return ()
    box = _Box(found, pose.fold, seen.camera.eye)
    if only:
        faces = [face for face in FACES.values() if face.key == only]
        return tuple(_handle(plan, pose, found, face, box.place(face), seen) for face in faces)
    faces = [FACES[role] for role in box.nearest()]
    places = zip(faces, _spread(box, faces, seen), strict=True)
    before = [(face, place) for face, place in places if float(seen.camera.seen(place)[2]) < 0.0]
    return tuple(_handle(plan, pose, found, face, place, seen) for face, place in before)


def eye_shift(key: str, grown: float, pose: Pose) -> Points:
    """How far the eye goes with a size that has grown, so that the face being pulled stays in the hand. [mm]"""
    face = next(face for face in FACES.values() if face.key == key)
    result: Points = np.array((0.0, 0.0, 0.0) if pose.wall else face.stays) * grown
    return result


class _Box:
    """The outside of a shelf, folded so far: the middles of its faces, and which are seen."""

    def __init__(self, one: Standing, fold: float, eye: Points) -> None:
        wanted = one.shelf
        self._half = np.array((wanted.length, wanted.height, wanted.depth)) / 2.0
        self._shell = np.array(one.shell)
        self._middle = self._shell + self._half * (1.0, 1.0, -1.0)
        self._eye = eye
        self._panels = one.net.panels
        self._rows = {panel.role: row for row, panel in enumerate(one.net.panels)}
        self._turns, self._shifts = fold_matrices(one.net, fold, one.outside_gap)
        boxes = np.array([panel.box for panel in one.net.panels])
        flat = np.zeros((len(boxes), 3))
        flat[:, :2] = (boxes[:, :2] + boxes[:, 2:]) / 2.0
        self._middles = np.einsum("nij,nj->ni", self._turns, flat) + self._shifts + self._shell
        self._panels_face = _cosines(self._turns[:, :, 2], eye - self._middles)
        self._sides_face = _cosines(SIDES, eye - self._middle - SIDES * self._half)

    def nearest(self) -> tuple[str, str, str]:
        """Of each two opposite faces the one to pull: the one that is seen; the right end and the top where none is."""
        away = self._eye - self._middle
        far = max(float(np.linalg.norm(away)), 1.0)
        side = "left" if away[0] < -FACING * far else "right"
        upper = "bottom" if away[1] < -FACING * far else "top"
        return side, "front", upper

    def place(self, face: Face, share: float = 0.5) -> Points:
        """Where a face is taken hold of: in its middle, or where that is not seen on an edge that is. [mm]

        share: of the way along the shelf, for the faces that run along it.
        """
        row = self._rows.get(face.role)
        if row is not None and self._panels_face[row] >= FACING:
            x0, _, x1, _ = self._panels[row].box
            aside = (share - 0.5) * (x1 - x0) if face.way[0] == 0.0 else 0.0
            on_it: Points = self._middles[row] + (aside, 0.0, 0.0)
            return on_it
        beside = np.where(np.abs(SIDES @ face.way) > 0.5, -2.0, self._sides_face)
        edge = np.array(face.way) + SIDES[np.argmax(beside)]
        if edge[0] == 0.0:
            edge[0] = 2.0 * share - 1.0
        on_edge: Points = self._middle + edge * self._half
        return on_edge


def _cosines(ways: Points, away: Points) -> Points:
    """Cosines between ways of length 1 (N, 3) and others (N, 3)."""
    result: Points = (ways * away).sum(axis=1) / np.maximum(np.sqrt((away * away).sum(axis=1)), 1.0)
    return result


def _spread(box: _Box, faces: Sequence[Face], seen: Seen) -> list[Points]:
    """Where the faces are taken hold of (end, front, upper), clear of each other in the picture where that can be."""
    end, front, upper = faces
    best: list[Points] = []
    most = -1.0
    for shares in SHARES:
        first, second = (1.0 - share if end.role == "left" else share for share in shares)
        places = [box.place(end), box.place(front, first), box.place(upper, second)]
        pixels = [seen.pixel(place) for place in places]
        gap = min(hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(pixels, 2))
        if not best or gap > most:  # of a place behind the eye there is no pixel, and no gap
            best, most = places, gap
        if gap >= APART:
            break
    return best


def _handle(plan: Plan, pose: Pose, one: Standing, face: Face, place: Points, seen: Seen) -> Handle:
    """The handle of one face; one whose line points at the viewer is still."""
    way = np.array(face.way)
    away = place - seen.camera.eye
    points = abs(float(way @ away)) > POINTING * float(np.linalg.norm(away))
    asked = _asked(seen, place, way)
    axis, per = ((0.0, 1.0), 1.0) if points else _slope(seen, place, way, asked)
    at = seen.pixel(place)
    made = size_handle(
        plan.project, one.shelf.id, face.size, at, axis, per, key=face.key, along=_along(one, face, pose)
    )
    if pose.wall and one.shelf.mount is not None:
        left = one.shelf.mount.x
        made = catching(plan.project, made, left, left + one.shelf.length)
    start = made.number.value
    return replace(made, line=lambda travel: start + asked(travel), is_still=points)


def _along(one: Standing, face: Face, pose: Pose) -> Along | None:
    """On the wall what is pulled at the left or the top goes with the hand; the other side stays."""
    if not pose.wall or one.shelf.mount is None or face.role not in ("left", "top"):
        return None
    return goes_with(one.shelf.id, one.shelf.mount, left=face.role == "left")


def _asked(seen: Seen, place: Points, way: Points) -> Callable[[Point], float]:
    """How far along a line the hand asks for, once it has moved by so many pixels from its beginning. [mm]"""
    x, y = seen.pixel(place)
    farthest = BEYOND * seen.camera.distance

    def asked(travel: Point) -> float:
        eye, ray = seen.camera.ray((x + travel[0], -y - travel[1]), seen.size)
        along, on_line, on_ray = nearest_points(place, way, eye, ray)
        if on_ray <= 0.0:  # past where the line vanishes in the distance
            return farthest if along > 0.0 else -farthest
        return min(max(on_line, -farthest), farthest)

    return asked


def nearest_points(place: Points, way: Points, eye: Points, ray: Points) -> tuple[float, float, float]:
    """Two lines in space, ways of length 1: the cosine between them, and how far along each it is to where they are
    nearest to each other; 0 for the second where they run side by side. [mm]"""
    between = place - eye
    along, first, second = float(way @ ray), float(way @ between), float(ray @ between)
    slant = 1.0 - along * along
    if slant < 1e-9:
        return along, 0.0, 0.0
    return along, (along * second - first) / slant, (second - along * first) / slant


def _slope(seen: Seen, place: Points, way: Points, asked: Callable[[Point], float]) -> tuple[Point, float]:
    """Which way a line runs in the picture, and how much of it a pixel there spans. [mm]"""
    (x0, y0), (x1, y1) = seen.pixel(place - way), seen.pixel(place + way)
    far = hypot(x1 - x0, y1 - y0)
    if not far > 1e-9:
        return (0.0, 1.0), 1.0
    axis = ((x1 - x0) / far, (y1 - y0) / far)
    return axis, max((asked(axis) - asked((-axis[0], -axis[1]))) / 2.0, 1e-6)
