"""Lengths as makers type and read them; inside, everything is millimetres.

`parse_length` reads what was typed, the `show_*` functions write it for people, `snap_down` and `snap_up`
move a length to one that can be printed exactly. The stored millimetres never pass through shown text,
so changing the unit shown changes nothing that is stored.
"""

from core.lengths.grid import Denominator, Rounding, snap_down, snap_up
from core.lengths.parse import LengthError, parse_length
from core.lengths.show import (
    show_angle,
    show_both,
    show_exact,
    show_feet,
    show_length,
    show_mass,
    show_thickness,
)
from core.lengths.unit import INCH_MM, POUND_KG, Unit

__all__ = [
    "INCH_MM",
    "POUND_KG",
    "Denominator",
    "LengthError",
    "Rounding",
    "Unit",
    "parse_length",
    "show_angle",
    "show_both",
    "show_exact",
    "show_feet",
    "show_length",
    "show_mass",
    "show_thickness",
    "snap_down",
    "snap_up",
]
