"""The jobs that steps are tested on."""

from __future__ import annotations

from typing import Any

from core.document.model import Project, Saw, Sheet, Shelf

INCH = 25.4


def golden_inch(**saw: Any) -> Project:
    """Worked example, common practice: L 60, D 10, H 2-1/2, ply 0.719, kerf 1/8, c 1/32, 45°, rail 7-1/2."""
    wood = Sheet("A", 96 * INCH, 48 * INCH, 0.719 * INCH, trim=INCH / 4, use="shell")
    other = Sheet("other", 96 * INCH, 48 * INCH, 0.719 * INCH, use="frame")
    made = {"kerf": INCH / 8, "overcut": 0.0, "allowance": INCH / 32, "guide_width": 7.5 * INCH, **saw}
    return Project((wood, other), (Shelf("ledge", 60 * INCH, 10 * INCH, 2.5 * INCH),), saw=Saw(**made), units="in")


def golden_metric(**saw: Any) -> Project:
    """The same in millimetres: 1800 x 250 x 60, ply 17.8, kerf 1.8, clean-up 0.8, rail 190 wide."""
    wood = Sheet("A", 2500.0, 1250.0, 17.8, trim=6.0, use="shell")
    other = Sheet("other", 2500.0, 1250.0, 17.8, use="frame")
    made = {"kerf": 1.8, "overcut": 0.0, "allowance": 0.8, "guide_width": 190.0, **saw}
    return Project((wood, other), (Shelf("ledge", 1800.0, 250.0, 60.0),), saw=Saw(**made), units="mm")
