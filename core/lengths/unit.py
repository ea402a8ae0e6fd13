"""The unit a project shows, and the two exact conversions."""

from enum import StrEnum
from typing import Final

# Both exact by definition: international yard and pound agreement, 1959.
INCH_MM: Final = 25.4
POUND_KG: Final = 0.45359237


class Unit(StrEnum):
    """The unit lengths are shown in. Its value is the word the project file uses for `units`."""

    INCH = "in"
    MM = "mm"
