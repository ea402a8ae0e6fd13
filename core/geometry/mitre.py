"""Mitres of pieces with other corners than square ones: polygons, and sides that slope."""

from __future__ import annotations

from math import asin, atan, cos, degrees, pi, radians, sin, tan


def compound_mitre(sides: int, slope: float) -> tuple[float, float]:
    """Gauge angle off square and blade tilt off upright for a regular frame of sloping sides. [deg]

    sides: number of sides, 3 or more.
    slope: of each side from lying flat (0, a picture frame) to upright (90, a box). [deg]
    Returns (mitre, tilt): tan mitre = cos slope tan(180/n), sin tilt = sin slope sin(180/n).
    Raises ValueError for fewer than 3 sides or a slope outside 0..90.
    """
    if sides < 3 or not 0.0 <= slope <= 90.0:
        raise ValueError(f"no frame of {sides} sides has sides sloping {slope:g}°")
    turn, lean = pi / sides, radians(slope)
    mitre = atan(cos(lean) * tan(turn)) if slope < 90.0 else 0.0
    return degrees(mitre), degrees(asin(sin(lean) * sin(turn)))


def polygon_corner(sides: int) -> float:
    """Inner corner of a regular polygon, 180 - 360/n. [deg] Raises ValueError for fewer than 3 sides."""
    if sides < 3:
        raise ValueError(f"a polygon has 3 sides or more, not {sides}")
    return 180.0 - 360.0 / sides
