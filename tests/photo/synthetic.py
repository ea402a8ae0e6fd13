"""Photographs made in code: a printed grid or a face, seen by a camera with a lens, a vignette and noise."""

from __future__ import annotations

import io

import cv2
import numpy as np
from numpy.typing import NDArray
from PIL import Image

Bytes = NDArray[np.uint8]
Corners = tuple[tuple[float, float], ...]
GRID_STEP = 100.0  # mm between the crosses of a printed grid
CROSS = 12.0  # mm: half a cross
GROUND = (58, 66, 74)


def printed_grid(length: float, width: float, per_mm: float = 2.0, paper: int = 205) -> Bytes:
    """A sheet with thin crosses every 100 mm, from 50 mm in; row 0 is its upper edge."""
    sheet = np.full((round(width * per_mm), round(length * per_mm), 3), paper, np.uint8)
    for x in np.arange(50.0, length, GRID_STEP):
        for y in np.arange(50.0, width, GRID_STEP):
            at = (width - y) * per_mm, x * per_mm
            for row, column in ((CROSS, 1.5), (1.5, CROSS)):
                low, high = round(at[0] - row * per_mm), round(at[0] + row * per_mm)
                left, right = round(at[1] - column * per_mm), round(at[1] + column * per_mm)
                sheet[low:high, left:right] = 60
    return sheet


def photographed(
    sheet: Bytes, corners: Corners, size: tuple[int, int], *, lens: float = 0.0, vignette: float = 0.0, noise: float = 0
) -> Bytes:
    """The sheet as a camera sees it, on a plain ground.

    corners: where a perfect camera shows its lower left, lower right, upper right and upper left [pixels].
    lens: OpenCV's k1 for a focal length of half the diagonal. vignette: light lost in the corners, 0..1.
    """
    across, down = size
    high, wide = sheet.shape[:2]
    flat = np.float32([(0, high), (wide, high), (wide, 0), (0, 0)])
    matrix = cv2.getPerspectiveTransform(np.float32(corners), flat)  # of pixels to the sheet's
    reach = np.hypot(across, down) / 2.0
    camera = np.array([[reach, 0, across / 2.0], [0, reach, down / 2.0], [0, 0, 1.0]])
    x, y = np.meshgrid(np.arange(across) + 0.5, np.arange(down) + 0.5)
    seen = np.stack([x, y], axis=-1).reshape(-1, 1, 2)
    if lens:
        seen = cv2.undistortPoints(
            seen,
            camera,
            np.array([lens, 0, 0, 0, 0.0]),
            P=camera,
        )
    at = cv2.perspectiveTransform(seen, matrix).reshape(down, across, 2).astype(np.float32) - 0.5
    shrunk = cv2.GaussianBlur(sheet, (0, 0), 0.7)
    picture = cv2.remap(
        shrunk, at[..., 0], at[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=GROUND
    ).astype(np.float32)
    far = ((x - across / 2.0) ** 2 + (y - down / 2.0) ** 2) / reach**2
    picture *= ((1.0 - vignette * far) * (1.0 + 0.12 * (x / across - 0.5)))[..., None]
    picture += np.random.default_rng(5).normal(0.0, noise, picture.shape) if noise else 0.0
    return np.clip(picture, 0, 255).astype(np.uint8)


def bent(corners: Corners, size: tuple[int, int], lens: float) -> NDArray[np.float64]:
    """Where that camera shows points of a perfect picture. [pixels]"""
    reach = np.hypot(*size) / 2.0
    camera = np.array([[reach, 0, size[0] / 2.0], [0, reach, size[1] / 2.0], [0, 0, 1.0]])
    rays = (np.array(corners) - (size[0] / 2.0, size[1] / 2.0)) / reach
    rays = np.column_stack([rays, np.ones(len(rays))])
    shown, _ = cv2.projectPoints(rays, np.zeros(3), np.zeros(3), camera, np.array([lens, 0, 0, 0, 0.0]))
    return shown.reshape(-1, 2)


def file_of(picture: Bytes | Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    """The bytes of a file."""
    image = picture if isinstance(picture, Image.Image) else Image.fromarray(picture)
    stream = io.BytesIO()
    image.save(stream, kind, **options)
    return stream.getvalue()


def cross_at(face: Bytes, x: float, y: float, length: float, width: float) -> tuple[float, float]:
    """Where a cross that should be at (x, y) really is on a straightened face, by the weight of its ink. [mm]"""
    down, across = face.shape[:2]
    pitch = length / across, width / down
    column, row = x / pitch[0], (width - y) / pitch[1]
    half = round(20.0 / pitch[0])
    top, left = round(row) - half, round(column) - half
    window = 255.0 - face[top : top + 2 * half, left : left + 2 * half].mean(axis=2)
    ink = np.clip(window - np.median(window) - 30.0, 0.0, None)
    rows, columns = np.mgrid[: ink.shape[0], : ink.shape[1]] + 0.5
    found = (left + (ink * columns).sum() / ink.sum()) * pitch[0], (top + (ink * rows).sum() / ink.sum()) * pitch[1]
    return found[0], width - found[1]
