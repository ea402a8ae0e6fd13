"""One frame to build: the shelf it carries, the two sheets, and how its numbers are shown."""

from __future__ import annotations

from math import ceil, floor
from typing import Final

import msgspec

from core.document.model import Project, Shelf
from core.geometry.seam import SeamSection
from core.lengths import Rounding, Unit, show_length, show_thickness, snap_down, snap_up
from core.plan.model import Finding, Fix, Scalar, Severity

COARSE_INCH: Final = 16  # sizes in fixes: sixteenths, or whole millimetres


def coarse_up(mm: float, unit: Unit) -> float:
    """The next size a maker would ask for: whole sixteenths or millimetres. [mm]"""
    return snap_up(mm, unit, COARSE_INCH) if unit is Unit.INCH else float(ceil(mm - 1e-9))


def coarse_down(mm: float, unit: Unit) -> float:
    """The same, not above mm."""
    return snap_down(mm, unit, COARSE_INCH) if unit is Unit.INCH else float(floor(mm + 1e-9))


def between(low: float, high: float, now: float, unit: Unit) -> float:
    """The place from low to high that is nearest to `now`: a round one where there is one, else the very edge. [mm]"""
    if low <= now <= high:
        return now
    return min(coarse_up(low, unit), high) if low > now else max(coarse_down(high, unit), low)


class FrameJob(msgspec.Struct, frozen=True):
    """What a frame is made from; thicknesses in mm."""

    project: Project
    shelf: Shelf
    shell_thickness: float
    frame_thickness: float
    section: SeamSection

    @property
    def unit(self) -> Unit:
        """The unit the project shows."""
        return Unit.INCH if self.project.units == "in" else Unit.MM

    def show(self, mm: float, rounding: Rounding = "nearest") -> str:
        """A length for a sentence."""
        return show_length(mm, self.unit, marks=False, rounding=rounding)

    def show_sheet(self, mm: float) -> str:
        """A thickness for a sentence."""
        return show_thickness(mm, self.unit)

    def coarse_up(self, mm: float) -> float:
        """The next size a maker would ask for: whole sixteenths or millimetres. [mm]"""
        return coarse_up(mm, self.unit)

    def coarse_down(self, mm: float) -> float:
        """The same, not above mm."""
        return coarse_down(mm, self.unit)

    def set_shelf(self, text: str, key: str, value: Scalar) -> Fix:
        """A fix that changes one key of this shelf, "height" or "mount/x"."""
        n = next(n for n, shelf in enumerate(self.project.shelves) if shelf.id == self.shelf.id)
        return Fix(text, {f"/shelves/{n}/{key}": value})

    def finding(
        self, severity: Severity, code: str, message: str, fixes: tuple[Fix, ...] = (), amount: float | None = None
    ) -> Finding:
        """A finding about this shelf."""
        return Finding(severity, code, self.shelf.id, message, fixes, amount)
