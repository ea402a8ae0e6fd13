"""Type: one family in four sizes, figures tabular."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

from PySide6.QtGui import QFont, QFontDatabase

FAMILY: Final = "Source Sans Pro"
SMALL: Final = 11  # notes, marks
BODY: Final = 12
LEAD: Final = 15  # what is said first
BIG: Final = 22
HUGE: Final = 34  # the one number a cut is set by, read at arm's length


@cache
def family() -> str:
    """The bundled family's name, registered with Qt on first use."""
    for path in sorted((Path(__file__).parents[2] / "resources" / "fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(path))
    return FAMILY


def font(size: int = BODY, *, strong: bool = False) -> QFont:
    """The bundled face. size: pixels at 100 %."""
    made = QFont(family())
    made.setPixelSize(size)
    made.setWeight(QFont.Weight.DemiBold if strong else QFont.Weight.Normal)
    made.setFeature(QFont.Tag("tnum"), 1)
    return made
