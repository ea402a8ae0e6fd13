"""Screws by the North American design rules (NDS 2018, allowable loads). Units: N and mm; inches and pounds inside.

Withdrawal 12.2-1 and 12.2-2, lateral 12.3.1 with the gap of the general dowel equations (TR-12), duration 2.3.2,
combined 12.4.1. The checks in tests/validation name what each was compared with.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import Final

from core.lengths import INCH_MM
from core.strength.yielding import Dowel, yield_loads

POUND: Final = 4.4482216  # N
DURATIONS: Final = {"permanent": 0.9, "ten years": 1.0, "two months": 1.15, "seven days": 1.25, "ten minutes": 1.6}
DURATION: Final = DURATIONS["permanent"]  # what stands on a shelf stays there
LEAST_DIAMETERS: Final = 6.0  # of penetration; less holds nothing by the rules
LEAST_OF_LAG: Final = 4.0  # the same for a lag screw pulled out, its tip not counted (from memory)
FULL_DIAMETERS: Final = 10.0  # below this a screw in shear holds in proportion
LARGEST_WOOD_SCREW: Final = 0.372  # in, No. 24: above it the equation of lag screws
TIP_SHARE: Final = 0.625  # a lag screw's tapered tip, of its diameter: the longest of Table L2 (5/32 in of 1/4 in)
GREATEST_GRAVITY: Final = 0.73  # the equations were not tried beyond
THICKEST_IN_SHEAR: Final = 0.25  # in: one thicker is counted as that
ROOTS: Final = ((0.138, 0.113), (0.164, 0.131), (0.190, 0.152), (0.216, 0.171), (0.242, 0.196))  # nominal, root [in]
BEARING_STEP: Final = 50.0  # psi
ROOT_SHARE: Final = 0.8  # of the diameter, for sizes not in the list
YIELDS: Final = ((0.142, 100_000.0), (0.177, 90_000.0), (0.236, 80_000.0), (0.273, 70_000.0))  # nominal up to: psi
THICK_YIELD: Final = 45_000.0  # psi, beyond: typical, from memory


def wood_screw_withdrawal(gravity: float, diameter: float) -> float:
    """2850 G^2 D: pounds for each inch of thread in side grain. diameter [in]"""
    return 2850.0 * gravity**2 * diameter


def lag_screw_withdrawal(gravity: float, diameter: float) -> float:
    """1800 G^1.5 D^0.75: pounds for each inch of thread in side grain, the tip not counted. diameter [in]"""
    return float(1800.0 * gravity**1.5 * diameter**0.75)


def withdrawal(gravity: float, diameter: float, thread: float, *, end_grain: bool = False) -> float:
    """What one screw may be pulled with for good. [N] diameter, thread in the stud [mm].

    Nothing for a wood screw with less than six diameters of thread, or in end grain; nothing for a lag screw with
    less than four beside its tip; in end grain it holds 3/4.
    """
    d, inches, g = diameter / INCH_MM, thread / INCH_MM, min(gravity, GREATEST_GRAVITY)
    if d <= LARGEST_WOOD_SCREW:
        holds = inches >= LEAST_DIAMETERS * d - 1e-9 and not end_grain
        return wood_screw_withdrawal(g, d) * inches * DURATION * POUND if holds else 0.0
    threaded = inches - TIP_SHARE * d  # its tip holds nothing
    if threaded < LEAST_OF_LAG * d - 1e-9:
        return 0.0
    return lag_screw_withdrawal(g, d) * threaded * DURATION * POUND * (0.75 if end_grain else 1.0)


def bearing(gravity: float) -> float:
    """What wood bears under a thin dowel, 16600 G^1.84, to the 50 psi that the rules' table prints. [psi]"""
    return BEARING_STEP * round(16600.0 * float(gravity**1.84) / BEARING_STEP)


def lateral_modes(side: float, main: float, gap: float, root: float, yields: float, g: tuple[float, float]) -> float:
    """The least yield load in pounds, reduced, for normal duration.

    side, main: depth in each member, gap, root diameter [in]; yields: bending yield strength [psi]; g: specific
    gravity of side and main member.
    """
    dowel = Dowel(bearing(g[0]) * root, bearing(g[1]) * root, yields * root**3 / 6.0)
    reduction = 2.2 if root <= 0.17 else 10.0 * root + 0.5
    return min(yield_loads(dowel, side, main, gap).values()) / reduction


def lateral(gravity: tuple[float, float], diameter: float, side: float, main: float, gap: float) -> float:
    """What one screw may carry across its length for good. [N]

    gravity of side and main member; diameter, depth in each, gap [mm]. Nothing with less than six diameters.
    """
    d = min(diameter / INCH_MM, THICKEST_IN_SHEAR / ROOT_SHARE)
    inches = main / INCH_MM
    if main < LEAST_DIAMETERS * diameter - 1e-9:
        return 0.0
    pounds = lateral_modes(side / INCH_MM, inches, gap / INCH_MM, _root(d), _yields(d), gravity)
    return pounds * min(1.0, main / (FULL_DIAMETERS * diameter)) * DURATION * POUND


def combined(pull: float, shear: float, angle: float) -> float:
    """12.4-1: what a screw carries along a load at an angle to the wood's face. [deg]

    pull, shear: what it carries in withdrawal alone and in shear alone, in one unit.
    """
    a = radians(angle)
    return pull * shear / (pull * cos(a) ** 2 + shear * sin(a) ** 2)


def _root(d: float) -> float:
    """Root diameter: of the nearest listed size where it is one, else a share. [in]"""
    for nominal, root in ROOTS:
        if abs(nominal - d) < 0.003:
            return root * d / nominal
    return ROOT_SHARE * d


def _yields(d: float) -> float:
    return next((psi for most, psi in YIELDS if d <= most), THICK_YIELD)
