"""What makes an area of a sheet that is to be kept clear unusable: too few corners, no room inside, crossing sides."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from core.document.errors import ProjectError, words
from core.document.model import KeepClear, Sheet
from core.document.ranges import MAX_AREAS, MAX_CORNERS
from core.language import tr

Corners = tuple[tuple[float, float], ...]

LEAST = 0.01  # mm²: a smaller area is a slip of the hand, or all its corners lie on one line


def check_areas(sheets: Iterable[Sheet]) -> None:
    """Raises ProjectError at the first area that is none. Its numbers are known to be in range."""
    for n, sheet in enumerate(sheets):
        if len(sheet.keep_clear) > MAX_AREAS:
            why = tr(
                "at most {MAX_AREAS} areas of a sheet are kept clear, there are {keep_clear}",
                MAX_AREAS=MAX_AREAS,
                keep_clear=len(sheet.keep_clear),
            )
            raise ProjectError(words(("sheets", n, "keep_clear")), why)
        for m, area in enumerate(sheet.keep_clear):
            if complaint := area_complaint(area.corners):
                raise ProjectError(words(("sheets", n, "keep_clear", m, "corners")), complaint)


def box_of(area: KeepClear) -> tuple[float, float, float, float] | None:
    """x0, y0, x1, y1 of an area that is a rectangle along the sheet's edges, None for any other. [mm]"""
    return _box(area.corners)


@lru_cache(maxsize=4096)
def area_complaint(corners: Corners) -> str:
    """What is wrong with an area's corners, '' if nothing."""
    if len(corners) < 3:
        return tr(
            "at least 3 corners are needed, there {rest} {corners}",
            rest="is" if len(corners) == 1 else "are",
            corners=len(corners),
        )
    if len(corners) > MAX_CORNERS:
        return tr("at most {MAX_CORNERS} corners, there are {corners}", MAX_CORNERS=MAX_CORNERS, corners=len(corners))
    if (box := _box(corners)) is not None:
        return _too_small((box[2] - box[0]) * (box[3] - box[1]))
    return _polygon_complaint(corners)


def _too_small(area: float) -> str:
    return "" if area >= LEAST else tr("the corners lie on one line or in one place: nothing is inside")


@lru_cache(maxsize=4096)
def _box(corners: Corners) -> tuple[float, float, float, float] | None:
    if len(corners) != 4:
        return None
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    if (ay == by and bx == cx and cy == dy and dx == ax) or (ax == bx and by == cy and cx == dx and dy == ay):
        return min(ax, cx), min(ay, cy), max(ax, cx), max(ay, cy)
    return None


def _polygon_complaint(corners: Corners) -> str:
    """By shapely, which is imported only where there is such an area."""
    import shapely

    polygon = shapely.Polygon(corners)
    if shapely.is_valid(polygon):
        return _too_small(polygon.area)
    if not shapely.convex_hull(polygon).area >= LEAST:
        return _too_small(0.0)
    found = shapely.is_valid_reason(polygon).partition("[")[2].rstrip("]").split()
    try:
        at = tr(" at x {:.6g}, y {:.6g} mm").format(*map(float, found[:2]))
    except (IndexError, ValueError):
        at = ""
    return tr("the sides touch or cross each other{at}", at=at)
