"""Thickness tolerances and weights of plywood. Sources stand beside the checks in tests/validation."""

from __future__ import annotations

BIRCH_DENSITY = 685.0  # kg/m3: 18 mm birch plywood, data sheet
PLYWOOD_DENSITY = 400.0  # kg/m3: the low end of plywood in general, for what a screw in it bears
PLYWOOD_STIFFNESS = 6960.0  # MPa: the low end of plywood in bending, typical
PLYWOOD_STRENGTH = 34.1 * 0.6 / 1.2  # MPa: weak way of 18 mm birch plywood, for good (k_mod 0.6, gamma_M 1.2)
PLYWOOD_SHEAR = 2.5 * 0.6 / 1.2  # MPa: rolling shear of birch plywood, for good; 2.5 typical, from memory
PLYWOOD_GRAVITY = 0.42  # specific gravity a screw in it is reckoned with: typical

INCH = 25.4
_STEP = INCH / 32.0  # PS 1: category +- 1/32 in up to 13/16 in
_THICK = 13.0 / 16.0 * INCH
_SHARE = 0.05  # above that, +- 5 %


def category_range(category: float) -> tuple[float, float]:
    """Least and greatest thickness of unsanded plywood of a performance category, PS 1. [mm]

    category: the label's nominal thickness, like 23/32 in. [mm]
    """
    off = _STEP if category <= _THICK else _SHARE * category
    return category - off, category + off


def sanded_range(nominal: float) -> tuple[float, float]:
    """Least and greatest thickness of sanded plywood, the form of EN 315: -(0.4 + 0.03 t), +(0.2 + 0.03 t). [mm]"""
    return nominal - (0.4 + 0.03 * nominal), nominal + (0.2 + 0.03 * nominal)


def panel_mass(length: float, width: float, thickness: float, density: float) -> float:
    """Mass of a panel. [kg] Sizes in mm, density in kg/m3."""
    return length * width * thickness * 1e-9 * density
