"""A photographed sheet wrapped on the shelf: just beside each seam that wraps, both drawers show the pixels of the
straightened photograph that lie one seam's loss apart on the sheet."""

from __future__ import annotations

from functools import lru_cache

import msgspec
import numpy as np
import pytest
from PIL import Image

from app.fold.camera import Camera
from app.fold.pose import Pose
from app.fold.render import View
from app.fold.standing import standing
from app.showing.still import Stand
from app.showing.wish import Showing
from core.document.model import Photo
from core.face import veneer
from core.figure.places import seam_places
from core.geometry.fold import fold_transforms, moved, net_toes
from core.photo.facing import photographed
from core.plan.model import Plan, StockSheet
from tests.fold.conftest import Draw, renderer
from tests.fold.conftest import draw as draw
from tests.fold.scenes import SHELVES, STOCK, plan_of
from tests.photo.synthetic import photographed as camera_picture

__all__ = ["renderer"]  # a fixture
SIZE = (900, 640)
BESIDE = 5.0  # mm: so far from the seam the wood is looked at
CORNERS = ((130.0, 1300.0), (2260.0, 1190.0), (2130.0, 190.0), (250.0, 120.0))  # of the sheet in the picture [px]
LOOKS = {"top-front": (0.0, 45.0), "front-bottom": (0.0, -45.0), "front-left": (-45.0, 0.0), "front-right": (45.0, 0.0)}
CASES = (*((seam, False) for seam in LOOKS), ("top-front", True), ("front-left", True))  # and is the net turned?


@lru_cache(maxsize=2)
def plan_lying(turned: bool) -> Plan:
    return plan_of(msgspec.structs.replace(SHELVES[0], turned=turned))


@lru_cache(maxsize=1)
def photo_face() -> np.ndarray:
    """The sheet's face out of a photograph of it: perspective, vignette and noise, straightened and evened."""
    size = (2400, 1400)
    wood = veneer(STOCK.length, STOCK.width, 8, 2400, 1400, wood="walnut")
    seen = Image.fromarray(camera_picture(wood, CORNERS, size, vignette=0.25, noise=2.0))
    corners = tuple((x / size[0], y / size[1]) for x, y in CORNERS)
    photo = Photo("walnut.jpg", "0" * 64, corners)
    return photographed([(photo, lambda _wanted: seen)], None, (STOCK.length, STOCK.width), (2048, 1152))


def face_of(_sheet: StockSheet) -> np.ndarray:
    return photo_face()


def by_opengl(plan: Plan, camera: Camera, draw: Draw) -> np.ndarray:
    return draw(plan, View(pose=Pose(), camera=camera), SIZE, face_of)


def by_hand(plan: Plan, camera: Camera, draw: Draw) -> np.ndarray:
    return Stand(plan, Showing("upper"), face_of).picture(camera, SIZE)[..., :3].astype(float)


@pytest.mark.parametrize("drawer", [by_opengl, by_hand])
@pytest.mark.parametrize(("seam", "turned"), CASES)
def test_both_sides_of_a_seam_are_one_loss_apart_on_the_photograph(draw: Draw, seam: str, turned: bool, drawer) -> None:
    plan = plan_lying(turned)
    (shown,) = standing(plan, Pose(), "upper")
    joint = next(joint for joint in shown.net.joints if joint.name == seam)
    transforms = fold_transforms(shown.net, 1.0, shown.outside_gap)
    toes = net_toes(shown.net, joint)
    middle = np.concatenate([moved(transforms[r], t) for r, t in zip(joint.panels, toes, strict=True)]).mean(axis=0)
    camera = Camera(*LOOKS[seam], 330.0, (float(middle[0]), float(middle[1]), float(middle[2])))
    picture = drawer(plan, camera, draw)
    place = next(one for one in seam_places(plan, "upper") if one.seam == f"upper/{seam}")
    assert place.loss == pytest.approx(next(s.show_loss for s in plan.seams if s.id == place.seam), abs=1e-6)
    along = np.linspace(-28.0, 28.0, 57)
    for role, toe in zip(joint.panels, toes, strict=True):
        panel = next(one for one in shown.net.panels if one.role == role)
        inner = np.array([panel.x + panel.length / 2.0, panel.y + panel.width / 2.0, 0.0])
        way = (toe[1] - toe[0]) / np.linalg.norm(toe[1] - toe[0])
        into = inner - toe.mean(axis=0)
        into -= way * (into @ way)
        into /= np.linalg.norm(into)
        net = toe.mean(axis=0) + BESIDE * into + along[:, None] * way
        seen = bilinear(picture, camera.project(moved(transforms[role], net), (float(SIZE[0]), float(SIZE[1]))))
        # On the sheet, by the plan's own places of the seam's edges: so far below the lower, or above the higher.
        x, y = (net[:, :2] + shown.origin).T
        off = x if place.runs == "y" else y
        is_high = off.mean() > (place.low + place.high) / 2.0
        assert off == pytest.approx(np.full(57, place.high + BESIDE if is_high else place.low - BESIDE), abs=1e-6)
        step = np.array([1.0, 0.0]) if place.runs == "y" else np.array([0.0, 1.0])
        likeness = {n: alike(seen, on_photo(np.column_stack([x, y]) + n * step)) for n in range(-6, 7)}
        assert likeness[0] > 0.9, role
        assert abs(max(likeness, key=likeness.__getitem__)) <= 1, "to the millimetre, and not one loss off"
        light = (seen / on_photo(np.column_stack([x, y]))).mean(axis=0)
        assert light.std() < 0.03, "lit in one colour"


def on_photo(places: np.ndarray) -> np.ndarray:
    """The straightened photograph's colours at places of the sheet. [mm]"""
    down, across = photo_face().shape[:2]
    pixels = places * (across / STOCK.length, -down / STOCK.width) + (0.0, down)
    return bilinear(photo_face().astype(float), pixels)


def alike(one: np.ndarray, other: np.ndarray) -> float:
    return float(np.mean([np.corrcoef(one[:, n], other[:, n])[0, 1] for n in range(3)]))


def bilinear(picture: np.ndarray, at: np.ndarray) -> np.ndarray:
    """The picture between its pixels; pixel (i, j) has its middle at i + 0.5, j + 0.5."""
    x, y = (at - 0.5).T
    i, j = np.floor(x).astype(int), np.floor(y).astype(int)
    u, v = (x - i)[:, None], (y - j)[:, None]
    rows = (picture[j, i] * (1 - u) + picture[j, i + 1] * u, picture[j + 1, i] * (1 - u) + picture[j + 1, i + 1] * u)
    return rows[0] * (1 - v) + rows[1] * v
