"""Screws by the European rules (EN 1995-1-1, 8.7.2 and 8.3.3; design values). Units: N, mm, kg/m3.

The withdrawal equation was made for screws of 6 to 12 mm; a thinner one should have its maker's declared value, and is
estimated with the same equation here. Shear: the yield equations with the wall board as a gap.
"""

from __future__ import annotations

from math import hypot
from typing import Final

from core.strength.yielding import Dowel, yield_loads

PERMANENT: Final = 0.6  # k_mod: permanent action, indoors
WOOD_FACTOR: Final = 1.3  # gamma_M of connections
LEAST_DIAMETERS: Final = 6.0
DENSITY_OF_GRAVITY: Final = 350.0 / 0.42  # characteristic density for a specific gravity: a C24 stud has both
ROOT_SHARE: Final = 0.66  # effective diameter in shear, 1.1 times a root of 0.6: from memory
STEEL: Final = 600.0  # MPa, least of a hardened screw: typical


def withdrawal_strength(diameter: float, thread: float, density: float) -> float:
    """(8.39) f_ax,k = 0.52 d^-0.5 l^-0.1 rho^0.8. [N/mm2]"""
    return float(0.52 * diameter**-0.5 * thread**-0.1 * density**0.8)


def characteristic_withdrawal(diameter: float, thread: float, density: float, count: int = 1) -> float:
    """(8.38) F_ax,Rk of `count` screws pulled straight out of side grain. [N]"""
    strength = withdrawal_strength(diameter, thread, density)
    return float(count**0.9) * strength * diameter * thread * min(diameter / 8.0, 1.0)


def withdrawal(density: float, diameter: float, thread: float, count: int = 1) -> float:
    """What one of `count` screws pulled together may be pulled with for good. [N] Nothing below six diameters."""
    if thread < LEAST_DIAMETERS * diameter - 1e-9:
        return 0.0
    together = characteristic_withdrawal(diameter, thread, density, count)
    return together / count * PERMANENT / WOOD_FACTOR


def lateral(density: tuple[float, float], diameter: float, side: float, main: float, gap: float) -> float:
    """What one screw may carry across its length for good. [N] density of plywood and stud; sizes in mm."""
    if main < LEAST_DIAMETERS * diameter - 1e-9:
        return 0.0
    d = ROOT_SHARE * diameter
    dowel = Dowel(0.11 * density[0] * d**0.7, 0.082 * density[1] * d**0.7, 0.3 * STEEL * d**2.6)
    return min(yield_loads(dowel, side, main, gap).values()) * PERMANENT / WOOD_FACTOR


def combined_use(pull: float, shear: float) -> float:
    """(8.28) shares of pull and shear that are used up, together; 1 is all."""
    return hypot(pull, shear)
