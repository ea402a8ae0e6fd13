"""Measuring ruled lines on a picture: where along a row or column they are, and what place of the sheet that is."""

from __future__ import annotations

import numpy as np

from app.fold.camera import Camera, Size
from app.fold.standing import Standing
from core.geometry.fold import fold_transforms

Picture = np.ndarray


def line_places(pixels: np.ndarray, channel: int) -> np.ndarray:
    """Middles of the lines of one colour along a run of pixels (N, 3), in pixels. channel: 0 red, 2 blue.

    Only colour counts: light and shade, and the ink of seams, darken all channels alike.
    """
    other = pixels[:, (1, 2 - channel)].max(axis=1)
    own = np.maximum(pixels[:, channel], 1.0)
    weight = np.clip(1.0 - other / own, 0.0, 1.0)
    weight[weight < 0.08] = 0.0
    places, start = [], None
    for at, has_ink in enumerate([*(weight > 0.0), False]):
        if has_ink and start is None:
            start = at
        elif not has_ink and start is not None:
            run = np.arange(start, at)
            if weight[start:at].sum() > 0.3 and start > 0 and at < len(pixels):
                places.append(float((weight[start:at] * (run + 0.5)).sum() / weight[start:at].sum()))
            start = None
    return np.array(places)


def on_panel(
    camera: Camera, size: Size, at: tuple[float, float], shown: Standing, role: str, fold: float
) -> np.ndarray:
    """The sheet point (x, y) of a panel's show face under a pixel, by the plan's geometry alone. [mm]"""
    matrix = fold_transforms(shown.net, fold, shown.outside_gap)[role]
    start, way = camera.ray(at, size)
    back = matrix[:3, :3].T
    origin, direction = back @ (start - matrix[:3, 3]), back @ way
    point = origin - direction * origin[2] / direction[2]  # the show face is z = 0 in net space
    result: np.ndarray = point[:2] + shown.origin
    return result


def is_on(shown: Standing, role: str, sheet_point: np.ndarray, margin: float = 0.0) -> bool:
    """Does that point of the sheet belong to the panel, so far inside its edges? [mm]"""
    x, y = sheet_point - shown.origin
    x0, y0, x1, y1 = shown.net.panel(role).box
    return bool(x0 + margin <= x <= x1 - margin and y0 + margin <= y <= y1 - margin)
